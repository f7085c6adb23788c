"""A check flow as a nested list, whole."""

from __future__ import annotations

from collections.abc import Iterator

from generator.diagrams import flow_steps
from generator.diagrams.flow_steps import Name, Step, StepHref
from generator.diagrams.outline import Item

SELDOM = " (seldom: look again)"


def outline(policy: Step, *, name: Name, href: StepHref) -> Item:
    """All steps of a check flow.

    What follows a check stands under what is seen. Remedies tried one after another stand side by side,
    so that a long row of them does not run off a phone's page. `name` and `href` as for
    `flow_svg.prepare`.
    """

    def item(seen: str, step: Step | None, under: tuple[Item, ...]) -> Item:
        if step is None:
            return Item(flow_steps.DONE, before=seen)
        title, address = flow_steps.title(step, name), flow_steps.address(step, href)
        return Item(title, address, seen, flow_steps.minutes(step), under)

    def below(step: Step) -> Iterator[Item]:
        for found in flow_steps.after(step):
            seen, then = found.seen + (SELDOM if found.unlikely else ""), found.then
            if then is None:
                yield item(seen, then, ())
            elif flow_steps.kind(step) == flow_steps.kind(then) == "remedy":
                yield item(seen, then, ())
                yield from below(then)
            else:
                yield item(seen, then, tuple(below(then)))

    return item("", policy, tuple(below(policy)))
