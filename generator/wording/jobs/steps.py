"""The steps of a job sheet: each step of a plan with the words of its records."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.analysis.job.types import UPRIGHT, Plan, Step
from generator.family_view import FamilyView
from generator.records.model import Check, Picture, Setting
from generator.wording import words
from generator.wording.jobs.joints import (
    JointView,
    joint_cautions,
    joint_view,
    seat_again,
)
from generator.wording.jobs.turning import leaving_words, lift_words, turn_words
from generator.wording.links import Links
from generator.wording.oil import oil_words
from generator.wording.ranges import range_words

MAINS_TEST = "earth-and-insulation-tests"
"The technique that stands before power where a mains part was touched, if the records have it."
SIGNS = "Signed by a qualified person"


@dataclass(frozen=True, slots=True)
class StepView:
    """One step of a sheet, ready to be shown."""

    number: int
    phase: str
    do: str
    title: str
    href: str
    minutes: float
    how: str = ""
    "Markdown."
    cautions: tuple[str, ...] = ()
    "Ids of those to read before the step; those in force already are left out."
    again: tuple[str, ...] = ()
    "Ids of those read at an earlier step."
    turn: str = ""
    "How the machine is turned over first; empty if it lies right."
    technique: str = ""
    tools: tuple[str, ...] = ()
    joints: tuple[JointView, ...] = ()
    cells: tuple[int, ...] = ()
    notes: tuple[str, ...] = ()
    "Markdown."
    power: str = ""
    setting: Setting | None = None
    target: str = ""
    "What the setting should measure."
    check: Check | None = None
    refits: bool = False
    "Whether a part goes on."
    read: str = ""
    "Markdown: how a setting is read that is made only if it is out; empty where it is made unread."
    read_minutes: float = 0
    pictures: tuple[Picture, ...] = ()
    sign: str = ""
    "Whose name goes on the line to sign; empty where nobody signs."


def step_views(
    view: FamilyView, plan: Plan, throughout: Sequence[str], work: Mapping[str, str], link: Links
) -> tuple[StepView, ...]:
    """The steps in order.

    `throughout` are cautions read before the first step; `work` says each remedy, by its id, in words.
    """
    told = (_step(view, n, step, work, link) for n, step in enumerate(plan.steps, 1))
    records = link.library.records
    turned = _with_turns(told, plan, turn_words(records), leaving_words(records), lift_words(view.family))
    return tuple(_with_joints_once(_with_cautions(turned, throughout)))


def _with_joints_once(steps: Iterator[StepView]) -> Iterator[StepView]:
    """What the chart says of a joint stands where its fasteners are first met; later steps name that step."""
    first: dict[str, int] = {}
    for step in steps:
        met = {j.title for j in step.joints if j.title in first}
        first.update({j.title: step.number for j in step.joints if j.title not in met})
        joints = (replace(j, facts=(f"as at {first[j.title]}",)) if j.title in met else j for j in step.joints)
        yield replace(step, joints=tuple(joints))


def _with_turns(
    steps: Iterator[StepView], plan: Plan, turns: Mapping[str, str], leaving: Mapping[str, str], lift: str
) -> Iterator[StepView]:
    """The plan notes a turn of the machine first; here it has a line of its own before the cautions."""
    lies, said = UPRIGHT, False
    for shown, step in zip(steps, plan.steps, strict=True):
        if step.position != lies:
            first = "" if said else leaving.get(lies, "")
            shown = replace(shown, turn=f"{first} {turns[step.position]} {lift}".lstrip(), notes=shown.notes[1:])
        yield shown
        lies, said = step.position, step.do == "refit" and not shown.do


def _with_cautions(steps: Iterator[StepView], throughout: Sequence[str]) -> Iterator[StepView]:
    """Each caution in full where it is first needed, by name after that; a live machine ends what was in force."""
    in_force, read = set(throughout), set(throughout)
    for step in steps:
        needed = [c for c in dict.fromkeys(step.cautions) if c not in in_force]
        new = tuple(c for c in needed if c not in read)
        yield replace(step, cautions=new, again=tuple(c for c in needed if c in read))
        read.update(new)
        if step.power == "on":
            in_force.clear()


def _step(view: FamilyView, number: int, step: Step, work: Mapping[str, str], link: Links) -> StepView:
    make = {
        "take off": _take_off, "refit": _refit, "renew": _renew,
        "set": _set, "check": _check, "oil": _oil, "test": _test,
    }.get(step.do)  # fmt: skip
    blank = StepView(number, step.phase, "", "", "", step.minutes, tools=step.tools, cells=step.tray, notes=step.notes)
    if make is None:
        return replace(blank, title=work[step.part]) if step.do == "remedy" else replace(blank, do="Sew")
    return make(view, step, blank, link)


def _take_off(view: FamilyView, step: Step, blank: StepView, link: Links) -> StepView:
    part = view.parts[step.part]
    return replace(
        blank,
        do="" if part.off.says else "Take off",
        title=part.off.says or part.title,
        href=link("part", part.id, view.home_of[part.id]),
        how=part.off.how or "",
        cautions=(*part.cautions, *part.off.cautions, *joint_cautions(view, (*part.joints, *part.off.slackens))),
        technique=part.off.technique or "",
        pictures=part.pictures,
        joints=tuple(joint_view(view, j, link) for j in (*part.joints, *part.off.slackens)),
    )


def _refit(view: FamilyView, step: Step, blank: StepView, link: Links) -> StepView:
    part = view.parts[step.part]
    seats = tuple(seat_again(view.fasteners[j]) for j in part.joints if j in view.fasteners)
    return replace(
        blank,
        do="" if part.on.says else "Refit",
        refits=True,
        title=part.on.says or part.title,
        href=link("part", part.id, view.home_of[part.id]),
        how=part.on.how or "",
        cautions=(*part.cautions, *part.on.cautions),
        technique=part.on.technique or "",
        notes=(*blank.notes, *part.refit, *filter(None, seats)),
    )


def _renew(view: FamilyView, step: Step, blank: StepView, link: Links) -> StepView:
    part = view.parts[step.part]
    href = link("part", part.id, view.home_of[part.id])
    return replace(blank, do="Renew", title=part.title, href=href, cautions=part.cautions)


def _set(view: FamilyView, step: Step, blank: StepView, link: Links) -> StepView:
    setting = view.settings[step.part]
    read = read_words(setting) if step.read else ""
    return replace(
        blank,
        do="Read, then set" if read else "Set",
        read=read,
        read_minutes=setting.read.minutes if read and setting.read else 0,
        title=setting.title,
        href=link("setting", setting.id, view.home_of[setting.id]),
        how=setting.how or "",
        cautions=(*setting.cautions, *joint_cautions(view, setting.joints)),
        joints=tuple(joint_view(view, j, link) for j in setting.joints),
        power=setting.power or "",
        setting=setting,
        target=range_words(setting.target),
    )


def _check(view: FamilyView, step: Step, blank: StepView, link: Links) -> StepView:
    check = view.checks[step.part]
    return replace(
        blank,
        do="Prove:",
        title=check.title,
        href=link("check", check.id),
        how=check.how,
        cautions=check.cautions,
        power=check.power,
        check=check,
        pictures=check.pictures,
    )


def read_words(setting: Setting) -> str:
    """How a setting is read: its own way, else what its target measures; empty where it is never read."""
    if setting.read is None:
        return ""
    measured = f"Touch nothing yet. {setting.target.measure}." if setting.target else ""
    return setting.read.how or measured


def _test(view: FamilyView, step: Step, blank: StepView, link: Links) -> StepView:
    technique = link.library.records.techniques.get(MAINS_TEST)
    told = replace(blank, title="Earth and insulation tests", cautions=view.needed(["mains-qualified"]), sign=SIGNS)
    if technique is None:
        return told
    how = f"{technique.steps[0].do} {technique.done_when or ''}".strip()
    return replace(told, title=technique.title, href=link("technique", technique.id), how=how, cautions=view.needed(technique.cautions))


def _oil(view: FamilyView, step: Step, blank: StepView, link: Links) -> StepView:
    point = next(o for _, o in view.oil() if o.point == step.part)
    title = point.title or words.spaced(point.point).capitalize()
    href = link.to(f"oil-chart/{view.id}.html")
    return replace(blank, do="Oil", title=title, href=href, how=" ".join(filter(None, [oil_words(point), point.how])))
