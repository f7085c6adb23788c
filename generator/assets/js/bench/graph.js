/* Closures, as generator/graph.py. */
(function () {
  "use strict";

  /** The starts and all that can be reached from them; each node is asked once. */
  function reached(starts, after) {
    const found = new Set();
    const stack = [...starts];
    while (stack.length) {
      const node = stack.pop();
      if (found.has(node)) continue;
      found.add(node);
      stack.push(...after(node));
    }
    return found;
  }

  handwheel.graph = { reached };
})();
