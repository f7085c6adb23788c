/* The complaints to press, in the groups of the book's own lists; and the listed machine's page where nothing differs. */
(function () {
  "use strict";
  const { el, root } = handwheel;

  const there = (features) => Object.keys(features).filter((id) => features[id]).sort();
  const built = (uses) => uses.map((u) => [u.use, ...[...u.without].sort()].join(".")).sort();
  const alike = (one, other) => JSON.stringify([built(one.uses), there(one.features)]) === JSON.stringify([built(other.uses), there(other.features)]);

  /** The listed machine that has all that was chosen and nothing else; the one started from, if it is one. */
  function sameAs(book, chosen) {
    const same = book.families.filter((family) => alike(family, chosen));
    return same.find((family) => family.id === chosen.from) || same[0] || null;
  }

  function button(symptom, chosen, press) {
    const pressed = String(symptom.id === chosen);
    return el("button", { type: "button", class: "hw-choice", "data-symptom": symptom.id, "aria-pressed": pressed, onclick: () => press(symptom.id) }, symptom.title);
  }

  /** `groups` are {title, symptoms: ids}; those that the machine can have nothing of are left out. */
  function choices(groups, symptoms, chosen, press) {
    const byId = new Map(symptoms.map((symptom) => [symptom.id, symptom]));
    return groups
      .map((group) => ({ ...group, has: group.symptoms.filter((id) => byId.has(id)).map((id) => byId.get(id)) }))
      .filter((group) => group.has.length)
      .map((group) => el("section", {}, el("h3", {}, group.title),
        el("div", { class: "hw-choices hw-nl-symptoms" }, group.has.map((symptom) => button(symptom, chosen, press)))));
  }

  /** Leads to the listed machine's own page: its order of checks rests on that machine's counts and was searched longer. */
  function nothingDiffers(family, symptom) {
    if (!family) return null;
    const href = symptom ? `bench/${family.id}/${symptom.id}.html` : `families/${family.id}.html`;
    const page = symptom ? `${symptom.title}, ${family.title}` : family.title;
    return el("p", { class: "hw-first" }, el("b", {}, "Nothing differs."), " Use the listed machine's page, its order is the better one: ",
      el("a", { href: root() + href }, page), ". Tick what differs to go on here.");
  }

  Object.assign(handwheel.unlisted, { sameAs, choices, nothingDiffers });
})();
