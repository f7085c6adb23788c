/* Hex keys, wrong keys that nearly fit, holding torque: as generator/standards/keys.py and analysis/fasteners. */
(function () {
  "use strict";
  const { Refused } = handwheel.numbers;

  const HAIR = 1e-9;
  const KIND_WORDS = { set: "set screw", cap: "cap screw" };
  const LISTED = ["asme-b1.1", "iso-261"];
  let keys = { set: [], cap: [] };
  let series = {};
  let nearest = 0; // how far a screw may be from a listed one and borrow its key, as a share
  let close = 0; // share of the socket within which a wrong key passes for the right one

  handwheel.whenGiven("reckoners", (data) => ({ keys, series, nearest, close } = data));

  /** The key of a socket screw, or null; `screw` names a standard screw whose key this one borrows. */
  function key_for(thread, kind) {
    const near = nearestListed(thread, kind);
    if (!near) return null;
    return LISTED.includes(thread.source) ? { ...near, screw: "" } : { ...near, source: "common-practice", screw: near.screw };
  }

  function nearestListed(thread, kind) {
    const metric = thread.name.startsWith("M");
    const miss = (key) => Math.abs(key.diameter - thread.diameter);
    const rows = keys[kind].filter((key) => key.metric === metric);
    if (metric) return rows.find((key) => miss(key) < HAIR);
    const near = [...rows].sort((a, b) => (Math.abs(miss(a) - miss(b)) > HAIR ? miss(a) - miss(b) : a.diameter - b.diameter))[0];
    return near && miss(near) <= nearest * thread.diameter + HAIR ? near : null;
  }

  function why_no_key(thread, kind) {
    return `No table gives a key for ${thread.name}, ${KIND_WORDS[kind]}: measure the socket across its flats.`;
  }

  function caveat(thread, kind) {
    const key = key_for(thread, kind);
    if (!key) return why_no_key(thread, kind);
    if (!key.screw) return "";
    return `No standard gives a key for ${thread.name}; this is the key of the nearest standard screw, ${key.screw}. Measure it.`;
  }

  /** The next keys over and under a socket in both systems, nearest first; a size is {size, mm}. */
  function near_misses(socket) {
    const found = Object.values(series).flatMap((sizes) => nextTo(socket, sizes).map((key) => missOf(socket, key)));
    return found.sort((a, b) => Math.abs(a.miss_mm) - Math.abs(b.miss_mm) || (a.key < b.key ? -1 : 1));
  }

  function nextTo(socket, sizes) {
    const below = sizes.filter((key) => key.mm < socket.mm - HAIR);
    const above = sizes.filter((key) => key.mm > socket.mm + HAIR);
    return [...below.slice(-1), ...above.slice(0, 1)];
  }

  function missOf(socket, key) {
    const miss = key.mm - socket.mm;
    const angle = rock(socket.mm, key.mm);
    const fit = fitOf(miss, socket.mm, angle);
    const article = articleOf(key.size);
    const pair = `${article[0].toUpperCase()}${article.slice(1)} ${key.size} key in ${articleOf(socket.size)} ${socket.size} socket`;
    const says = `${pair} is ${Math.abs(miss).toFixed(2)} mm ${miss > 0 ? "over" : "under"}: ${does(fit, angle)}.`;
    return { key: key.size, miss_mm: miss, fit, rock_deg: angle, says };
  }

  function fitOf(miss, across, angle) {
    if (Math.abs(miss) <= close * across) return "confused";
    if (miss > 0) return "will not enter";
    return angle === 60 ? "turns free" : "rounds";
  }

  function does(fit, angle) {
    return {
      confused: "it fits closely enough to be confused, so read the key before you lean on it",
      "will not enter": "it will not enter",
      rounds: `it rocks ${angle.toFixed(0)}° each way and will round it`,
      "turns free": "it turns round in the socket and moves nothing",
    }[fit];
  }

  const articleOf = (size) => (/^(8|11 )/.test(size) ? "an" : "a");

  /** Degrees that a hex key turns each way in a larger socket before it bites; 60 if it never does. */
  function rock(socket, key) {
    const reach = ((Math.sqrt(3) / 2) * socket) / key;
    if (key >= socket) return 0;
    return reach >= 1 ? 60 : 30 - (Math.acos(reach) * 180) / Math.PI;
  }

  function holding_torque(force, diameter) {
    if (!(force > 0 && diameter > 0)) throw new Refused("The force and the shaft diameter must be more than zero.");
    return (force * diameter) / 2;
  }

  Object.assign(handwheel.reckon, { KIND_WORDS, key_for, why_no_key, caveat, near_misses, rock, holding_torque });
})();
