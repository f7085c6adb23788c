/* A machine as the bench meets it: the same reckoning as generator/analysis/machine.py. */
(function () {
  "use strict";

  /** Everything that is reached from the starts, step by step. */
  function reached(starts, next) {
    const found = new Set();
    const stack = [...starts];
    while (stack.length) {
      const id = stack.pop();
      if (found.has(id)) continue;
      found.add(id);
      stack.push(...next(id));
    }
    return found;
  }

  /** The parts themselves and all that they are behind. */
  function wayIn(family, parts) {
    return reached(parts, (part) => family.parts[part].behind);
  }

  /** Settings disturbed by taking parts off or by making settings, directly or through another. */
  function upset(family, partsOff, settingsMade) {
    const disturbed = (settings) => [...settings].flatMap((s) => family.settings[s].disturbs);
    const byParts = [...partsOff].flatMap((part) => family.parts[part].disturbs);
    return reached([...byParts, ...disturbed(settingsMade)], (s) => disturbed([s]));
  }

  /** All parts that come off for a remedy and all settings made for it, from a closed machine. */
  function work(family, remedy) {
    let found = { parts: new Set(), settings: new Set(remedy.set) };
    for (;;) {
      const reach = [...found.settings].flatMap((s) => family.settings[s].reach);
      const parts = wayIn(family, [...remedy.renew, ...remedy.reach, ...reach]);
      const settings = new Set([...found.settings, ...upset(family, parts, found.settings)]);
      const settled = parts.size === found.parts.size && settings.size === found.settings.size;
      found = { parts, settings };
      if (settled) return found;
    }
  }

  /** Those of the parts that are still shut, by id. */
  function shut(parts, open) {
    return [...parts].filter((part) => !open.has(part)).sort();
  }

  /** Minutes to take the parts off and put them on again, but for those off already. */
  function openingMinutes(family, parts, open) {
    return shut(parts, open).reduce((sum, id) => sum + family.parts[id].off + family.parts[id].on, 0);
  }

  /** Minutes of a check from here, its opening included. */
  function checkMinutes(family, check, open) {
    return check.minutes + openingMinutes(family, wayIn(family, check.reach), open);
  }

  /** Minutes of a remedy from here: settings, its own minutes, the proving sew, opening. */
  function remedyMinutes(family, remedy, open) {
    const takes = work(family, remedy);
    const made = [...takes.settings].sort().reduce((sum, s) => sum + family.settings[s].minutes, 0);
    return made + remedy.minutes + family.proving + openingMinutes(family, takes.parts, open);
  }

  handwheel.machine = { wayIn, upset, work, shut, openingMinutes, checkMinutes, remedyMinutes };
})();
