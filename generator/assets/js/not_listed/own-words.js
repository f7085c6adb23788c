/* What a machine that is not in the book calls a thing: as generator/own_words.py. */
(function () {
  "use strict";

  const AN_ID = /^[a-z0-9_/+-]+$/;
  const SENTENCE = /[^.;:!?\n]+/g;

  /** A word or words as they stand in a text, in any case, and not as a piece of a longer one. */
  function spoken(word) {
    const piece = "[\\p{L}\\p{N}_\\-]";
    return new RegExp(`(?<!${piece})${word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}(?!${piece})`, "giu");
  }

  const raised = (word) => word.slice(0, 1).toUpperCase() + word.slice(1);
  const isCapital = (letter) => letter !== letter.toLowerCase();

  /** {own, has, all}: what a word is called, a test for that, and the word wherever it stands. */
  function rulesOf(calls) {
    return Object.entries(calls).map(([word, own]) => ({ own, has: spoken(own), all: spoken(word) }));
  }

  /** A text in own words; a sentence that names both stays, and so does what is an id. */
  function told(text, rules) {
    if (AN_ID.test(text)) return text;
    return text.replace(SENTENCE, (sentence) =>
      rules.reduce(
        (now, { own, has, all }) =>
          now.search(has) >= 0 ? now : now.replace(all, (found) => (isCapital(found[0]) ? raised(own) : own)),
        sentence
      )
    );
  }

  /** What a person reads of records of each kind; all else is ids and figures. */
  const READ = {
    parts: ["title"],
    settings: ["title"],
    modes: ["title", "advise"],
    checks: ["title", "how", "expect"],
    outcomes: ["says", "means"],
    symptoms: ["title", "first", "stop_why"],
  };

  /** A view of a machine (see family.js) with its texts in the words of `calls`. */
  function ofView(view, calls) {
    const rules = rulesOf(calls);
    if (!rules.length) return view;
    const own = (item, kind) => ({ ...item, ...Object.fromEntries(READ[kind].map((name) => [name, told(item[name], rules)])) });
    const each = (kind) => Object.fromEntries(Object.entries(view[kind]).map(([id, item]) => [id, own(item, kind)]));
    return {
      parts: each("parts"),
      settings: each("settings"),
      modes: new Map([...view.modes].map(([id, mode]) => [id, own(mode, "modes")])),
      checks: view.checks.map((c) => ({ ...own(c, "checks"), outcomes: c.outcomes.map((o) => own(o, "outcomes")) })),
      symptoms: view.symptoms.map((s) => own(s, "symptoms")),
    };
  }

  handwheel.ownWords = { ofView };
})();
