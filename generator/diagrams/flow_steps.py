"""The steps of a check flow, read from a policy's plain data, for the picture and for the list."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

Step = Mapping[str, Any]
"""`{check, opens, minutes, outcomes: [{outcome, says, share, then}]}` or
`{remedy, opens, minutes, cured_share, else}`; `then` and `else` are steps or None."""

Name = Callable[[str, str], str]
"The title for a kind (`check` or `remedy`) and an id."
StepHref = Callable[[str, str], str | None]
"The address for a kind and an id; None where there is no page."

NOT_CURED = "Still there"
DONE = "Done"


def kind(step: Step) -> str:
    """`check` or `remedy`."""
    return "check" if "check" in step else "remedy"


def after(step: Step) -> Iterator[tuple[str, Step | None]]:
    """What may be seen after a step, and what is done then; None when the job is done.

    >>> list(after({"remedy": "needle", "minutes": 3, "else": None}))
    []
    """
    if kind(step) == "check":
        for outcome in step["outcomes"]:
            yield outcome["says"], outcome["then"]
    elif step["else"] is not None:
        yield NOT_CURED, step["else"]


def count(step: Step) -> int:
    """Checks and remedies from this step on.

    >>> count({"remedy": "needle", "minutes": 3, "else": {"remedy": "timing", "minutes": 30, "else": None}})
    2
    """
    number, stack = 0, [step]
    while stack:
        number += 1
        stack.extend(then for _, then in after(stack.pop()) if then is not None)
    return number


def minutes(step: Step) -> str:
    """A step's minutes as shown.

    >>> minutes({"minutes": 4.0}), minutes({"minutes": 0.25})
    ('4 min', '0.2 min')
    """
    return f"{round(step['minutes'], 1):g} min"
