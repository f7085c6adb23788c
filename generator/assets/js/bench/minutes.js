/* What counts as minutes: the rule of generator/analysis/minutes.py, which says it in words. */
(function () {
  "use strict";
  const { wayIn, work, shut } = handwheel.machine;

  /** To take the parts off and put them on again, but for those off already. */
  function opening(family, parts, open) {
    return shut(parts, open).reduce((sum, id) => sum + family.parts[id].off + family.parts[id].on, 0);
  }

  /** To make a setting, or to read it first: then expected minutes. */
  function setting(family, id, read) {
    const own = family.settings[id];
    return read ? own.read_minutes + family.found_out * own.minutes : own.minutes;
  }

  /** To make the settings, each once; those `read` first only if they are out. */
  function settings(family, made, read) {
    return [...made].sort().reduce((sum, id) => sum + setting(family, id, read.has(id)), 0);
  }

  /** A check from here, with what it opens. */
  function check(family, given, open) {
    return given.minutes + opening(family, wayIn(family, given.reach), open);
  }

  /** Whether a mains part is renewed or opened, so that earth and insulation are tested before power. */
  const tested = (family, given) => [...given.renew, ...given.clean].some((part) => family.parts[part].mains);

  /** Earth and insulation, before power. */
  const tests = (family, given) => (tested(family, given) ? family.mains_test : 0);

  /** A remedy from here: settings, its own minutes, the tests before power, the proving sew, opening. */
  function remedy(family, given, open) {
    const takes = work(family, given);
    const own = settings(family, takes.settings, takes.read) + given.minutes + tests(family, given) + family.proving;
    return own + opening(family, takes.parts, open);
  }

  handwheel.takes = { opening, setting, settings, check, remedy, tested, tests };
})();
