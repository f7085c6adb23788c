/* The machine as a starting record for content/families, ready for `python -m generator check`. */
(function () {
  "use strict";

  /** Words as a record takes them: nothing that cannot be seen, nothing that a browser takes for a tag. */
  function tidy(title) {
    const seen = title.normalize("NFC").replace(/\p{C}/gu, " ").replace(/<(?=\S)/g, "< ");
    return [...seen.replace(/\s+/g, " ").trim()].slice(0, 120).join("").trim() || "My machine";
  }

  /** A YAML string in double quotes. */
  function quoted(text) {
    return `"${text.replace(/[\\"]/g, "\\$&")}"`;
  }

  /** A file name that no family of the book has. */
  function idOf(book, title) {
    const plain = title.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
    const base = plain.replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60).replace(/-+$/, "") || "my-machine";
    const taken = new Set(book.families.map((f) => f.id));
    let id = base;
    for (let number = 2; taken.has(id); number += 1) id = `${base}-${number}`;
    return id;
  }

  function use({ use: id, without }) {
    return without.length ? `  - use: ${id}\n    without: [${without.join(", ")}]` : `  - ${id}`;
  }

  /** {id, text} of the record. */
  function recordOf(book, chosen) {
    const title = tidy(chosen.title);
    const features = book.features.map((f) => `  ${f.id}: ${Boolean(chosen.features[f.id])}`);
    const lines = [
      "# yaml-language-server: $schema=../../schema/family.schema.json",
      `title: ${quoted(title)}`,
      `kind: ${chosen.kind}`,
      "summary: A starting record, made at the bench from what one machine was seen to have.",
      ...(features.length ? ["features:", ...features] : []),
      "assemblies:",
      ...chosen.uses.map(use),
    ];
    return { id: idOf(book, title), text: `${lines.join("\n")}\n` };
  }

  handwheel.unlisted.recordOf = recordOf;
})();
