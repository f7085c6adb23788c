/* The symptoms that fit a customer's words, best first, each with why it is there.

   Two scores are added: how like the whole sentence is to one phrase of the symptom (cosine of
   weighted terms), and how much of its words the symptom has anywhere (BM25F, weighed in Python). */
(function () {
  "use strict";

  const PHRASE_SHARE = 0.6;
  const SECOND_PHRASE = 0.25;
  const UNKNOWN = 2.5;
  const ELSEWHERE = 0.6;
  const RARE = 0.8;
  const LEAST = 0.1;
  const LEAST_OF_BEST = 0.3;
  const MOST = 12;

  function engine(data) {
    const number = new Map(data.terms.map((term, i) => [term, i]));
    const symptoms = data.symptoms;
    const common = commonness();
    const lengths = [];
    const touching = data.terms.map(() => []);
    data.phrases.forEach(([, , , terms], place) => {
      let sum = 0;
      for (let i = 0; i < terms.length; i += 2) {
        const weight = terms[i + 1] * data.weights[terms[i]];
        sum += weight * weight;
        touching[terms[i]].push(place, weight);
      }
      lengths.push(Math.sqrt(sum) || 1);
    });

    const reader = handwheel.finder.reader(data.language);
    const spelt = handwheel.finder.speller(knownWords(), reader.passed);

    /** What few machines can have is a little less likely, as long as no word points to it. */
    function commonness() {
      const most = Math.max(...symptoms.map((symptom) => symptom.families.length), 1);
      return symptoms.map((symptom) => RARE + ((1 - RARE) * symptom.families.length) / most);
    }

    /** Every known stem with how much it counts when several are equally near: meanings, then what is frequent. */
    function knownWords() {
      const known = new Map([...reader.known].map((word) => [word, data.phrases.length]));
      data.terms.forEach((term, i) => {
        if (/^[a-z0-9]+$/.test(term)) known.set(term, (known.get(term) || 0) + touching[i].length);
      });
      return known;
    }

    /** Terms of the units with their weights, neighbours as pairs too: number -> weight. */
    function asked(units) {
      const found = new Map();
      let unknown = 0;
      const add = (term, weight) => {
        if (number.has(term)) found.set(number.get(term), (found.get(number.get(term)) || 0) + weight);
        return number.has(term);
      };
      units.forEach((unit, i) => {
        const met = unit.terms.map(([term, weight]) => add(term, weight));
        if (!met.some(Boolean)) unknown += 1;
        const next = units[i + 1];
        if (next) add([unit.terms[0][0], next.terms[0][0]].sort().join("~"), data.pair);
      });
      return { found, unknown };
    }

    function phraseScores(found) {
      const dots = new Map();
      for (const [term, weight] of found) {
        const list = touching[term];
        for (let i = 0; i < list.length; i += 2) {
          dots.set(list[i], (dots.get(list[i]) || 0) + weight * data.weights[term] * list[i + 1]);
        }
      }
      return dots;
    }

    function bestPhrases(found, length) {
      const best = symptoms.map(() => ({ first: 0, second: 0, phrase: -1 }));
      for (const [place, dot] of phraseScores(found)) {
        const [, field, owners] = data.phrases[place];
        const likeness = (data.fields[field] * dot) / (lengths[place] * length) / (owners.length ** 0.25);
        for (const owner of owners) {
          const held = best[owner];
          if (likeness > held.first) Object.assign(held, { second: held.first, first: likeness, phrase: place });
          else if (likeness > held.second) held.second = likeness;
        }
      }
      return best;
    }

    function wordScores(found, whole) {
      const scores = symptoms.map(() => 0);
      for (const [term, weight] of found) {
        const list = data.postings[term];
        for (let i = 0; i < list.length; i += 2) scores[list[i]] += (weight * data.weights[term] * list[i + 1]) / whole;
      }
      return scores;
    }

    function hasTerm(term, symptom) {
      return number.has(term) && data.postings[number.get(term)].some((n, i) => i % 2 === 0 && n === symptom);
    }

    /** The words of the sentence that a symptom has: [as said, as understood or ""]. */
    function matched(units, symptom) {
      return units.flatMap(({ said, terms }) => {
        const met = terms.find(([term]) => hasTerm(term, symptom));
        return met ? [[said, understood(said, met[0])]] : [];
      });
    }

    function understood(said, term) {
      const not = term.startsWith("!") ? "not " : "";
      const name = term.replace(/^!?=?/, "");
      if (!term.includes("=")) return not && `not ${said}`;
      return !not && reader.stem(said) === reader.stem(name) ? "" : not + name;
    }

    /** Every symptom's score, in the order of the data, with the phrase that is most like the words. */
    function scored(text, family) {
      const units = reader.units(text, spelt);
      const { found, unknown } = asked(units);
      let squares = unknown * UNKNOWN * UNKNOWN;
      let whole = unknown * UNKNOWN;
      for (const [term, weight] of found) {
        squares += (weight * data.weights[term]) ** 2;
        whole += weight * data.weights[term];
      }
      const best = bestPhrases(found, Math.sqrt(squares) || 1);
      const scores = wordScores(found, whole || 1);
      const results = symptoms.map((symptom, i) => {
        const like = best[i].first + SECOND_PHRASE * best[i].second;
        const here = !family || symptom.families.includes(family);
        const score = (PHRASE_SHARE * like + (1 - PHRASE_SHARE) * scores[i]) * (here ? common[i] : ELSEWHERE);
        return { symptom, i, here, score, phrase: best[i].phrase };
      });
      return { units, results };
    }

    /** [{id, title, stop, group, here, score, like, field, words}], best first. `family` may be empty. */
    function match(text, family) {
      const { units, results } = scored(text, family);
      const least = Math.max(LEAST, LEAST_OF_BEST * Math.max(0, ...results.map((result) => result.score)));
      return results
        .filter((result) => result.score >= least)
        .sort((a, b) => b.score - a.score || (a.symptom.id < b.symptom.id ? -1 : 1))
        .slice(0, MOST)
        .map((result) => shown(result, units));
    }

    /** [id, title] of the groups that come nearest to words that fit nothing; all where none does. */
    function nearestGroups(text) {
      const most = new Map();
      for (const { symptom, score } of scored(text, "").results) {
        if (score > 0) most.set(symptom.group, Math.max(score, most.get(symptom.group) || 0));
      }
      const used = new Set(symptoms.map((symptom) => symptom.group));
      const near = data.groups.filter(([id]) => most.has(id)).sort((a, b) => most.get(b[0]) - most.get(a[0]));
      return near.length ? near.slice(0, 3) : data.groups.filter(([id]) => used.has(id));
    }

    function shown({ symptom, i, here, score, phrase }, units) {
      const [like, field] = phrase < 0 ? ["", ""] : data.phrases[phrase];
      return { ...symptom, here, score, like, field, words: matched(units, i) };
    }

    return { match, nearestGroups, units: (text) => reader.units(text, spelt), exactUnits: (text) => reader.units(text) };
  }

  handwheel.finder = Object.assign(handwheel.finder || {}, { engine });
  handwheel.whenGiven("finder", (data) => {
    Object.assign(handwheel.finder, engine(data), { data });
  });
})();
