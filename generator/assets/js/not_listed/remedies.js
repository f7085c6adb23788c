/* What puts failure modes right on a machine that is not in the book: as generator/bench/remedies.py. */
(function () {
  "use strict";

  const sorted = (ids) => [...new Set(ids)].sort();

  /** The parts and those that are always renewed with them. */
  function withCompanions(view, parts) {
    return sorted(handwheel.graph.reached(parts, (part) => view.parts[part].renew_with));
  }

  function remedyOf(view, mode) {
    const part = (id) => id in view.parts;
    const renew = withCompanions(view, mode.renew.filter(part));
    const set = sorted(mode.set.filter((id) => id in view.settings));
    const does = [
      ...renew.map((id) => `renew:${id}`),
      ...set.map((id) => `set:${id}`),
      ...[...mode.clean].sort().filter(part).map((id) => `clean:${id}`),
    ];
    if (mode.advise || !does.length) does.push(`advise:${mode.id}`);
    return { id: does.join("+"), renew, set, reach: sorted(mode.reach.filter(part)), minutes: mode.minutes, clean: sorted(mode.clean.filter(part)) };
  }

  const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);

  /** Failure mode to remedy; of two unlike ones with one id, the later carries its failure mode's name. */
  function remedies(view) {
    const byId = new Map();
    const found = new Map();
    for (const mode of view.modes.values()) {
      let remedy = remedyOf(view, mode);
      if (byId.has(remedy.id) && !same(byId.get(remedy.id), remedy)) {
        remedy = { ...remedy, id: `${remedy.id}/${mode.id}` };
      }
      byId.set(remedy.id, remedy);
      found.set(mode.id, remedy);
    }
    return found;
  }

  /** One remedy that does the work of several, each piece once. */
  function together(parts) {
    const distinct = [...new Map(parts.map((r) => [r.id, r])).values()].sort((a, b) => (a.id < b.id ? -1 : 1));
    if (distinct.length === 1) return distinct[0];
    const union = (field) => sorted(distinct.flatMap((r) => r[field]));
    return {
      id: sorted(distinct.flatMap((r) => r.id.split("+"))).join("+"),
      renew: union("renew"),
      set: union("set"),
      reach: union("reach"),
      minutes: distinct.reduce((sum, r) => sum + r.minutes, 0),
      clean: union("clean"),
    };
  }

  /** A title inside a sentence: V-belt and such keep their capitals. */
  function lower(title) {
    const second = title.slice(1, 2);
    const capital = second === "-" || (second.toUpperCase() === second && second.toLowerCase() !== second);
    return capital ? title : title.slice(0, 1).toLowerCase() + title.slice(1);
  }

  /** A remedy in words. */
  function says(view, remedy, causes) {
    const part = (id) => lower(view.parts[id].title);
    const own = causes.flatMap((id) => {
      const mode = view.modes.get(id);
      const cleaned = mode.clean.filter((p) => p in view.parts).map(part);
      return [cleaned.length && `Clean or free ${handwheel.walkWords.listed(cleaned)}`, mode.advise];
    });
    const pieces = [
      ...remedy.renew.map((id) => `Renew ${part(id)}`),
      ...remedy.set.map((id) => `Set ${lower(view.settings[id].title)}`),
      ...own.filter(Boolean),
    ];
    return [...new Set(pieces)].map((words, n) => (n ? lower(words) : words)).join("; ");
  }

  handwheel.remedies = { remedies, together, says };
})();
