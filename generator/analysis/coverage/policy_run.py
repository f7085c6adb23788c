"""A known policy followed with fewer hypotheses left: what it takes then."""

from __future__ import annotations

from collections.abc import Iterator
from math import fsum

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.machine import Remedy
from generator.analysis.minutes import but_for_opening, opening
from generator.analysis.policy import CheckNode, Node, RemedyNode

Left = tuple[Hypothesis, ...]
Stop = tuple[Node, Left, frozenset[str]]
"A node, the hypotheses left and the parts open there."


class PolicyRun:
    """Follows policies of one case. Minutes are times the share of the hypotheses left."""

    def __init__(self, case: Case) -> None:
        machine = case.machine
        self._machine = machine
        self._checks: dict[str, Check] = {c.id: c for c in case.checks}
        self._remedies: dict[str, Remedy] = {h.remedy.id: h.remedy for h in case.hypotheses}
        self._way_in = {c.id: machine.way_in(c.reach) for c in case.checks}
        works = {r: machine.work(remedy) for r, remedy in self._remedies.items()}
        self._parts = {r: work.parts for r, work in works.items()}
        self._minutes = {
            r: but_for_opening(machine, self._remedies[r], work, case.proving_minutes) for r, work in works.items()
        }

    def minutes(self, node: Node | None, left: Left, opened: frozenset[str]) -> float:
        """Of the policy from this node, without the steps that no longer tell or cure anything."""
        if not left:
            return 0.0
        remedies = {h.remedy.id for h in left}
        if len(remedies) == 1:
            return self._remedy(remedies.pop(), left, opened)
        if isinstance(node, RemedyNode):
            return self._after_remedy(node, left, opened)
        assert isinstance(node, CheckNode)
        return self._after_check(node, left, opened)

    def _after_remedy(self, node: RemedyNode, left: Left, opened: frozenset[str]) -> float:
        rest = tuple(h for h in left if h.remedy.id != node.remedy)
        if len(rest) == len(left):
            return self.minutes(node.otherwise, left, opened)
        now = self._remedy(node.remedy, left, opened)
        return now + self.minutes(node.otherwise, rest, opened | self._parts[node.remedy])

    def _remedy(self, remedy: str, left: Left, opened: frozenset[str]) -> float:
        return _share(left) * (self._minutes[remedy] + self._opening(self._parts[remedy], opened))

    def _after_check(self, node: CheckNode, left: Left, opened: frozenset[str]) -> float:
        check = self._checks[node.check]
        shown = [(b, tuple(h for h in left if check.sees[h.id] == b.outcome)) for b in node.branches]
        shown = [(b, seen) for b, seen in shown if seen]
        if len(shown) == 1 and shown[0][0].outcome not in check.cured:
            return self.minutes(shown[0][0].then, left, opened)
        parts = self._way_in[check.id]
        now = _share(left) * (check.minutes + self._opening(parts, opened))
        going = [(b, seen) for b, seen in shown if b.outcome not in check.cured]
        return now + fsum(self.minutes(b.then, seen, opened | parts) for b, seen in going)

    def _opening(self, parts: frozenset[str], opened: frozenset[str]) -> float:
        return opening(self._machine, parts, opened) if parts - opened else 0.0

    def way_to(self, node: Node | None, left: Left, hypothesis: str) -> Iterator[Stop]:
        """The nodes that a hypothesis comes by, with what is left and open at each."""
        opened: frozenset[str] = frozenset()
        while isinstance(node, CheckNode | RemedyNode):
            yield node, left, opened
            if isinstance(node, RemedyNode):
                opened |= self._parts[node.remedy]
                left, node = tuple(h for h in left if h.remedy.id != node.remedy), node.otherwise
                if hypothesis not in {h.id for h in left}:
                    return
            else:
                check = self._checks[node.check]
                opened |= self._way_in[check.id]
                outcome = check.sees[hypothesis]
                left = tuple(h for h in left if check.sees[h.id] == outcome)
                node = next(b.then for b in node.branches if b.outcome == outcome)


def _share(left: Left) -> float:
    return fsum(h.share for h in left)
