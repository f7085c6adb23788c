/* What is typed, as units of meaning: the same steps that Python takes when it writes the index
   (generator/analysis/finder/language.py), with misspelt words put right on the way. */
(function () {
  "use strict";

  const TOKEN = /[a-z0-9]+(?:'[a-z0-9]+)*|[.,;:!?]/g;
  const NOT = "not";
  const BREAK = ".";

  function plain(text) {
    return text.replace(/\u2019/g, "'").toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
  }

  /** A reader of one language; `spelt` puts a stem right: (stem, word, whether it may be unfinished) -> stem. */
  function reader(data) {
    const filler = new Set(data.filler);
    const weak = new Set(data.weak);
    const negators = new Set(data.negators);
    const stoppers = new Set(data.stoppers);
    const breaks = new Set(data.breaks);
    const irregular = new Map(Object.entries(data.irregular));
    const phrases = new Map(Object.entries(data.phrases));

    function exchanged(word, step) {
      for (const [ending, instead, left] of step) {
        const kept = word.length - ending.length;
        if (kept >= left && word.endsWith(ending)) return word.slice(0, kept) + instead;
      }
      return word;
    }

    function stem(word) {
      const cut = irregular.get(word) || data.endings.reduce(exchanged, word);
      return cut.length > 2 && cut.at(-1) === cut.at(-2) ? cut.slice(0, -1) : cut;
    }

    function stems(text, spelt) {
      const words = (plain(text).match(TOKEN) || []).map((word) => word.replaceAll("'", ""));
      const open = /[a-z0-9]$/i.test(text);
      const found = [];
      words.forEach((word, place) => {
        const after = words[place + 1] || "";
        if (/^[^a-z0-9]/.test(word) || breaks.has(word)) found.push([BREAK, word]);
        else if (negators.has(word) || (stoppers.has(word) && after.endsWith("ing"))) found.push([NOT, word]);
        else if (!filler.has(word)) found.push([spelt(stem(word), word, open && place === words.length - 1), word]);
      });
      return found;
    }

    function longest(said, place) {
      for (let length = Math.min(data.longest, said.length - place); length > 0; length -= 1) {
        const key = said.slice(place, place + length).map(([found]) => found).join(" ");
        if (phrases.has(key)) return [length, phrases.get(key)];
      }
      return [1, []];
    }

    function unit(span, meanings, negated) {
      const said = span.map(([, word]) => word).join(" ");
      const share = meanings.length ? meanings.length ** -0.5 : 1;
      const terms = meanings.length ? meanings.map((m) => [`=${m}`, share]) : [[span[0][0], data.other_word]];
      if (negated) {
        const turned = terms.map(([term, weight]) => [`!${term}`, weight]);
        return { said, terms: [...turned, ...terms.map(([t, w]) => [t, w * data.negated_word])] };
      }
      const own = meanings.length ? span.filter(([found]) => found !== NOT) : [];
      return { said, terms: [...terms, ...own.map(([found]) => [found, data.own_word / span.length])] };
    }

    /** The units of a text, each with the words as said and its weighted terms, the chief one first. */
    function units(text, spelt = (word) => word) {
      const said = stems(text, spelt);
      const found = [];
      let negated = 0;
      for (let place = 0; place < said.length; ) {
        const [length, meanings] = longest(said, place);
        const span = said.slice(place, place + length);
        place += length;
        if (span[0][0] === BREAK && length === 1) negated = 0;
        else if (span[0][0] === NOT && !meanings.length) negated = data.negated_units;
        else if (meanings.length || !weak.has(span[0][0])) {
          found.push(unit(span, meanings, negated > 0));
          negated = Math.max(0, negated - 1);
        }
      }
      return found;
    }

    const known = new Set([...irregular.values(), ...weak]);
    for (const key of phrases.keys()) key.split(" ").forEach((word) => known.add(word));
    return { units, stem, known, passed: [...filler, ...negators, ...breaks, ...stoppers] };
  }

  handwheel.finder = Object.assign(handwheel.finder || {}, { reader });
})();
