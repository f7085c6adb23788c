"""What comes off before the work and what after: five ways weighed by hand on machines of two to four parts."""

from __future__ import annotations

from generator.analysis.job.settings import Back, Making, Proving, TakingOff
from generator.analysis.job.types import Handling, Practice, SettingHandling, Weights
from generator.analysis.job.way_in import WayIn
from generator.analysis.job.ways import least_ways
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Proof, Remedy
from tests.analysis.job.job_cases import AS_IT_LIES, BACK, FACE, machine_of


def ways(machine: Machine, whole: Remedy, practice: Practice) -> tuple[WayIn, Back]:
    return least_ways(machine, whole, machine.work(whole), practice, Weights())


def told(back: Back) -> list[str]:
    """The way out: a part that comes off is marked with a minus."""
    return [_name(done) for done in back.done]


def _name(done: object) -> str:
    match done:
        case Making():
            return done.setting
        case Proving():
            return done.check
        case TakingOff():
            return f"-{done.part}"
    return str(done)


def test_all_comes_off_before_the_work_where_nothing_needs_it_on() -> None:
    machine = machine_of(
        [MachinePart("cover", (), 1, 1), MachinePart("gear", ("cover",), 3, 3, ("timing",))], [MachineSetting("timing", 9, reach=("cover",))]
    )
    way, back = ways(machine, Remedy("r", renew=("gear",)), Practice())
    assert way.parts == ("cover", "gear")
    assert told(back) == ["gear", "timing", "cover"]
    assert (back.given_up, back.extra, back.turns) == (0, 0, 0)


def test_what_a_setting_needs_on_stays_on_until_another_needs_it_off() -> None:
    """Off first, the plate would go on for centring and come off again for timing: 1 + 2 minutes more."""
    machine = machine_of(
        [MachinePart("plate", (), 1, 2), MachinePart("gear", (), 3, 3)],
        [MachineSetting("centring", on=("plate",)), MachineSetting("timing", after=("centring",), reach=("plate",))],
    )
    way, back = ways(machine, Remedy("r", renew=("gear",), set=("centring", "timing")), Practice())
    assert way.parts == ("gear",)
    assert told(back) == ["gear", "centring", "-plate", "timing", "plate"]
    assert back.extra == 0


def test_what_the_work_itself_needs_off_comes_off_though_a_setting_needs_it_on() -> None:
    """The plate is renewed: no way spares its coming off twice, 1 + 2 minutes."""
    machine = machine_of(
        [MachinePart("plate", (), 1, 2)],
        [MachineSetting("centring", on=("plate",)), MachineSetting("timing", after=("centring",), reach=("plate",))],
    )
    way, back = ways(machine, Remedy("r", renew=("plate",), set=("centring", "timing")), Practice())
    assert way.parts == ("plate",)
    assert told(back) == ["plate", "centring", "-plate", "timing", "plate"]
    assert back.extra == 30_000


def test_of_what_could_stay_on_a_part_comes_off_early_that_is_off_before_anything_needs_it_on() -> None:
    """Belt is set first and needs the lid off, then centring needs plate and lid on, then timing the plate off.

    The gear is out on its back, where the belt is set, too; the lid comes off upright. Lid and plate
    both kept on: on its back for the gear, upright for the lid, on its back for the belt, upright to
    sew, four turns. The lid off before the gear: on its back, upright, two. The plate off as well
    would cost its minutes once more.
    """
    machine = Machine(
        {"gear": MachinePart("gear", (), 3, 3), "lid": MachinePart("lid", (), 1, 1), "plate": MachinePart("plate", (), 1, 2)},
        {
            "belt": MachineSetting("belt", 5, reach=("lid",), on=("plate",)),
            "centring": MachineSetting("centring", 5, ("belt",), on=("plate", "lid")),
            "timing": MachineSetting("timing", 5, ("centring",), reach=("plate",)),
        },
        {"watch": Proof("watch", on=("lid",))},
    )
    practice = Practice(
        {"gear": Handling(BACK, BACK), "lid": Handling("upright", AS_IT_LIES), "plate": Handling(AS_IT_LIES, AS_IT_LIES)},
        {
            "belt": SettingHandling(BACK, proved_by="listen"),
            "centring": SettingHandling("upright", proved_by="watch"),
            "timing": SettingHandling("upright"),
        },
    )
    way, back = ways(machine, Remedy("r", renew=("gear",), set=("belt", "centring", "timing")), practice)
    assert way.parts == ("lid", "gear")
    assert told(back) == ["gear", "belt", "listen", "lid", "centring", "watch", "-plate", "timing", "plate"]
    assert (way.position_changes, back.turns, back.extra) == (1, 1, 0)


