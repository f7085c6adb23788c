"""One plan from its parts, reckoned by hand, and the form that JSON holds it in, key by key."""

from __future__ import annotations

import json

import pytest

from generator.analysis.job.plan import merged, plan, plan_json
from generator.analysis.job.types import Cell, Handling, Plan, Practice, SettingHandling, Step, Weights, WhileOpen
from generator.analysis.machine import Machine, MachinePart, MachineSetting, MachineWait, Remedy

MACHINE = Machine(
    {
        "cover": MachinePart("cover", (), 2, 3),
        "gear": MachinePart("gear", ("cover",), 6, 7, ("timing",)),
        "pinion": MachinePart("pinion", ("cover",), 1, 1),
    },
    {"timing": MachineSetting("timing", 20, reach=("cover",))},
)
PRACTICE = Practice(
    {
        "cover": Handling("on-its-back", "on-its-back", ("driver",), ("driver",), ("cover-screws",)),
        "gear": Handling("on-its-back", "on-its-back", ("hex-key",), ("hex-key",), loose=("shim",)),
        "pinion": Handling(wears=True),
    },
    {"timing": SettingHandling("on-its-back", ("feeler",))},
)
GEAR = Remedy("renew-gear", renew=("gear",))

WHOLE = Plan(
    steps=(
        Step(
            "take off", "gear", "way-in", 1 / 3, "on-its-back", ("hex-key", "driver"), ("screw-b", "screw-a"), ("shim",), (2, 1),
            ("Mind the shim.",), read=False, wait=MachineWait(7, "the oil creeps in"),
        ),
        Step("set", "timing", "set", 2 / 3, read=True),
    ),
    settings=("timing", "gap"),
    minutes=100 / 3,
    tools=("driver", "hex-key"),
    parts=("gear",),
    tray=(Cell(1, "gear", "screw-b", "joint"), Cell(2, "gear", "shim", "loose")),
    while_open=(WhileOpen("pinion", 1 / 7, 8 / 7),),
    position_changes=3,
    tool_changes=5,
    fewest_changes=False,
)  # fmt: skip
"No sum of it fits another: each figure of the form can come from one place only."


def test_the_json_form_is_as_agreed_key_by_key() -> None:
    """By hand: thirds to four decimals are 0.3333 and 0.6667, 100/3 is 33.3333, sevenths are 0.1429 and 1.1429."""
    assert plan_json(WHOLE) == {
        "steps": [
            {
                "do": "take off", "part": "gear", "phase": "way-in", "minutes": 0.3333, "position": "on-its-back",
                "tools": ["hex-key", "driver"], "joints": ["screw-b", "screw-a"], "loose": ["shim"], "tray": [2, 1],
                "notes": ["Mind the shim."], "read": False, "wait": 7,
            },
            {
                "do": "set", "part": "timing", "phase": "set", "minutes": 0.6667, "position": "upright",
                "tools": [], "joints": [], "loose": [], "tray": [], "notes": [], "read": True, "wait": 0,
            },
        ],
        "settings": ["timing", "gap"],
        "while_open": [{"part": "pinion", "extra_minutes": 0.1429, "later_minutes": 1.1429}],
        "minutes": 33.3333,
        "waiting": 7,
        "tools": ["driver", "hex-key"],
        "parts": ["gear"],
        "tray": [{"cell": 1, "part": "gear", "holds": "screw-b"}, {"cell": 2, "part": "gear", "holds": "shim"}],
        "changes": {"position": 3, "tool": 5, "fewest": False},
    }  # fmt: skip


def test_waiting_is_told_to_four_decimals_too() -> None:
    step = Step("remedy", "soak", "work", 2, wait=MachineWait(4 / 3, "the oil creeps in"))
    assert plan_json(Plan((step, step), (), 4, (), (), (), (), 0, 0, True))["waiting"] == 2.6667


