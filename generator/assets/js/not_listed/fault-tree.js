/* Fault trees for a machine that is not in the book: folding and minimal cut sets.
   A node is a failure mode's id, {see} or a gate {title, k, of} that takes k of its inputs. Trees here are
   small and mostly `any`, so combinations are written out; generator/analysis/fault_tree does the large ones. */
(function () {
  "use strict";

  const MOST = 2000; // combinations before the tree is called too large

  /** Every gate that has a name, by symptom/gate. */
  function gatesOf(book) {
    const found = {};
    const look = (node, symptom) => {
      if (!node.of) return;
      if (node.id) found[`${symptom}/${node.id}`] = node;
      node.of.forEach((input) => look(input, symptom));
    };
    book.symptoms.forEach((symptom) => look(symptom.tree, symptom.id));
    return found;
  }

  const gates = new WeakMap(); // beside the book: what a page is given stays as it is

  /** The tree without what the machine cannot have, transfers followed; null where nothing is left of it. */
  function fold(book, node, has) {
    if (!gates.has(book)) gates.set(book, gatesOf(book));
    if (typeof node === "string") return has(node) ? node : null;
    if (node.see) return fold(book, gates.get(book)[node.see], has);
    const left = node.of.map((input) => fold(book, input, has)).filter(Boolean);
    if (left.length < node.k) return null;
    return left.length === 1 ? left[0] : { title: node.title, k: node.k, of: left };
  }

  /** Sets that hold no other one; a set is a sorted list of ids. */
  function minimal(sets) {
    const kept = [];
    const distinct = [...new Map(sets.map((set) => [set.join(" "), set])).values()];
    for (const set of distinct.sort((a, b) => a.length - b.length)) {
      if (!kept.some((small) => small.every((id) => set.includes(id)))) kept.push(set);
    }
    if (kept.length > MOST) throw new RangeError("This fault tree has too many combinations for the browser.");
    return kept;
  }

  function both(first, then) {
    return first.flatMap((a) => then.map((b) => [...new Set([...a, ...b])].sort()));
  }

  /** The ways in which k of the inputs come true; each input is given by its own ways. */
  function votes(inputs, k) {
    if (k === 0) return [[]];
    if (k > inputs.length) return [];
    if (k === 1) return minimal(inputs.flat());
    const [first, ...rest] = inputs;
    return minimal([...both(first, votes(rest, k - 1)), ...votes(rest, k)]);
  }

  function ways(node) {
    return typeof node === "string" ? [[node]] : votes(node.of.map(ways), node.k);
  }

  /** The minimal cut sets of a folded tree: the shortest first, then by ids. Throws RangeError if too many. */
  function cutSets(tree) {
    const key = (set) => set.join("\u0000"); // sorts before any letter: lists compare as lists
    return ways(tree).sort((a, b) => a.length - b.length || (key(a) < key(b) ? -1 : 1));
  }

  handwheel.faultTree = { fold, cutSets };
})();
