/* Misspelt and unfinished words, put right against the words that the index knows.

   A word is near if a few letters are wrong, missing, too many or changed over (optimal string
   alignment distance): one in a short word, two in a long one. A slip in
   the first letter is rare, so only words that share one of their first two letters are tried. */
(function () {
  "use strict";

  const SHORTEST = 4;
  const LONG = 7;

  function allowed(word) {
    if (word.length < SHORTEST) return 0;
    return word.length < LONG ? 1 : 2;
  }

  /** Letters wrong between two words, or more than `most` as soon as that is certain. */
  function distance(a, b, most) {
    if (Math.abs(a.length - b.length) > most) return most + 1;
    let before = [];
    let last = Array.from({ length: b.length + 1 }, (_, i) => i);
    for (let i = 1; i <= a.length; i += 1) {
      const row = [i];
      for (let j = 1; j <= b.length; j += 1) {
        const same = a[i - 1] === b[j - 1] ? 0 : 1;
        row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + same);
        const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
        if (swapped) row[j] = Math.min(row[j], before[j - 2] + 1);
      }
      if (Math.min(...row) > most) return most + 1;
      before = last;
      last = row;
    }
    return last[b.length];
  }

  /** Puts words right; `known` maps every known stem to how much it tells. */
  function speller(known, passed) {
    const byLetter = new Map();
    for (const word of known.keys()) {
      for (const letter of new Set(word.slice(0, 2))) {
        if (!byLetter.has(letter)) byLetter.set(letter, []);
        byLetter.get(letter).push(word);
      }
    }
    const remembered = new Map();
    const left = new Set(passed);

    function better(a, b) {
      return a.wrong - b.wrong || b.first - a.first || known.get(b.word) - known.get(a.word) || (a.word < b.word ? -1 : 1);
    }

    /** The known stem that is nearest to the stem or the word itself, whose ending may be no ending. */
    function nearest(stem, word) {
      const near = [stem, word].flatMap((form) => {
        const most = allowed(form);
        const tried = most ? new Set([...form.slice(0, 2)].flatMap((letter) => byLetter.get(letter) || [])) : [];
        return [...tried]
          .map((other) => ({ word: other, wrong: distance(form, other, most), first: form[0] === other[0] ? 1 : 0 }))
          .filter((found) => found.wrong <= most && found.word.length >= SHORTEST);
      });
      return near.length ? near.sort(better)[0].word : stem;
    }

    function finished(word) {
      const begun = (byLetter.get(word[0]) || []).filter((other) => other.startsWith(word));
      return begun.length ? begun.sort((a, b) => known.get(b) - known.get(a) || (a < b ? -1 : 1))[0] : null;
    }

    /** The stem itself if it is known; else what it was to become, or was to be. */
    return function spelt(stem, word, open) {
      if (known.has(stem) || left.has(word)) return stem;
      const key = `${word}${open ? "…" : ""}`;
      if (!remembered.has(key)) {
        remembered.set(key, (open && word.length > 1 && finished(word)) || nearest(stem, word));
      }
      return remembered.get(key);
    };
  }

  handwheel.finder = Object.assign(handwheel.finder || {}, { speller, distance });
})();