def test_the_json_form_survives_a_round_trip() -> None:
    told = plan_json(plan(MACHINE, PRACTICE, [GEAR]))
    assert json.loads(json.dumps(told)) == told


def test_a_gear_behind_a_cover_from_a_closed_machine_to_a_proved_one() -> None:
    """By hand: cover 2 + 3, gear 6 + 7, timing 20, sew 2 come to 40. The machine is turned once on the way in.

    The pinion behind the same cover: now its own 1 + 1; later cover 2 + 3, pinion 1 + 1 and the sew 2.
    """
    job = plan(MACHINE, PRACTICE, [GEAR])
    assert [(s.do, s.part) for s in job.steps] == [
        ("take off", "cover"), ("take off", "gear"), ("renew", "gear"), ("refit", "gear"), ("set", "timing"),
        ("refit", "cover"), ("sew", ""),
    ]  # fmt: skip
    assert job.minutes == 40
    assert (job.position_changes, job.tool_changes, job.fewest_changes) == (1, 2, True)
    assert (job.settings, job.parts, job.tools) == (("timing",), ("gear",), ("driver", "feeler", "hex-key"))
    assert [(c.number, c.part, c.holds) for c in job.tray] == [(1, "cover", "cover-screws"), (2, "gear", "shim")]
    assert job.while_open == (WhileOpen("pinion", 2, 9),)


def test_the_shop_says_how_long_it_sews() -> None:
    assert plan(MACHINE, PRACTICE, [GEAR], Weights(proving_minutes=5)).minutes == 43


def test_two_remedies_share_one_way_in_and_one_sew() -> None:
    """By hand: the cover once, 5; gear 13, timing 20; pinion 2; sew 2. One who asks twice gets it once."""
    pinion = Remedy("renew-pinion", renew=("pinion",))
    job = plan(MACHINE, PRACTICE, [pinion, GEAR, pinion])
    assert job.minutes == 5 + 13 + 20 + 2 + 2
    assert job.parts == ("gear", "pinion")
    assert job.while_open == ()


def test_a_setting_that_is_merely_upset_is_read_in_the_plan() -> None:
    """By hand: the cover upsets timing and no new part does; read 4, and every other time made, 20: 14 expected."""
    machine = Machine(
        {"cover": MachinePart("cover", (), 2, 3, ("timing",)), "gear": MachinePart("gear", ("cover",), 6, 7)},
        {"timing": MachineSetting("timing", 20, read_minutes=4)},
        found_out=0.5,
    )
    job = plan(machine, Practice(), [GEAR])
    assert [(s.part, s.minutes, s.read) for s in job.steps if s.do == "set"] == [("timing", 14, True)]
    assert job.minutes == 5 + 13 + 14 + 2


def test_one_remedy_that_is_all_of_them() -> None:
    one = Remedy("a", ("gear",), ("timing",), ("cover",), 1.5, ("hook",))
    other = Remedy("b", ("belt",), ("tension",), ("tray",), 2, ("race",))
    assert merged([one, other]) == Remedy(
        "a + b", ("gear", "belt"), ("timing", "tension"), ("cover", "tray"), 3.5, ("hook", "race")
    )


@pytest.mark.parametrize(
    ("remedies", "said"),
    [
        ([], "nothing to plan: name a part to renew, a setting to make or a failure mode"),
        ([Remedy("r", renew=("gaer", "gear"), set=("timing",))], "this machine has no part 'gaer'"),
        ([Remedy("r", renew=("gear",), set=("timng", "timing"))], "this machine has no setting 'timng'"),
        ([Remedy("r", reach=("lid",)), Remedy("s", renew=("belt",), set=("gap",))],
         "this machine has no part 'belt', no part 'lid', no setting 'gap'"),
    ],
)  # fmt: skip
def test_what_cannot_be_planned_is_refused_in_one_sentence(remedies: list[Remedy], said: str) -> None:
    with pytest.raises(ValueError) as refused:
        plan(MACHINE, PRACTICE, remedies)
    assert str(refused.value) == said
