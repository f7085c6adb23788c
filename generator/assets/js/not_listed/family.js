/* A machine that is not in the book, built from what it has: the same cutting down as generator/family_build.py.
   `book` is the data of all mechanisms; `chosen` is {title, kind, uses: [{use, without}], features: {id: true}}. */
(function () {
  "use strict";

  function unmet(features, item) {
    return item.needs.some((f) => !features[f]) || item.lacks.some((f) => features[f]);
  }

  /** The chosen assemblies' parts, or settings, by id; each knows its home. */
  function kept(book, chosen, kind) {
    return Object.fromEntries(
      chosen.uses.flatMap(({ use, without }) => {
        const home = book.assemblies.find((a) => a.id === use);
        return Object.entries(home[kind])
          .filter(([id, item]) => !without.includes(id) && !unmet(chosen.features, item))
          .map(([id, item]) => [id, { ...item, home: home.id }]);
      })
    );
  }

  const cut = (ids, there) => ids.filter((id) => id in there);

  /** Whether a setting does up a joint that the part is fitted with only nipped. */
  const lost = (part, setting) => setting.joints.some((joint) => part.nips.includes(joint));

  /** References cut to what is there. */
  function joined(parts, settings) {
    const part = (p) => ({
      ...p,
      behind: cut(p.behind, parts),
      renew_with: cut(p.renew_with, parts),
      disturbs: cut(p.disturbs, settings),
      loses: cut(p.disturbs, settings).filter((s) => lost(p, settings[s])),
    });
    const setting = (s) => ({
      ...s,
      after: cut(s.after, settings),
      disturbs: cut(s.disturbs, settings),
      reach: cut(s.reach, parts),
    });
    const each = (items, change) => Object.fromEntries(Object.entries(items).map(([id, item]) => [id, change(item)]));
    return { parts: each(parts, part), settings: each(settings, setting) };
  }

  /** Word of shared records to what it is called on a machine with the chosen features. */
  function calls(book, chosen) {
    return Object.assign({}, ...book.features.filter((f) => chosen.features[f.id]).map((f) => f.calls));
  }

  /** What the machine has, in its own words: parts, settings, failure modes, checks and symptoms. */
  function viewOf(book, chosen) {
    const { parts, settings } = joined(kept(book, chosen, "parts"), kept(book, chosen, "settings"));
    const possible = (record) => !unmet(chosen.features, record);
    const modes = book.modes.filter((m) => possible(m) && (m.sits_on in parts || m.sits_on in settings));
    const byId = new Map(modes.map((m) => [m.id, m]));
    const shows = (outcome) => outcome.otherwise || outcome.good || outcome.fits.some((mode) => byId.has(mode));
    const checks = book.checks
      .filter(possible)
      .map((c) => ({ ...c, reach: cut(c.reach, parts), outcomes: c.outcomes.filter(shows) }));
    const symptoms = book.symptoms
      .filter(possible)
      .map((s) => ({ ...s, tree: handwheel.faultTree.fold(book, s.tree, (mode) => byId.has(mode)) }))
      .filter((s) => s.tree);
    return handwheel.ownWords.ofView({ parts, settings, modes: byId, checks, symptoms }, calls(book, chosen));
  }

  /** Assemblies that share a part or setting with one, and so cannot stand beside it. */
  function rivals(book, use) {
    const ids = (a) => [...Object.keys(a.parts), ...Object.keys(a.settings)];
    const mine = new Set(ids(book.assemblies.find((a) => a.id === use)));
    return book.assemblies.filter((a) => a.id !== use && ids(a).some((id) => mine.has(id))).map((a) => a.id);
  }

  handwheel.unlisted = { viewOf, rivals };
})();
