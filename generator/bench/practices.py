"""How a family's parts and settings are handled, for the job plan."""

from __future__ import annotations

from collections.abc import Container, Iterable

from generator.analysis.job.types import UPRIGHT, Handling, Practice, SettingHandling
from generator.bench.keys import fitted, joint_keys
from generator.bench.machines import waiting
from generator.bench.prices import price
from generator.family_view import FamilyView
from generator.records.model import AS_IT_LIES, Check, Part, Setting, Shop


def practice(view: FamilyView, shop: Shop, known: Container[str]) -> Practice:
    """How each part and setting of one family is handled, with the shop's prices and the tools that the book knows."""
    return Practice(
        parts={p.id: _handling(p, view, shop, known) for p in view.parts.values()},
        settings={s.id: _setting_handling(s, view, known) for s in view.settings.values()},
        live=frozenset(
            (
                *(s.id for s in view.settings.values() if s.power == "on"),
                *(c.id for c in view.checks.values() if c.power == "on"),
            )
        ),
        proofs={c.id: lie for c in view.checks.values() if (lie := _proves(c, view))},
    )


def _proves(check: Check, view: FamilyView) -> str:
    """How a check lies: as its record says, upright where the machine runs, else as the work left it."""
    if check.position and check.position in _positions(view):
        return check.position
    return UPRIGHT if check.power == "on" else ""


def _positions(view: FamilyView) -> set[str | None]:
    """How this family is laid: a check that another family does on its side is done here as the machine lies."""
    moves = (move for part in view.parts.values() for move in (part.off, part.on))
    lies = {move.position for move in moves} | {s.position for s in view.settings.values()}
    return lies - {AS_IT_LIES}


def _lies(position: str) -> str:
    """A record's position as analysis takes it."""
    return "" if position == AS_IT_LIES else position


def _fitted(
    tools: tuple[str, ...], joints: Iterable[str], view: FamilyView, known: Container[str]
) -> tuple[str, ...]:
    return fitted(tools, joint_keys(view, joints, known)) if tools else ()


def _handling(part: Part, view: FamilyView, shop: Shop, known: Container[str]) -> Handling:
    off = part.off.position or UPRIGHT
    return Handling(
        off_position=_lies(off),
        on_position=_lies(part.on.position or off),
        off_tools=_fitted(part.off.tools, (*part.joints, *part.off.slackens), view, known),
        on_tools=_fitted(part.on.tools, (*part.joints, *part.on.slackens), view, known),
        joints=part.joints,
        slackens=part.off.slackens,
        nips=part.on.slackens,
        loose=part.loose,
        off_wait=waiting(part.off.wait),
        on_wait=waiting(part.on.wait),
        wears=part.wears,
        price=price(part, shop),
        oil=tuple(o.point for _, o in view.oil() if o.part == part.id),
    )


def _setting_handling(setting: Setting, view: FamilyView, known: Container[str]) -> SettingHandling:
    """A check that this family cannot do proves nothing on it: the proving sew must."""
    return SettingHandling(
        position=_lies(setting.position or UPRIGHT),
        tools=_fitted(setting.tools, setting.joints, view, known),
        joints=setting.joints,
        proved_by=setting.proved_by if setting.proved_by and setting.proved_by in view.checks else "",
    )
