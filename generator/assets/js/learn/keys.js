/* The page that lists the keys of records: a field that leaves the keys with a word, and the headings above them. */
(function () {
  "use strict";

  const field = document.querySelector("#find-key");
  const contents = document.querySelector(".hw-kinds");
  const kinds = [...document.querySelectorAll(".hw-kind")];
  const said = (text) => text.toLowerCase().replace(/\s+/g, " ");
  const rows = kinds.flatMap((kind) =>
    [...kind.querySelectorAll("tbody tr")].map((row) => ({
      row,
      kind,
      key: said(row.querySelector("th").textContent),
      text: said(row.textContent),
    }))
  );

  /** Keys that have the word in their name; where none has, those that have it anywhere. */
  function found(word) {
    const named = rows.filter(({ key }) => key.includes(word));
    return new Set(named.length ? named : rows.filter(({ text }) => text.includes(word)));
  }

  function counted(number) {
    return number === 1 ? "1 key" : `${number || "no"} keys`;
  }

  function show() {
    const word = said(field.value.trim());
    const left = found(word);
    rows.forEach((entry) => (entry.row.hidden = !left.has(entry)));
    const open = new Set([...left].map(({ kind }) => kind));
    kinds.forEach((kind) => (kind.hidden = !open.has(kind)));
    contents.hidden = word !== "";
    field.parentElement.querySelector("output").textContent = word ? counted(left.size) : "";
  }

  field.addEventListener("input", show);
  field.parentElement.hidden = false;
  show();
})();
