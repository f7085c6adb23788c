"""Rules about how a check is done: what it opens, whether it has power, how the machine lies."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import product

from generator.graph import reached
from generator.records.finding import Finding, quote
from generator.records.model import AS_IT_LIES, Check
from generator.records.node import Route
from generator.records.rules.alike import Alike
from generator.records.rules.book import Book
from generator.records.rules.built import Built
from generator.records.rules.reads import BEHIND, BUILT, FITTING, Hears, Reads, together
from generator.records.rules.registry import rule

_OPENED = {
    "needle out": "needle",
    "needles out": "needle",
    "foot off": "presser-foot",
    "plate off": "needle-plate",
    "slide plate open": "slide-plate",
    "case out": "bobbin-case",
    "bobbin out": "bobbin",
    "belt off": "motor-belt",
    "guard off": "belt-guard",
    "face cover off": "face-cover",
    "arm cover off": "top-cover",
    "underside open": "underside-cover",
    "base open": "underside-cover",
    "head tilted back": "underside-cover",
    "head on its rest": "underside-cover",
    "front door open": "looper-cover",
    "doors open": "looper-cover",
    "cloth plate open": "side-cover",
    "strainer off": "oil-strainer",
}
"Words by which a text opens something -> the part that must then be in `reach`."

_ELSEWHERE = re.compile(r"\b(?:where|if)\b|\bfoot off the\b", re.IGNORECASE)
"A sentence that opens it on some machines only, or takes another foot off another thing."

_RUN = re.compile(
    r"(?:(?:^|(?<=[.;,] ))plug in\b|\bswitch (?:it )?on\b|\brun (?:it|slowly|a minute|on scrap)|(?<=, )a minute on scrap)",
    re.IGNORECASE,
)
"Words by which a text runs the machine."

_POWER = re.compile(r"\b(?:plug in\b(?! the)|plug it in|switch on\b|supply on\b|under power|run (?:it|slowly))", re.IGNORECASE)
"Words by which a text puts power on."


def _hears(book: Book) -> Hears:
    return _opened


OPENING = Reads(together(BUILT, BEHIND, {"check": ("needs", "lacks", "reach")}), {"check": ("how",)}, _hears)
LYING = Reads(together(BUILT, BEHIND, {"check": ("needs", "lacks", "reach", "position")}))
HINGED = Reads(together(BUILT, {"assembly": ("parts.*.off.position", "settings.*.position")}))


@rule("What a check's text opens stands in its reach.", "check", reads=OPENING)
def check_reaches_what_it_opens(book: Book) -> Iterator[Finding]:
    for check in book.records.checks.values():
        opened = _opened(check.how)
        for group in _done(book, check) if opened else ():
            built = group[0][1]
            covered = [(words, part) for words, part in opened if part in built.parts and part not in check.reach]
            off = _off(check, built) if covered else frozenset()
            shut = [(words, part) for words, part in covered if part not in off]
            for (family, _), (words, part) in product(group, shut[:1]):
                message = f"The text says {quote(words)}, and on {family.title} {quote(part)} is not out of the way."
                yield book.finding(("check", check.id), ("how",), message, f"Add {quote(part)} to `reach`.")


@rule("A check that puts power on says so in `power`.", "check", alone=True)
def check_has_the_power_it_says(book: Book) -> Iterator[Finding]:
    for id, check in book.records.checks.items():
        found = _POWER.search(check.how)
        if found and check.power != "on":
            message = f"The text says {quote(found[0])}, and `power` is {check.power}."
            yield book.finding(("check", id), ("power",), message, 'Write `power: "on"`, or take the words out.')


@rule("A machine that runs stands upright: no setting with power lays it over.", "assembly", alone=True)
def what_runs_stands_upright(book: Book) -> Iterator[Finding]:
    for id, assembly in book.records.assemblies.items():
        for made in assembly.settings.values():
            if made.power == "on" and made.position not in (None, "upright"):
                message = f"{quote(made.id)} puts power on with the machine {quote(made.position)}."
                hint = "Write `position: upright`, or do it by the hand wheel."
                yield book.finding(("assembly", id), ("settings", made.id, "position"), message, hint)


@rule("No power is put on while a remedy or a move is at work: what is run afterwards is a setting with `power: on`.", alone=True)
def work_is_done_without_power(book: Book) -> Iterator[Finding]:
    for record, route, text in _worked(book):
        found = _RUN.search(text)
        if found:
            message = f"{quote(found[0])} puts power on in the midst of the work."
            hint = "Say what is seen when it is closed and sewn, or make it a setting with `power: on` and what must be on."
            yield book.finding(record, route, message, hint)


def _worked(book: Book) -> Iterator[tuple[tuple[str, str], Route, str]]:
    """Record, place and text of all work that is done by hand."""
    for id, mode in book.records.failure_modes.items():
        if mode.remedy.how and mode.remedy.clean:
            yield ("failure-mode", id), ("remedy", "how"), mode.remedy.how
    for id, assembly in book.records.assemblies.items():
        for part in assembly.parts.values():
            for name, move in (("off", part.off), ("on", part.on)):
                if move and move.how:
                    yield ("assembly", id), ("parts", part.id, name, "how"), move.how
        for n, point in enumerate(assembly.oil):
            if point.how:
                yield ("assembly", id), ("oil", n, "how"), point.how


@rule("A machine lies for a check as it does for the covers that the check opens.", "check", reads=LYING)
def check_lies_as_its_covers(book: Book) -> Iterator[Finding]:
    for check in book.records.checks.values():
        for group in _done(book, check) if check.position else ():
            built = group[0][1]
            lies = {move.position for part in _off(check, built) if (move := built.parts[part][0].value.off)}
            other = lies - {check.position, "upright", AS_IT_LIES, None}
            for family, _ in group if other else ():
                message = f"On {family.title} what it opens comes off {quote(sorted(map(str, other))[0])}, not {quote(check.position)}."
                hint = "Leave `position` out: the machine then stays as its covers ask."
                yield book.finding(("check", check.id), ("position",), message, hint)


_HINGED = "tilted-back"
"How a head lies that tilts back on its hinges: it stands in a base or a table, and turns over no other way."


@rule("A machine that tilts back on its hinges is laid no other way.", "family", reads=HINGED)
def hinged_lies_on_its_hinges(book: Book) -> Iterator[Finding]:
    for family, built in book.built:
        lies = list(_lies(built))
        if all(lie != _HINGED for _, lie, _ in lies):
            continue
        for id, lie, place in lies:
            if lie not in (None, "upright", AS_IT_LIES, _HINGED):
                message = f"{family.title} tilts back on its hinges, and {quote(id)} lays it {quote(lie)}."
                hint = f"Give {quote(id)} `position: {_HINGED}` in the family."
                yield book.finding(place[0], place[1], message, hint)


def _lies(built: Built) -> Iterator[tuple[str, str | None, tuple[tuple[str, str], Route]]]:
    """Id, lie and place of every part that comes off and of every setting."""
    for id, parts in built.parts.items():
        for part in parts:
            if part.value.off:
                yield id, part.value.off.position, part.place("off")
    for id, settings in built.settings.items():
        for setting in settings:
            yield id, setting.value.position, setting.place("position")


@rule(
    "A check with power, for a complaint that says stop, names the complaints that it is for.", "check",
    reads=Reads(together(FITTING, {"check": ("power", "only_for"), "symptom": ("stop",)})),
)
def power_is_asked_for(book: Book) -> Iterator[Finding]:
    """Power on a machine that ought to stand is thought of, and never comes by itself."""
    for id, check in book.records.checks.items():
        if check.power != "on" or check.only_for:
            continue
        shown = book.complaints_of(mode for outcome in check.outcomes for fit in outcome.fits for mode in book.fits.get(fit, ()))
        for symptom in book.records.symptoms.values():
            if symptom.stop and symptom.id in shown:
                message = f"It puts power on, and {quote(symptom.id)} says stop."
                hint = "List under `only_for` the symptoms with which it may be done."
                yield book.finding(("check", id), ("power",), message, hint)
                break


@rule(
    "Where a complaint says stop, what comes before all other checks has no power on.", "symptom",
    reads=Reads({"symptom": ("stop", "before"), "check": ("power",)}),
)
def power_waits_for_what_comes_first(book: Book) -> Iterator[Finding]:
    """It is done even when one before it has shown a fault, and power must wait for that."""
    for id, symptom in book.records.symptoms.items():
        for place, first in enumerate(symptom.before if symptom.stop else ()):
            check = book.records.checks.get(first)
            if check and check.power == "on":
                message = f"{quote(first)} comes before all others and puts power on, and {quote(id)} says stop."
                yield book.finding(("symptom", id), ("before", place), message, "Take it out of `before`.")


def _done(book: Book, check: Check) -> Iterator[Alike]:
    """The families that a check can be done on, those that are alike together."""
    here = book.machines.meeting(check.needs, check.lacks)
    return (group for group in book.alike if group[0][0].id in here)


def _off(check: Check, built: Built) -> frozenset[str]:
    """Parts that are out of the way for it."""
    there = (part for part in check.reach if part in built.parts)
    return reached(there, lambda p: (b for b in built.parts[p][0].value.behind if b in built.parts))


def _opened(how: str) -> list[tuple[str, str]]:
    """Words of a text by which it opens something, and the part."""
    return [(words, part) for words, part in _OPENED.items() if _opens(how, words)]


def _opens(how: str, words: str) -> bool:
    """Whether a text opens it and does not shut it again: "needle out of the work" and "case out ... case in" do not."""
    if words not in how.casefold():  # patterns are slow, and most texts say nothing of most things
        return False
    thing = words.rsplit(" ", 1)[0]
    opened = re.compile(rf"\b{words}\b(?! of)", re.IGNORECASE)
    sentences = (s for s in re.split(r"(?<=[.;:])\s+", how) if not _ELSEWHERE.search(s))
    return any(opened.search(s) for s in sentences) and not re.search(rf"\b{thing} (?:in|on|shut|back|home)\b", how, re.IGNORECASE)
