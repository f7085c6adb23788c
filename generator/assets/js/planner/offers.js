/* The lists to choose work from: one for each kind, narrowed by words. */
(function () {
  "use strict";
  const { el } = handwheel;

  const TITLES = { for: "Faults to put right", renew: "Parts to renew", set: "Settings to make" };
  const LISTS = { for: "modes", renew: "parts", set: "settings" };

  function tick(family, kind, id, picked, toggle) {
    const { title, home } = family[LISTS[kind]][id];
    const remedy = kind === "for" ? `${family.remedies[family.modes[id].remedy].says} · ` : "";
    const input = el("input", { type: "checkbox", "data-kind": kind, "data-id": id, checked: picked, onchange: () => toggle(kind, id) });
    return el("label", { class: "hw-tick" }, input, el("span", {}, el("b", {}, title), el("small", {}, `${remedy}${family.homes[home].title}`)));
  }

  function group(family, kind, picks, toggle) {
    const items = family[LISTS[kind]];
    const ids = Object.keys(items).sort((a, b) => items[a].title.localeCompare(items[b].title, "en") || (a < b ? -1 : 1));
    const rows = ids.map((id) => tick(family, kind, id, picks[kind].includes(id), toggle));
    return el("details", { class: "hw-plan-offers" }, el("summary", {}, `${TITLES[kind]} `, el("small", {}, String(ids.length))), rows);
  }

  /** Shows only what has all the words; a list with a find stands open. */
  function narrow(groups, words) {
    const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
    groups.forEach((group) => {
      const rows = [...group.querySelectorAll(".hw-tick")];
      rows.forEach((row) => (row.hidden = !wanted.every((word) => row.textContent.toLowerCase().includes(word))));
      const left = rows.filter((row) => !row.hidden).length;
      group.hidden = !left;
      group.querySelector("summary small").textContent = String(left);
      group.open = wanted.length > 0;
    });
    return groups.some((group) => !group.hidden);
  }

  const groups = (family, picks, toggle) => handwheel.picks.KINDS.map((kind) => group(family, kind, picks, toggle));

  function chosen(family, picks, toggle) {
    const item = (kind, id) => {
      const { title } = family[LISTS[kind]][id];
      const says = { for: title, renew: `Renew: ${title}`, set: `Set: ${title}` }[kind];
      const drop = el("button", { type: "button", class: "hw-plain", "aria-label": `Take out: ${says}`, onclick: () => toggle(kind, id) }, "Take out");
      return el("li", {}, el("span", {}, says), drop);
    };
    return handwheel.picks.KINDS.flatMap((kind) => picks[kind].map((id) => item(kind, id)));
  }

  handwheel.offers = { groups, narrow, chosen };
})();
