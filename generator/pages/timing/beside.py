"""The small drawings that stand beside the steps of a job sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.analysis.fasteners.flats import safe_turns, turns_in_words
from generator.analysis.job.types import Step
from generator.bench.fastener_facts import fastener_facts
from generator.bench.timing import Timing, timing
from generator.diagrams.gauges import screws
from generator.diagrams.gauges.screws import Seat
from generator.family_view import FamilyView
from generator.pages.maker import Maker
from generator.pages.timing.gauges import drawing
from generator.records.model import Fastener
from generator.watched import Traced

PRINTED = ((44, 0), (12, 2))
"Steps beyond which a sheet prints no more drawings than these, to keep to two sides; every one is on the screen."
MOST = 10_000
"Drawings of a sheet that prints them all."


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing beside a step."""

    picture: Markup
    printed: bool


class Beside:
    """Drawings for the steps of one family; each is made once."""

    def __init__(self, maker: Maker, view: FamilyView) -> None:
        self._maker, self._view = maker, view
        self._known: Traced[str, Markup] = Traced(maker.library.watch)
        self._timing: Traced[str, Timing] = Traced(maker.library.watch)

    def steps(self, steps: Sequence[Step]) -> dict[int, list[Drawn]]:
        """Number of the step -> its drawings, each where it is first needed and nowhere again."""
        found: dict[int, list[Drawn]] = {}
        shown: set[str] = set()
        most = next((most for more, most in PRINTED if len(steps) > more), MOST)
        for number, step in enumerate(steps, 1):
            new = [id for id in self._needed(step) if id not in shown and self._drawn(id)]
            found[number] = [Drawn(self._drawn(id), len(shown) + n < most) for n, id in enumerate(new)]
            shown.update(new)
        return found

    def _drawn(self, id: str) -> Markup:
        """Of a setting or a joint, by its id; empty where there is nothing to draw."""
        return self._known(id, lambda: self._draw(id))

    def _draw(self, id: str) -> Markup:
        seat = self._view.fasteners.get(id)
        picture = seat_drawing(seat, f"seat-{id}") if seat else Markup()
        made = self._view.settings.get(id)
        if picture or made is None:
            return picture
        found = self._timing(self._view.id, lambda: timing(self._view))
        return drawing(self._maker, self._view, made, found, f"gauge-{id}")

    def _needed(self, step: Step) -> Iterator[str]:
        """Settings and joints of a step, by id."""
        if step.do == "set":
            yield step.part
            yield from self._view.settings[step.part].joints
        elif step.do in ("take off", "refit"):
            yield from self._view.parts[step.part].joints


def seat_drawing(note: Fastener, prefix: str) -> Markup:
    """Shaft, flat and screws of a joint; empty where its note lacks a measure."""
    facts = fastener_facts(note)
    if facts.thread is None or not (facts.shaft_mm and facts.flat_width_mm and facts.flat_depth_mm):
        return Markup()
    seat = Seat(
        shaft=facts.shaft_mm,
        flat=facts.flat_width_mm,
        depth=facts.flat_depth_mm,
        screw=facts.thread.name,
        thick=float(facts.thread.diameter_mm),
        count=note.count or 1,
        first=note.first_in_rotation or "",
        turns=turns_in_words(safe_turns(facts.turns)) if facts.turns else "",
    )
    return Markup(screws.svg(seat, prefix))
