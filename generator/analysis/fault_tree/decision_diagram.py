"""Reduced ordered binary decision diagrams of monotone functions, and families of sets beside them.

"Graph-Based Algorithms for Boolean Function Manipulation", IEEE Transactions on
Computers C-35(8), 1986. Nothing here recurses, so the depth of a tree has no limit.
"""

from __future__ import annotations

from collections.abc import Sequence

from generator.analysis.fault_tree.structure import Structure

NONE, UNIT = 0, 1
"The constants: false and true of a function; no set and the empty set of a family of sets."


class BudgetExceeded(Exception):
    """The diagram outgrew its budget; what was asked for has not been worked out."""


class Diagram:
    """A store of nodes, each (level, high, low); a number names a node and all below it.

    As a function a node is `if event then high else low`. As a family of sets (a zero-suppressed
    diagram) it is the sets of `high`, each with the event added, and those of `low`.
    A node's number is greater than its children's.
    """

    def __init__(self, levels: int, budget: int) -> None:
        """`levels`: events in the variable order; `budget`: nodes and steps beyond one a level."""
        self.level = [levels, levels]
        self.high = [NONE, UNIT]
        self.low = [NONE, UNIT]
        self._budget = levels + budget
        self._nodes: dict[tuple[int, int, int], int] = {}
        self._merged: dict[tuple[int, int, int], int] = {}
        self._without: dict[tuple[int, int], int] = {}

    def function(self, level: int, high: int, low: int) -> int:
        """The node `if event then high else low`."""
        return high if high == low else self._node(level, high, low)

    def family(self, level: int, high: int, low: int) -> int:
        """The node for the sets of `high` with the event added, and those of `low`."""
        return low if high == NONE else self._node(level, high, low)

    def either(self, f: int, g: int) -> int:
        """The function f or g. Cost: at most the product of their sizes."""
        return self._merge(f, g, UNIT)

    def both(self, f: int, g: int) -> int:
        """The function f and g. Cost: at most the product of their sizes."""
        return self._merge(f, g, NONE)

    def at_least(self, needs: int, inputs: Sequence[int]) -> int:
        """The function that is true when `needs` of the inputs are; each is monotone.

        Row by row from the last input: j of those from i on are true if j of those after i are,
        or input i and j - 1 of those after it.
        """
        row = [UNIT] + [NONE] * needs
        for i in reversed(range(len(inputs))):
            for j in range(min(needs, len(inputs) - i), max(1, needs - i) - 1, -1):
                row[j] = self.either(self.both(inputs[i], row[j - 1]), row[j])
        return row[needs]

    def without(self, f: int, g: int) -> int:
        """The sets of family f that contain no set of family g; both hold minimal sets only."""
        level, high, low = self.level, self.high, self.low
        stack = [(f, g)]
        while stack:
            a, b = pair = stack[-1]
            if self._known_without(a, b) is not None:
                stack.pop()
                continue
            top = min(level[a], level[b])
            having, plain = (high[a], low[a]) if level[a] == top else (NONE, a)
            taken, rest = (high[b], low[b]) if level[b] == top else (NONE, b)
            half = self._known_without(having, taken)
            if half is None:
                stack.append((having, taken))
                continue
            one, zero = self._known_without(half, rest), self._known_without(plain, rest)
            if one is None:
                stack.append((half, rest))
            if zero is None:
                stack.append((plain, rest))
            if one is not None and zero is not None:
                self._without[pair] = self.family(top, one, zero)
                self._spend()
        return self._known_without(f, g)  # type: ignore[return-value]

    def below(self, root: int) -> list[int]:
        """The nodes of a diagram but for the constants, children before parents."""
        found: set[int] = set()
        stack = [root]
        while stack:
            node = stack.pop()
            if node > UNIT and node not in found:
                found.add(node)
                stack += (self.high[node], self.low[node])
        return sorted(found)

    def __len__(self) -> int:
        return len(self.level)

    def _node(self, level: int, high: int, low: int) -> int:
        key = (level, high, low)
        number = self._nodes.get(key)
        if number is None:
            number = self._nodes[key] = len(self.level)
            self.level.append(level)
            self.high.append(high)
            self.low.append(low)
            self._spend()
        return number

    def _spend(self) -> None:
        self._budget -= 1
        if self._budget < 0:
            raise BudgetExceeded

    def _merge(self, f: int, g: int, absorbing: int) -> int:
        """Or (absorbing: true) and and (absorbing: false), by cofactors from the top level down."""
        level, high, low = self.level, self.high, self.low
        stack = [(f, g)]
        while stack:
            a, b = pair = stack[-1]
            if self._known_merge(a, b, absorbing) is not None:
                stack.pop()
                continue
            top = min(level[a], level[b])
            a1, a0 = (high[a], low[a]) if level[a] == top else (a, a)
            b1, b0 = (high[b], low[b]) if level[b] == top else (b, b)
            one = self._known_merge(a1, b1, absorbing)
            zero = self._known_merge(a0, b0, absorbing)
            if one is None:
                stack.append((a1, b1))
            if zero is None:
                stack.append((a0, b0))
            if one is not None and zero is not None:
                self._merged[absorbing, min(pair), max(pair)] = self.function(top, one, zero)
                self._spend()
        return self._known_merge(f, g, absorbing)  # type: ignore[return-value]

    def _known_merge(self, f: int, g: int, absorbing: int) -> int | None:
        """The result where it is a constant, an operand or remembered."""
        if f == g or g == 1 - absorbing:
            return f
        if absorbing in (f, g):
            return absorbing
        if f == 1 - absorbing:
            return g
        return self._merged.get((absorbing, f, g) if f < g else (absorbing, g, f))

    def _known_without(self, f: int, g: int) -> int | None:
        """The result where it is a constant, an operand or remembered."""
        if f in (NONE, g) or g == UNIT:
            return NONE
        if g == NONE or f == UNIT:
            return f
        return self._without.get((f, g))


def function_of(diagram: Diagram, tree: Structure) -> int:
    """The top event as a function of the basic events.

    Raises BudgetExceeded where the diagram grows beyond its budget.

    >>> from generator.analysis.fault_tree.structure import Vote
    >>> diagram = Diagram(2, budget=10)
    >>> root = function_of(diagram, Structure(("a", "b"), (Vote(2, (0, 1)),), root=2))
    >>> len(diagram.below(root))
    2
    """
    functions = [diagram.function(n, UNIT, NONE) for n in range(len(tree.events))]
    for gate in tree.gates:
        functions.append(diagram.at_least(gate.needs, [functions[n] for n in gate.inputs]))
    return functions[tree.root]


def probabilities(diagram: Diagram, root: int, q: Sequence[float]) -> dict[int, float]:
    """The probability of each function in a diagram, `q` by level; exact up to rounding."""
    known = {NONE: 0.0, UNIT: 1.0}
    for node in diagram.below(root):
        one, zero = known[diagram.high[node]], known[diagram.low[node]]
        known[node] = zero + q[diagram.level[node]] * (one - zero)
    return known