def test_a_cover_that_only_a_later_setting_needs_off_stays_on_if_that_saves_turns() -> None:
    """Gear upright, cover and timing on its back. Cover first: its back, upright for the gear, its back, upright: four turns."""
    machine = machine_of(
        [MachinePart("cover", (), 1, 1), MachinePart("gear", (), 3, 3, ("timing",))], [MachineSetting("timing", 9, reach=("cover",))]
    )
    practice = Practice({"cover": Handling(BACK, BACK), "gear": Handling(wears=True)}, {"timing": SettingHandling(BACK)})
    way, back = ways(machine, Remedy("r", renew=("gear",)), practice)
    assert way.parts == ("gear",)
    assert told(back) == ["gear", "-cover", "timing", "cover"]
    assert (way.position_changes, back.turns) == (0, 2)


def test_of_what_a_later_setting_needs_off_only_that_stays_on_for_which_the_machine_is_turned() -> None:
    """Gear out on its back; timing on its face with cover, off on its face, and lid, off upright, out of the way.

    All off first: face, back, face for timing, upright: four turns. Both kept on: back, upright for
    the lid, face, upright: four. The lid off first, the cover kept on: back, face, upright: three.
    The shaft behind the cover stays on with it.
    """
    machine = machine_of(
        [
            MachinePart("cover", (), 1, 1),
            MachinePart("gear", (), 3, 3, ("timing",)),
            MachinePart("lid", (), 1, 1),
            MachinePart("shaft", ("cover",), 2, 2),
        ],
        [MachineSetting("timing", 9, reach=("shaft", "lid"))],
    )
    practice = Practice(
        {
            "cover": Handling(FACE, FACE), "gear": Handling(BACK, BACK), "lid": Handling("upright", AS_IT_LIES),
            "shaft": Handling(AS_IT_LIES, AS_IT_LIES),
        },
        {"timing": SettingHandling(FACE)},
    )  # fmt: skip
    way, back = ways(machine, Remedy("r", renew=("gear",)), practice)
    assert way.parts == ("lid", "gear")
    assert told(back) == ["gear", "-cover", "-shaft", "timing", "shaft", "cover", "lid"]
    assert (way.position_changes, back.turns) == (1, 2)


def test_minutes_weigh_more_than_turns() -> None:
    """The plate off upright before the gear: no turn for it but its 1 + 2 minutes twice. Kept on: two turns more, no minutes."""
    machine = machine_of(
        [MachinePart("plate", (), 1, 2), MachinePart("gear", (), 3, 3)],
        [MachineSetting("centring", on=("plate",)), MachineSetting("timing", after=("centring",), reach=("plate",))],
    )
    practice = Practice(
        {"plate": Handling("upright", AS_IT_LIES), "gear": Handling(BACK, BACK)},
        {"centring": SettingHandling(BACK), "timing": SettingHandling(BACK)},
    )
    way, back = ways(machine, Remedy("r", renew=("gear",), set=("centring", "timing")), practice)
    assert way.parts == ("gear",)
    assert told(back) == ["gear", "centring", "-plate", "timing", "plate"]
    assert back.extra == 0


def test_what_should_be_on_weighs_more_than_minutes() -> None:
    """Centring, first, needs the plate on; the plate upsets centring, so no order takes it off again for timing after it.

    Each way gives up the wish that the plate is on; the plate comes off once.
    """
    machine = machine_of(
        [MachinePart("plate", (), 1, 2, ("centring",))],
        [MachineSetting("centring", on=("plate",)), MachineSetting("timing", after=("centring",), reach=("plate",))],
    )
    way, back = ways(machine, Remedy("r", set=("centring", "timing")), Practice())
    assert way.parts == ("plate",)
    assert told(back) == ["centring", "timing", "plate"]
    assert back.given_up == 1
