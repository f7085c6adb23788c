"""An independent checker of policies under doubt: reads a policy's plain data and the case, no more."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.doubt.case import Doubt
from tests.analysis.doubt.doubt_brute_force import SOMETHING_ELSE, does, open_faults, seen

Json = dict


def broken(doubt: Doubt, policy: Json) -> list[str]:
    """A sentence for every law that the policy breaks."""
    beliefs = {h.id: h.share * (1 - doubt.unlisted) for h in doubt.case.hypotheses}
    laws = _node(doubt, policy, beliefs | {SOMETHING_ELSE: doubt.unlisted}, (), frozenset())
    return [*laws, *_unsafe(doubt, policy, (), set())]


def _unsafe(doubt: Doubt, node: Json | None, log: tuple, tried: set[str]) -> Iterator[str]:
    """Power goes on where a check that must be found sound has shown a fault that is not mended."""
    if node is None or "stop" in node or "beyond" in node:
        return
    faults = open_faults(doubt, log, tried)
    if "remedy" in node:
        if faults and not any(node["remedy"] in mends for mends in faults):
            yield f"{log}: {node['remedy']} is proved under power on a fault"
        yield from _unsafe(doubt, node["else"], (*log, (node["remedy"], -1)), tried | {node["remedy"]})
        return
    if faults and node["check"] in doubt.powered:
        yield f"{log}: {node['check']} puts power on a fault"
    check = next(c for c in doubt.case.checks if c.id == node["check"])
    for row in node["outcomes"]:
        after = (*log, (check.id, row["outcome"] - 1))
        yield from _unsafe(doubt, row["then"], after, tried | does(doubt, check))


def _node(doubt: Doubt, node: Json | None, beliefs: dict[str, float], done: tuple, proved: frozenset) -> Iterator[str]:
    share = sum(beliefs.values())
    if node is None:
        if share > 1e-12:
            yield f"{done}: ends without a stop, though {share} of the jobs may have come so far"
        return
    if "stop" in node or "beyond" in node:
        if abs(node["share"] - share) > 1e-9:
            yield f"{done}: says a share of {node['share']}, not {share}"
        if "stop" in node and set(doubt.before) - set(done):
            yield f"{done}: stops before what comes before all else"
        return
    name = node.get("check") or node["remedy"]
    yield from _order(doubt, name, _with_repeats(doubt, done))
    step = _check if "check" in node else _remedy
    yield from step(doubt, node, beliefs, done, proved)


def _order(doubt: Doubt, name: str, done: tuple) -> Iterator[str]:
    if name in done:
        yield f"{done}: does {name} twice"
    waiting = [c for c in doubt.before if c not in done]
    if waiting and name != waiting[0]:
        yield f"{done}: does {name} before {waiting[0]}"
    for by, reads in doubt.lost:
        if by == name and reads not in done:
            yield f"{done}: does {name}, and {reads} is lost"


def _check(doubt: Doubt, node: Json, beliefs: dict, done: tuple, proved: frozenset) -> Iterator[str]:
    check = next(c for c in doubt.case.checks if c.id == node["check"])
    reading = doubt.readings[check.id]
    chances = {cause: seen(doubt, check, cause) for cause in beliefs}
    written = {o["outcome"] - 1: o for o in node["outcomes"]}
    for outcome, says in enumerate(check.outcomes):
        after = {cause: w * chances[cause][outcome] for cause, w in beliefs.items()}
        share = sum(after.values())
        if outcome not in written:
            if share > 1e-12:
                yield f"{done}: {check.id} has no row for '{says}'"
            continue
        row = written[outcome]
        if row["says"] != says or abs(row["share"] - share) > 1e-9:
            yield f"{done}: {check.id} tells '{row['says']}' with {row['share']}, not {share}"
        if row["unlikely"] != (round(share / sum(beliefs.values()), 9) < 0.05):  # five in a hundred, but for rounding, are not below it
            yield f"{done}: {check.id} flags '{says}' wrongly"
        if outcome in check.cured:
            if row["then"] is not None:
                yield f"{done}: goes on after {check.id} has cured"
            continue
        signs = {h.remedy.id for h in doubt.case.hypotheses if check.sees[h.id] == outcome != reading.sound}
        now_done = (*done, check.id, *sorted(does(doubt, check)))
        yield from _node(doubt, row["then"], after, now_done, proved | signs)


def _with_repeats(doubt: Doubt, done: tuple) -> tuple:
    """With the trials that would only repeat what was done."""
    trials = [c.id for c in doubt.case.checks if c.cured and does(doubt, c) and does(doubt, c) <= set(done)]
    return (*done, *trials)


def _remedy(doubt: Doubt, node: Json, beliefs: dict, done: tuple, proved: frozenset) -> Iterator[str]:
    name = node["remedy"]
    if name in doubt.dear - doubt.no_sign and name not in proved:
        yield f"{done}: renews {name}, which nothing has proved"
    cures = {h.id for h in doubt.case.hypotheses if h.remedy.id == name}
    after = {cause: w * (1 - doubt.cures if cause in cures else 1) for cause, w in beliefs.items()}
    cured = sum(beliefs.values()) - sum(after.values())
    if abs(cured - node["cured_share"]) > 1e-9:
        yield f"{done}: {name} cures {cured}, not {node['cured_share']}"
    yield from _node(doubt, node["else"], after, (*done, name), proved)
