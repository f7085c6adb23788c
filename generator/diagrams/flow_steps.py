"""The steps of a check flow, read from a policy's plain data, for the picture and for the list."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

Step = Mapping[str, Any]
"""`{check, opens, minutes, outcomes: [{outcome, says, share, unlikely, then}]}`,
`{remedy, opens, minutes, cured_share, else}`, `{stop, minutes, share}` or `{beyond, next, share}`;
`then` and `else` are steps or None."""

Name = Callable[[str, str], str]
"The title for a kind (`check` or `remedy`) and an id."
StepHref = Callable[[str, str], str | None]
"The address for a kind and an id; None where there is no page."

NOT_CURED = "Still there"
DONE = "Done"
STOP = "Stop and think"


class After(NamedTuple):
    """What may be seen after a step, and what is done then."""

    seen: str
    then: Step | None
    "None: the job is done."
    unlikely: bool = False


def kind(step: Step) -> str:
    """`check`, `remedy`, `stop`, or `beyond` where the written order ends."""
    return next(k for k in ("check", "remedy", "stop", "beyond") if k in step)


def after(step: Step) -> Iterator[After]:
    """What may come right after a step.

    >>> list(after({"remedy": "needle", "minutes": 3, "else": None}))
    []
    """
    if kind(step) == "check":
        for outcome in step["outcomes"]:
            yield After(outcome["says"], outcome["then"], outcome["unlikely"])
    elif kind(step) == "remedy" and step["else"] is not None:
        yield After(NOT_CURED, step["else"])


def seldom(found: After) -> bool:
    """Whether few jobs come to what was seen, and what follows it is not written out."""
    return found.unlikely and found.then is not None and kind(found.then) == "beyond"


def title(step: Step, name: Name) -> str:
    """What is done."""
    done = _done(step)
    return name(*done) if done else STOP


def address(step: Step, href: StepHref) -> str | None:
    """Where it is told."""
    done = _done(step)
    return href(*done) if done else None


def _done(step: Step) -> tuple[str, str] | None:
    """Kind and id of what is done at a step, or next where the written order ends; None for stopping."""
    if kind(step) == "beyond":
        following = step["next"]
        return ("remedy" if ":" in following else "check", following) if following else None
    return (kind(step), step[kind(step)]) if kind(step) != "stop" else None


def count(step: Step) -> int:
    """Checks and remedies from this step on, as far as they are written.

    >>> count({"remedy": "needle", "minutes": 3, "else": {"remedy": "timing", "minutes": 30, "else": None}})
    2
    """
    number, stack = 0, [step]
    while stack:
        step = stack.pop()
        number += kind(step) in ("check", "remedy")
        stack.extend(found.then for found in after(step) if found.then is not None)
    return number


def minutes(step: Step) -> str:
    """A step's minutes as shown; what is not written out has none of its own.

    >>> minutes({"check": "look", "minutes": 4.0}), minutes({"remedy": "renew:needle", "minutes": 0.25})
    ('4 min', '0.2 min')
    """
    return f"{round(step['minutes'], 1):g} min" if kind(step) in ("check", "remedy") else ""
