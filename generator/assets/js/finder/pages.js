/* Pages that hold every word that was typed: names first, then what stands on the page; and what bears exactly the
   name that was typed, parts and settings too. Words are read as in generator/pages/data/pages.py (plain_words). */
(function () {
  "use strict";

  const WORD = /[a-z0-9]+(?:'[a-z0-9]+)*/g;
  const SHORTEST = 2; // letters of a beginning that already counts
  const WORTH = { name: 4, nameBegins: 3, text: 1.2, textBegins: 0.8, machine: 2 };

  function wordsOf(text) {
    return text.replace(/\u2019/g, "'").toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "").match(WORD) || [];
  }

  /** What one word is worth on a page; 0 where it does not stand there. */
  function worth(page, word) {
    if (page.name.includes(` ${word} `)) return WORTH.name;
    const begins = word.length >= SHORTEST;
    if (begins && page.name.includes(` ${word}`)) return WORTH.nameBegins;
    if (page.text.includes(` ${word} `)) return WORTH.text;
    return begins && page.text.includes(` ${word}`) ? WORTH.textBegins : 0;
  }

  /** The folders and the name of an address: a family's pages have its id among them. */
  const stepsOf = (address) => address.replace(/\.html$/, "").split("/");

  function score(page, words, family) {
    let sum = family && page.steps.includes(family) ? WORTH.machine : 0;
    for (const word of words) {
      const found = worth(page, word);
      if (!found) return 0;
      sum += found;
    }
    return sum;
  }

  const nameOf = (title) => ` ${wordsOf(title).join(" ")} `;

  /** A search over the pages' data: the best pages for a text, and what bears the text as its name. */
  function over(data, filler) {
    const pages = data.pages.map(([address, title, hub, more]) => ({
      address, title, hub, name: nameOf(title), text: ` ${more} `, steps: stepsOf(address),
    }));
    const named = new Map();
    const add = (entry) => named.set(entry.name, [...(named.get(entry.name) || []), entry]);
    data.parts.forEach(([address, title, hub, families]) => add({ address, title, hub, families, name: nameOf(title) }));
    pages.forEach((page) => add({ ...page, families: [] }));

    /** (text, family, count) -> [{address, title, hub}], the best first. */
    function search(text, family, count) {
      const words = wordsOf(text).filter((word) => !filler.has(word));
      if (!words.length) return [];
      const found = pages.map((page) => [score(page, words, family), page]).filter(([sum]) => sum);
      found.sort(([a, one], [b, other]) => b - a || one.name.length - other.name.length || (one.address < other.address ? -1 : 1));
      return found.slice(0, count).map(([, page]) => page);
    }

    /** What is called exactly so: the chosen machine's, where it has any. */
    function byName(text, family, count) {
      const found = named.get(nameOf(text)) || [];
      const own = found.filter((entry) => entry.families.includes(family));
      return (own.length ? own : found).slice(0, count);
    }

    return { search, byName };
  }

  handwheel.finder = Object.assign(handwheel.finder || {}, { pageSearch: over });
})();
