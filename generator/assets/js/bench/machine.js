/* A machine as the bench meets it: the same reckoning as generator/analysis/machine.py. */
(function () {
  "use strict";
  const { reached } = handwheel.graph;

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

  /** Settings that are merely upset: not asked for, not lost with a part that comes off, nor with a new one. */
  function readFirst(family, remedy, { parts, settings }) {
    const renewed = remedy.renew.flatMap((part) => family.parts[part].disturbs);
    const lost = [...parts].flatMap((part) => family.parts[part].loses);
    const sure = new Set([...remedy.set, ...renewed, ...lost]);
    return new Set([...settings].filter((s) => !sure.has(s) && family.settings[s].read_minutes !== null));
  }

  /** All parts that come off for a remedy, all settings made for it, and those read first, from a closed machine. */
  function work(family, remedy) {
    let found = { parts: new Set(), settings: new Set(remedy.set) };
    for (;;) {
      const reach = [...found.settings].flatMap((s) => family.settings[s].reach);
      const parts = wayIn(family, [...remedy.renew, ...remedy.reach, ...reach]);
      const settings = new Set([...found.settings, ...upset(family, parts, found.settings)]);
      const settled = parts.size === found.parts.size && settings.size === found.settings.size;
      found = { parts, settings };
      if (settled) return { ...found, read: readFirst(family, remedy, found) };
    }
  }

  /** Those of the parts that are still shut, by id. */
  function shut(parts, open) {
    return [...parts].filter((part) => !open.has(part)).sort();
  }

  handwheel.machine = { wayIn, upset, work, shut };
})();
