/* The lists to choose work from: one for each kind, narrowed by words. */
(function () {
  "use strict";
  const { el } = handwheel;

  const TITLES = { for: "Faults to put right", renew: "Parts to renew", set: "Settings to make" };
  const LISTS = { for: "modes", renew: "parts", set: "settings" };

  function tick(family, kind, id, picked, toggle) {
    const { title, home } = family[LISTS[kind]][id];
    const does = kind === "for" ? family.remedies[family.modes[id].remedy].says : "";
    const input = el("input", { type: "checkbox", "data-kind": kind, "data-id": id, checked: picked, onchange: () => toggle(kind, id) });
    const small = el("small", {}, [does, family.homes[home].title].filter(Boolean).join(" · "));
    return el("label", { class: "hw-tick", "data-title": title, "data-does": does }, input, el("span", {}, el("b", {}, title), small));
  }

  function group(family, kind, picks, toggle) {
    const items = family[LISTS[kind]];
    const ids = Object.keys(items).sort((a, b) => items[a].title.localeCompare(items[b].title, "en") || (a < b ? -1 : 1));
    const rows = ids.map((id) => tick(family, kind, id, picks[kind].includes(id), toggle));
    rows.forEach((row, place) => (row.dataset.place = String(place)));
    return el("details", { class: "hw-plan-offers" }, el("summary", {}, `${TITLES[kind]} `, el("small", {}, String(ids.length))), rows);
  }

  /** What is asked, and the same with each of its words' other names: timing belt, toothed belt. */
  function ways(words, alike) {
    const asked = words.toLowerCase().split(/\s+/).filter(Boolean).join(" ");
    const named = (names) => names.find((name) => ` ${asked} `.includes(` ${name} `));
    const others = alike.filter(named).flatMap((names) => names.map((name) => ` ${asked} `.replace(` ${named(names)} `, ` ${name} `)));
    return [asked, ...others].map((way) => way.split(" ").filter(Boolean));
  }

  /** 1 where the title has all the words, 2 with what is done, 3 with the mechanism's name, else 4. */
  function nearness(row, asked) {
    const has = (text) => asked.some((way) => way.every((word) => text.toLowerCase().includes(word)));
    const { title, does } = row.dataset;
    return [title, `${title} ${does}`, row.textContent].findIndex(has) + 1 || 4;
  }

  /** Shows what has all the words, by its title first; by its mechanism's name only where nothing has them itself. */
  function narrow(groups, words, alike) {
    const asked = ways(words, alike);
    const rows = groups.flatMap((group) => [...group.querySelectorAll(".hw-tick")]);
    const ranks = new Map(rows.map((row) => [row, nearness(row, asked)]));
    const most = [...ranks.values()].some((n) => n < 3) ? 2 : 3;
    groups.forEach((group) => {
      const own = rows.filter((row) => group.contains(row)).sort((a, b) => ranks.get(a) - ranks.get(b) || a.dataset.place - b.dataset.place);
      own.forEach((row) => (row.hidden = ranks.get(row) > most));
      group.append(...own);
      const left = own.filter((row) => !row.hidden).length;
      group.hidden = !left;
      group.querySelector("summary small").textContent = String(left);
      group.open = asked[0].length > 0;
    });
    return groups.some((group) => !group.hidden);
  }

  const groups = (family, picks, toggle) => handwheel.picks.KINDS.map((kind) => group(family, kind, picks, toggle));

  function chosen(family, picks, toggle) {
    const item = (kind, id) => {
      const { title } = family[LISTS[kind]][id];
      const says = { for: title, renew: `Renew: ${title}`, set: `Set: ${title}` }[kind];
      const drop = el("button", { type: "button", class: "hw-plain", "aria-label": `Drop from the plan: ${says}`, onclick: () => toggle(kind, id) }, "Drop from the plan");
      return el("li", {}, el("span", {}, says), drop);
    };
    return handwheel.picks.KINDS.flatMap((kind) => picks[kind].map((id) => item(kind, id)));
  }

  handwheel.offers = { groups, narrow, chosen };
})();
