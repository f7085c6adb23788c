"""What stands before power comes again."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from generator.analysis.job.types import Step


def is_live(step: Step, live: Collection[str]) -> bool:
    """Whether the machine runs under power in a step."""
    return step.do == "sew" or (step.do in ("set", "check") and step.part in live)


def with_tests(steps: Sequence[Step], minutes: float | None, live: Collection[str]) -> tuple[Step, ...]:
    """Earth and insulation are tested before the first step under power; `minutes` None: no mains part was touched.

    What runs under power has every mains part on (`Setting.on`, `Proof.on`), so the first such step
    comes after the last mains part is fitted.

    >>> [s.do for s in with_tests([Step("refit", "motor", "way-out"), Step("sew", "", "prove")], 6, ())]
    ['refit', 'test', 'sew']
    """
    if minutes is None:
        return tuple(steps)
    first = next(n for n, step in enumerate(steps) if is_live(step, live))
    test = Step("test", "", "prove", minutes, steps[first].position)
    return (*steps[:first], test, *steps[first:])
