/* A walk as text: in a link, and in words for a message. Links read as the command line does: saw, skip. */
(function () {
  "use strict";

  /** The log as pairs for a link's query. */
  function toPairs(log) {
    return log.map((entry) => {
      if (entry.saw) return ["saw", `${entry.saw}.${entry.outcome}`];
      const name = ["skip", "tried", "cured"].find((key) => entry[key]);
      return [name, entry[name]];
    });
  }

  function fromPair([name, value]) {
    if (name !== "saw") return { [name]: value };
    const [, saw, outcome] = value.match(/^(.*)\.(\d+)$/) || [];
    return { saw, outcome: Number(outcome) };
  }

  /** The log that a link's query holds; pairs of other names are passed over. */
  function fromPairs(pairs) {
    return [...pairs]
      .filter(([name, value]) => ["saw", "skip", "tried", "cured"].includes(name) && value)
      .map(fromPair)
      .filter((entry) => !("saw" in entry) || entry.saw);
  }

  /** The part of an address behind "#" that opens a walk: `also` holds pairs that the page itself needs. */
  function toHash(log, also) {
    const query = new URLSearchParams([...(also || []), ...toPairs(log)]).toString();
    return query ? `#walk&${query}` : "#walk";
  }

  /** The query of an address that opens a walk, or null for any other address. */
  function fromHash(hash) {
    const [, query] = hash.match(/^#walk(?:&(.*))?$/) || [];
    if (query === undefined && hash !== "#walk") return null;
    return new URLSearchParams(query || "");
  }

  handwheel.walkLog = { fromPairs, toHash, fromHash };
})();
