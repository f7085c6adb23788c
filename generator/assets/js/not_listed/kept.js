/* What was kept of a machine that is not listed, or came in a link, may be anything: only what has this page's form is used. */
(function () {
  "use strict";

  const isWord = (value) => typeof value === "string";
  const isUse = (value) => Boolean(value) && isWord(value.use) && Array.isArray(value.without) && value.without.every(isWord);
  const FORMS = {
    from: isWord, title: isWord, kind: isWord, symptom: isWord,
    uses: (value) => Array.isArray(value) && value.every(isUse),
    features: (value) => Boolean(value) && typeof value === "object",
  };

  /** Of what was kept or sent, whatever has the form that this page keeps. */
  function formed(chosen) {
    return Object.fromEntries(Object.keys(FORMS).filter((key) => FORMS[key](chosen[key])).map((key) => [key, chosen[key]]));
  }

  Object.assign(handwheel.unlisted, { formed });
})();
