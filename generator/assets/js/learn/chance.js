/* Chance that can be had again: the same words give the same numbers on every device. */
(function () {
  "use strict";

  /** FNV-1a, 32 bits: a text's UTF-16 units as one number (Fowler, Noll and Vo; constants from memory). */
  function hashed(text) {
    let hash = 0x811c9dc5;
    for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
    return hash >>> 0;
  }

  /**
   * Numbers in [0, 1), each from the next of 2^32 states: the public-domain generator mulberry32.
   * `text` is what the sequence belongs to.
   */
  function chance(text) {
    let state = hashed(text);
    return function () {
      state = (state + 0x6d2b79f5) | 0;
      let t = Math.imul(state ^ (state >>> 15), state | 1);
      t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
      return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
    };
  }

  /** One of the list, each as likely. */
  function oneOf(next, list) {
    return list[Math.floor(next() * list.length)];
  }

  /** One of the list by its `share`; the shares need not add up to 1. */
  function byShare(next, list) {
    let left = next() * list.reduce((sum, item) => sum + item.share, 0);
    return list.find((item) => (left -= item.share) < 0) || list[list.length - 1];
  }

  /** The list in an order of chance (Fisher and Yates). */
  function shuffled(next, list) {
    const order = [...list];
    for (let i = order.length - 1; i > 0; i -= 1) {
      const j = Math.floor(next() * (i + 1));
      [order[i], order[j]] = [order[j], order[i]];
    }
    return order;
  }

  handwheel.chance = { hashed, chance, oneOf, byShare, shuffled };
})();
