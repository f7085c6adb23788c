/* What the plan is for: kept in the address, so that a link opens the same plan. */
(function () {
  "use strict";

  const KINDS = ["for", "renew", "set"]; // failure modes, parts, settings
  const empty = () => ({ for: [], renew: [], set: [] });

  /** {family, picks} of an address's hash; what is missing is empty. */
  function fromHash(hash) {
    const query = new URLSearchParams(hash.replace(/^#/, ""));
    const picks = Object.fromEntries(KINDS.map((kind) => [kind, (query.get(kind) || "").split(",").filter(Boolean)]));
    return { family: query.get("family") || "", picks };
  }

  function toHash(family, picks) {
    const said = KINDS.filter((kind) => picks[kind].length).map((kind) => `${kind}=${picks[kind].map(encodeURIComponent).join(",")}`);
    return `#${[`family=${encodeURIComponent(family)}`, ...said].join("&")}`;
  }

  /** Those that the family has. */
  function known(family, picks) {
    const there = { for: family.modes, renew: family.parts, set: family.settings };
    return Object.fromEntries(KINDS.map((kind) => [kind, picks[kind].filter((id) => handwheel.has(there[kind], id))]));
  }

  function toggled(picks, kind, id) {
    const has = picks[kind].includes(id);
    return { ...picks, [kind]: has ? picks[kind].filter((other) => other !== id) : [...picks[kind], id] };
  }

  /** The remedies, in the order of `plan`: parts, settings, failure modes. */
  function remedies(family, picks) {
    return [
      ...picks.renew.map((id) => handwheel.job.renewing(family, id)),
      ...picks.set.map(handwheel.job.setting),
      ...picks.for.map((id) => ({ id: family.modes[id].remedy, ...family.remedies[family.modes[id].remedy] })),
    ];
  }

  handwheel.picks = { KINDS, empty, fromHash, toHash, known, toggled, remedies };
})();
