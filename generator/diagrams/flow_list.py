"""A check flow as a nested list, whole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.diagrams import flow_steps
from generator.diagrams.flow_steps import After, Name, Step, StepHref
from generator.diagrams.outline import Item

_SELDOM, _EACH_SELDOM = " (seldom: look again)", " (each seldom: look again)"
_Lines = dict[tuple[object, ...], tuple[list[str], After]]


def outline(policy: Step, *, name: Name, href: StepHref) -> Item:
    """All steps of a check flow.

    What follows a check stands under what is seen; where the same comes after several things, they share a
    line. Remedies tried one after another stand side by side, so that a long row of them does not run off a
    phone's page. `name` and `href` as for `flow_svg.prepare`.
    """

    def item(seen: str, step: Step | None, under: tuple[Item, ...]) -> Item:
        if step is None:
            return Item(flow_steps.DONE, before=seen)
        title, address = flow_steps.title(step, name), flow_steps.address(step, href)
        return Item(title, address, seen, flow_steps.minutes(step), under)

    def below(step: Step) -> Iterator[Item]:
        for seen, then in _in_one_line(flow_steps.after(step)):
            if then is None:
                yield item(seen, then, ())
            elif flow_steps.kind(step) == flow_steps.kind(then) == "remedy":
                yield item(seen, then, ())
                yield from below(then)
            else:
                yield item(seen, then, tuple(below(then)))

    return item("", policy, tuple(below(policy)))


def _in_one_line(found: Iterable[After]) -> Iterator[tuple[str, Step | None]]:
    """What is seen with what comes next; things after which nothing more is written but the same next step in one."""
    lines: _Lines = {}
    for number, after in enumerate(found):
        lines.setdefault(_next(after) or (number,), ([], after))[0].append(after.seen)
    for all_seen, after in lines.values():
        seldom = _SELDOM if len(all_seen) == 1 else _EACH_SELDOM
        yield "; ".join(all_seen) + (seldom if after.unlikely else ""), after.then


def _next(found: After) -> tuple[object, ...]:
    """What is done next where no more than that is written; empty where steps follow."""
    if found.then is None:
        return ("done", found.unlikely)
    return ("next", found.unlikely, found.then["next"]) if flow_steps.kind(found.then) == "beyond" else ()
