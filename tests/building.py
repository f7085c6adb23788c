"""Small records made in code, for tests of the floors above the reader."""

from __future__ import annotations

from generator.bench import Bench
from generator.library import Library
from generator.records.model import (
    Assembly,
    AssemblyUse,
    Check,
    FailureMode,
    Family,
    Feature,
    Found,
    Move,
    Outcome,
    Part,
    Records,
    RemedySpec,
    Setting,
    Symptom,
    Tally,
    TreeEvent,
    TreeGate,
    TreeTransfer,
)


def gate(kind: str, *inputs, id: str | None = None, title: str | None = None, k: int = 0) -> TreeGate:
    """A gate over failure-mode ids, transfers ("symptom/gate") and further gates."""
    nodes = tuple(_node(i) for i in inputs)
    needed = {"any": 1, "all": len(nodes)}.get(kind, k)
    return TreeGate(id, title, kind, nodes, needed)


def _node(given):
    if isinstance(given, TreeGate):
        return given
    return TreeTransfer(given) if "/" in given else TreeEvent(given)


def by_id(*records):
    return {r.id: r for r in records}


def two_families() -> Records:
    """A family with a gear and a drop-feed lever, and one with neither, that share a needle."""
    needle = Part("needle", "Needle", off=Move(minutes=0.5), on=Move(minutes=0.5))
    cover = Part("cover", "Cover", off=Move(minutes=2), on=Move(minutes=2))
    gear = Part(
        "gear", "Gear", behind=("cover", "needle", "belt"), off=Move(minutes=6), on=Move(minutes=6), disturbs=("timing",)
    )
    lever = Part("lever", "Drop-feed lever", needs=("drop_feed_lever",))
    timing = Setting("timing", "Hook timing", 20)
    return Records(
        families=by_id(
            Family("full", "Full", "domestic", "All of it.", (AssemblyUse("bar"), AssemblyUse("drive")), features={"drop_feed_lever": True}, rates={"gear-cracked": 50}),
            Family("plain", "Plain", "domestic", "Less.", (AssemblyUse("bar"),), features={"drop_feed_lever": False}),
            Family("slow", "Slow", "domestic", "Tight.", (AssemblyUse("bar"), AssemblyUse("drive", ("lever",), {"gear": {"off": {"minutes": 9}}}))),
        ),
        assemblies=by_id(
            Assembly("bar", "Needle bar", parts=by_id(needle)),
            Assembly("drive", "Drive", parts=by_id(cover, gear, lever), settings=by_id(timing)),
        ),
        failure_modes=by_id(
            FailureMode("gear-cracked", "Gear cracked", 20, RemedySpec(renew=("gear",)), part="gear"),
            FailureMode("lever-down", "Feed lowered", 40, RemedySpec(advise="Raise it.", minutes=1), part="lever"),
            FailureMode("needle-bent", "Needle bent", 30, RemedySpec(renew=("needle",)), part="needle"),
            FailureMode("needle-worn", "Needle worn", 30, RemedySpec(renew=("needle",)), part="needle"),
            FailureMode("timing-off", "Timing off", 10, RemedySpec(set=("timing",)), setting="timing"),
        ),
        symptoms=by_id(
            Symptom("skips", "Skips", ("it skips",), gate("any", "needle-bent", gate("any", "gear-cracked", "timing-off", id="hook", title="The hook is late"), gate("all", "needle-worn", "lever-down"))),
            Symptom("still", "Stands still", ("it stands",), gate("any", "lever-down", "skips/hook")),
        ),
        checks=by_id(
            Check("look", "Look", "Look at it.", 1, "off", (Outcome("Late", ("skips/hook",)), Outcome("In time", otherwise=True)), reach=("cover", "belt")),
            Check("new-needle", "New needle", "Fit it.", 2, "on", (Outcome("Cured", ("needle",), cured=True), Outcome("Still", otherwise=True))),
            Check("only-still", "Only there", "See.", 1, "off", (Outcome("Down", ("lever-down",)), Outcome("Up", otherwise=True)), only_for=("still",)),
            Check("open-ended", "Open", "See.", 1, "off", (Outcome("Cracked", ("gear",)), Outcome("Sharp", ("needle-bent",)))),
        ),
        features=by_id(Feature("drop_feed_lever", "Drop-feed lever", "has no drop-feed lever")),
        tallies=by_id(
            Tally("one", "full", 400, (Found("needle-bent", 31),)),
            Tally("two", "full", 100, (Found("needle-bent", 9), Found("timing-off", 0))),
        ),
    )


def bench(records: Records | None = None) -> Bench:
    """A bench over the records, without a cache."""
    return Bench(Library(records or two_families()))
