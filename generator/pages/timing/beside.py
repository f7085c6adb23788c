"""The small drawings that stand beside the steps of a job sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.analysis.fasteners.flats import safe_turns, turns_in_words
from generator.analysis.job.types import Step
from generator.bench.fastener_facts import fastener_facts
from generator.bench.timing import timing
from generator.diagrams.gauges import screws
from generator.diagrams.gauges.screws import Seat
from generator.family_view import FamilyView
from generator.pages.maker import Maker
from generator.pages.timing.gauges import drawing
from generator.records.model import Fastener

PRINTED = ((44, 0), (12, 2))
"Steps beyond which a sheet prints no more drawings than these, to keep to two sides; every one is on the screen."


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing beside a step."""

    picture: Markup
    printed: bool


class Beside:
    """Drawings for the steps of one family; each is made once."""

    def __init__(self, maker: Maker, view: FamilyView) -> None:
        found = timing(view)
        settings = {s.id: drawing(maker, view, s, found, f"gauge-{s.id}") for s in view.settings.values()}
        seats = {joint: seat_drawing(note, f"seat-{joint}") for joint, note in view.fasteners.items()}
        self._view = view
        self._drawn = {id: picture for id, picture in (*settings.items(), *seats.items()) if picture}

    def steps(self, steps: Sequence[Step]) -> dict[int, list[Drawn]]:
        """Number of the step -> its drawings, each where it is first needed and nowhere again."""
        found: dict[int, list[Drawn]] = {}
        shown: set[str] = set()
        most = next((most for more, most in PRINTED if len(steps) > more), len(self._drawn))
        for number, step in enumerate(steps, 1):
            new = [id for id in self._needed(step) if id in self._drawn and id not in shown]
            found[number] = [Drawn(self._drawn[id], len(shown) + n < most) for n, id in enumerate(new)]
            shown.update(new)
        return found

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
