"""What settings and checks need off and on, by hand on one small machine."""

from __future__ import annotations

from generator.analysis.job.needs import Needs, needs, proofs, wanted_on, wishes
from generator.analysis.job.types import Practice, SettingHandling
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Proof, Work

MACHINE = Machine(
    {
        "cover": MachinePart("cover"),
        "plate": MachinePart("plate", ("foot",), disturbs=("centring",)),
        "foot": MachinePart("foot"),
        "hook": MachinePart("hook", ("plate", "tray")),
        "tray": MachinePart("tray"),
    },
    {
        "centring": MachineSetting("centring", reach=("cover",), on=("plate",)),
        "timing": MachineSetting("timing", reach=("hook",), on=("hook", "cover")),
        "tension": MachineSetting("tension"),
    },
    {"watch": Proof("watch", reach=("plate",), on=("cover",)), "swing": Proof("swing", on=("foot",))},
)
"The foot stands in front of the plate; plate and tray in front of the hook."
PRACTICE = Practice(
    settings={
        "centring": SettingHandling(proved_by="watch"),
        "timing": SettingHandling(proved_by="watch"),
        "tension": SettingHandling(proved_by="listen"),
    }
)
OFF = {"centring": frozenset({"cover"}), "timing": frozenset({"hook", "plate", "foot", "tray"}), "tension": frozenset()}
"The reach of each setting with all in front of it, as the planner hands it over."
LATER = {"centring": {"timing"}, "timing": set(), "tension": set()}
PARTS = ("foot", "plate", "tray", "hook")
"The cover stays on in this job."


def test_off_is_the_reach_and_for_a_check_as_far_as_the_job_has_it_off() -> None:
    """Watch reaches the plate behind the foot; both come off in this job. Of nothing that is not told: listen."""
    found = needs(MACHINE, OFF, LATER, PARTS, PRACTICE)
    assert found.off == {
        ("set", "centring"): {"cover"}, ("set", "timing"): {"hook", "plate", "foot", "tray"}, ("set", "tension"): frozenset(),
        ("check", "watch"): {"plate", "foot"}, ("check", "listen"): frozenset(),
    }  # fmt: skip
    assert found.later is LATER
    only_the_foot = needs(MACHINE, OFF, LATER, ("foot",), PRACTICE)
    assert only_the_foot.off["check", "watch"] == {"foot"}


def test_on_is_what_is_named_and_all_behind_it_but_for_what_is_needed_off() -> None:
    """The plate on for centring: then the hook behind it is on, too. Timing needs hook and plate off: off wins."""
    found = needs(MACHINE, OFF, LATER, PARTS, PRACTICE)
    assert found.on == {
        ("set", "centring"): {"plate", "hook"}, ("set", "timing"): frozenset(), ("set", "tension"): frozenset(),
        ("check", "watch"): frozenset(), ("check", "listen"): frozenset(),
    }  # fmt: skip


def test_what_is_spared_is_not_asked_for_on() -> None:
    assert needs(MACHINE, OFF, LATER, PARTS, PRACTICE, frozenset({"plate"})).on["set", "centring"] == frozenset()
    assert needs(MACHINE, OFF, LATER, PARTS, PRACTICE, frozenset({"hook"})).on["set", "centring"] == {"plate", "hook"}


def test_less_is_wished_each_time_first_what_upsets_a_setting_then_all_that_is_not_a_settings_reach() -> None:
    """The plate is the one part that upsets something; the last wish keeps only what settings need off."""
    whole, without_upsetting, least = wishes(MACHINE, OFF, LATER, PARTS, PRACTICE)
    assert whole == needs(MACHINE, OFF, LATER, PARTS, PRACTICE)
    assert without_upsetting == needs(MACHINE, OFF, LATER, PARTS, PRACTICE, frozenset({"plate"}))
    assert least == Needs({("set", s): OFF[s] for s in LATER}, {}, LATER)


def test_a_check_is_shared_by_all_made_settings_that_it_proves() -> None:
    assert proofs(LATER, PRACTICE) == {"watch": {"centring", "timing"}, "listen": {"tension"}}
    assert proofs({"centring": set(), "height": set()}, PRACTICE) == {"watch": {"centring"}}


def test_of_the_work_is_wanted_on_what_settings_and_their_checks_name_and_all_behind() -> None:
    """Centring wants the plate, watch the cover; the hook lies behind the plate. Nobody asks for the tray or the foot."""
    every = frozenset(MACHINE.parts)
    assert wanted_on(MACHINE, Work(every, frozenset({"centring"})), PRACTICE) == {"plate", "hook", "cover"}
    assert wanted_on(MACHINE, Work(frozenset({"hook", "tray"}), frozenset({"centring"})), PRACTICE) == {"hook"}
    assert wanted_on(MACHINE, Work(every, frozenset({"tension"})), PRACTICE) == frozenset()
    swung = Practice(settings={"tension": SettingHandling(proved_by="swing")})
    assert wanted_on(MACHINE, Work(every, frozenset({"tension"})), swung) == {"foot", "plate", "hook"}
