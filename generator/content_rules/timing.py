"""Rules about timing: figures that cannot be true together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.analysis.timing.offset_crank import crank_of
from generator.records.figures import TIMES, length, number, written
from generator.records.finding import Finding
from generator.records.model import Family, Target
from generator.records.rules.book import Book
from generator.records.rules.reads import Reads, together
from generator.records.rules.registry import rule
from generator.standards.quantity import Quantity

_COUNTED = ("upper_pulley_teeth", "lower_pulley_teeth")
_SWINGS = ("left", "right")


@rule("A needle bar's rod is longer than its crank.", "family", alone=True)
def rod_over_crank(book: Book) -> Iterator[Finding]:
    """A rod that cannot go round with half the stroke."""
    for id, family in book.records.families.items():
        stroke, rod = length(family, "needle_bar_stroke"), length(family, "connecting_rod")
        if stroke is None or rod is None:
            continue
        try:
            crank_of(stroke, rod, length(family, "crank_offset") or 0.0)
        except ValueError as error:
            yield book.finding(("family", id), ("figures", "connecting_rod"), str(error), "Measure stroke and rod again.")


@rule(
    "The rise at which the hook is timed lies within the needle bar's stroke.", "family",
    reads=Reads(together({"family": ("figures.needle_bar_stroke", "assemblies"), "assembly": ("settings.*:", "settings.*.target")})),
)
def rise_within_stroke(book: Book) -> Iterator[Finding]:
    """A target that the bar cannot reach."""
    for id, family in book.records.families.items():
        stroke = length(family, "needle_bar_stroke")
        for setting, low, high in _rises(book, family):
            if stroke is not None and (low < 0 or high > stroke):
                message = f"The bar's stroke is {stroke:g} mm, and '{setting}' asks for a rise of {low:g} to {high:g} mm."
                hint = "Measure the stroke again, or change the target for this family."
                yield book.finding(("family", id), ("figures", "needle_bar_stroke"), message, hint)


@rule("A needle comes out of the plate: its depth is less than the needle bar's stroke.", "family", alone=True)
def needle_leaves_the_plate(book: Book) -> Iterator[Finding]:
    """A needle that would never leave the cloth."""
    for id, family in book.records.families.items():
        stroke, depth = length(family, "needle_bar_stroke"), length(family, "needle_depth")
        if stroke is not None and depth is not None and not 0 < depth < stroke:
            message = f"A needle {depth:g} mm under the plate at its lowest does not come out with a stroke of {stroke:g} mm."
            yield book.finding(("family", id), ("figures", "needle_depth"), message, "Measure both again.")


@rule("Teeth and turns of the hook for a stitch are whole numbers, and a swing is left or right.", "family", alone=True)
def figures_that_can_be(book: Book) -> Iterator[Finding]:
    """A figure that no machine has."""
    for id, family in book.records.families.items():
        for name, message, hint in _impossible(family):
            yield book.finding(("family", id), ("figures", name), message, hint)


@rule("What a setting's gauge draws has a target to draw: two lengths, or two forces for a pull.", "assembly", alone=True)
def gauge_has_its_measure(book: Book) -> Iterator[Finding]:
    """A gauge whose target has an end open, or is no such measure; the teeth of a belt need none."""
    for id, assembly in book.records.assemblies.items():
        for setting in assembly.settings.values():
            gauge = setting.gauge
            wanted = {"belt-teeth": "", "pull": "force"}.get(gauge.draws, "length") if gauge else ""
            if wanted and _dimension(setting.target) != wanted:
                message = f"A drawing of a {wanted} needs both ends of the target, each a {wanted}."
                hint = "Write `low:` and `high:` in its target, or take `gauge:` out."
                yield book.finding(("assembly", id), ("settings", setting.id, "gauge"), message, hint)


def _dimension(target: Target | None) -> str:
    """What both ends of a target measure; empty where one is open."""
    if target is None or not (target.low and target.high):
        return ""
    return Quantity.parse(target.high).dimension


def _impossible(family: Family) -> Iterator[tuple[str, str, str]]:
    """Figure, what is wrong with it, and the mend."""
    for name in _COUNTED:
        teeth = number(family, name)
        if teeth is not None and (teeth < 2 or teeth != int(teeth)):
            yield name, f"A pulley of {teeth:g} teeth cannot be.", "Count the teeth: a whole number of two or more."
    turns = number(family, "hook_turns_per_stitch")
    if turns is not None and (turns < 1 or turns != int(turns)):
        yield "hook_turns_per_stitch", f"{turns:g} turns of the hook for a stitch cannot be.", (
            "Mark the hook and count its turns while the hand wheel turns once: 1, 2 or 3."
        )
    swing = written(family, "first_swing")
    if swing is not None and swing not in _SWINGS:
        yield "first_swing", f"'{swing}' is no swing of the needle.", "Write left or right."


def _rises(book: Book, family: Family) -> Iterator[tuple[str, float, float]]:
    """Setting, low and high in mm, as the family has them."""
    for use in family.assemblies:
        assembly = book.records.assemblies.get(use.use)
        for setting in TIMES if assembly else ():
            if assembly is None or setting not in assembly.settings or setting in use.without:
                continue
            own, target = use.settings.get(setting, {}).get("target"), assembly.settings[setting].target
            ends = (own.get("low"), own.get("high")) if isinstance(own, Mapping) else (target and target.low, target and target.high)
            said = [Quantity.parse(str(end)) for end in ends if end]
            if len(said) == 2 and all(end.dimension == "length" for end in said):
                yield setting, said[0].number("mm"), said[1].number("mm")
