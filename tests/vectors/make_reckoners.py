"""Writes reckoners.json, the vectors on which Python and the browser's JavaScript must agree.

Run it from the project's root after a change of formula: python -m tests.vectors.make_reckoners

- handbook: expected values from outside the project, each with its source and how near it is given;
- computed: what Python gives over a spread of arguments, to hold a port to the same formula;
- refused: arguments that must be refused in a sentence and never give a number.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from generator.analysis import reckon
from generator.analysis.fasteners import flats, near_miss
from generator.analysis.timing import belts, gears, hook
from tests.vectors import browser_only, plain_crank

FUNCTIONS: dict[str, Callable] = {
    function.__name__: function
    for function in (
        reckon.stitch_length, reckon.stitches_per_inch, browser_only.stitches_per_cm, browser_only.blade_mm,
        browser_only.metric_needle, browser_only.american_needle, browser_only.needle_pair,
        browser_only.thread_size, browser_only.whole_thread,
        reckon.belt_tooth_degrees, browser_only.v_belt_deflection, flats.flat_depth, flats.flat_width, flats.turns_to_clear,
        flats.whole_quarters, flats.safe_turns, flats.advice, near_miss.rock, browser_only.holding_torque,
        hook.play_degrees, belts.motor_speed, browser_only.from_ten, browser_only.differential, gears.outside_diameter,
        plain_crank.slider_crank, plain_crank.slider_crank_rise, plain_crank.slider_crank_angle,
    )
}  # fmt: skip

HANDBOOK = (
    # function, arguments, expected, within, source
    ("stitch_length", (10,), 2.54, 0.0005, "25.4 mm to the inch"),
    ("stitch_length", (12,), 2.117, 0.0005, "25.4 mm to the inch"),
    ("stitch_length", (15,), 1.693, 0.0005, "25.4 mm to the inch"),
    ("stitch_length", (6,), 4.23, 0.005, "common practice: longest stitch of an older domestic machine"),
    ("metric_needle", (12,), 80, 0, "needle makers' tables, 80/12"),
    ("metric_needle", (14,), 90, 0, "needle makers' tables, 90/14"),
    ("american_needle", (100,), 16, 0, "needle makers' tables, 100/16 (memory)"),
    ("american_needle", (110,), 18, 0, "needle makers' tables, 110/18 (memory)"),
    ("american_needle", (120,), 19, 0, "needle makers' tables, 120/19 (memory)"),
    ("blade_mm", (65,), 0.67, 0.021, "JIS B 9012:2000, Table 1, No. 9"),
    ("blade_mm", (75,), 0.77, 0.021, "JIS B 9012:2000, Table 1, No. 11"),
    ("blade_mm", (90,), 0.92, 0.021, "JIS B 9012:2000, Table 1, No. 14"),
    ("blade_mm", (100,), 1.02, 0.021, "JIS B 9012:2000, Table 1, No. 16"),
    ("thread_size", (1, "tex", "denier"), 9, 1e-9, "ISO 1144"),
    ("thread_size", (590.5, "tex", "cotton"), 1, 1e-9, "cotton count = 590.5 / tex"),
    ("thread_size", (20, "tex", "metric"), 50, 1e-9, "metric count = 1000 m/g over tex"),
    ("thread_size", (120, "ticket", "tex"), 25, 1e-9, "practice of the trade: ticket number = 3 x metric count (memory)"),
    ("thread_size", (75, "ticket", "tex"), 40, 1e-9, "thread makers' charts: ticket 75 is tex 40 (memory)"),
    ("whole_thread", (60, 3, "metric"), 20, 1e-9, "Nm 60/3: three plies of Nm 60 (common practice)"),
    ("whole_thread", (210, 3, "denier"), 630, 1e-9, "bonded nylon 210/3 is 630 denier in all (memory)"),
    ("whole_thread", (60, 3, "tex"), 60, 1e-9, "R 60 tex/3, ISO 1139 (memory)"),
    ("belt_tooth_degrees", (18,), 20, 1e-9, "360 / z"),
    ("v_belt_deflection", (64,), 1, 1e-9, "plant maintenance handbook: span / 64"),
    ("flat_depth", (20, 12), 2, 1e-9, "sagitta of a chord, r 10, chord 12"),
    ("flat_depth", (30, 20), 3.82, 0.005, "sagitta of a chord, r 15, chord 20"),
    # ANSI B17.1: S = D - y - H/2 with a square key, so y = D - S - H/2; key widths from memory.
    ("flat_depth", (0.5, 0.125), 0.5 - 0.430 - 0.0625, 0.0006, "ANSI B17.1, S .430"),
    ("flat_depth", (0.625, 0.1875), 0.625 - 0.517 - 0.09375, 0.0006, "ANSI B17.1, S .517"),
    ("flat_depth", (1, 0.25), 1 - 0.859 - 0.125, 0.0006, "ANSI B17.1, S .859"),
    ("flat_depth", (1.25, 0.25), 1.25 - 1.112 - 0.125, 0.0006, "ANSI B17.1, S 1.112"),
    ("holding_torque", (160, 0.25), 20, 0.05, "Shigley, Mechanical Engineering Design, #4"),
    ("holding_torque", (385, 0.25), 48.1, 0.05, "Shigley, Mechanical Engineering Design, #8"),
    ("from_ten", (25.4,), 2.54, 1e-12, "25.4 mm to the inch"),
    ("outside_diameter", (25.4 / 8, 30, 0), 4 * 25.4, 1e-9, "machine handbooks: (N + 2) / P inch, 30 teeth of pitch 8"),
    ("outside_diameter", (1.5, 20, 0), 33, 1e-9, "machine handbooks: m (z + 2)"),
    ("motor_speed", (900, 80, 10), 7200, 1e-9, "ratio of the pulleys"),
    ("slider_crank", (3, 7, 40), 9.0273, 0.00005, "worked example of the slider-crank, r 3, L 7, 40 degrees"),
)

COMPUTED: tuple[tuple[str, tuple], ...] = (
    *(("stitch_length", (spi,)) for spi in (4, 8, 20, 0.5)),
    *(("stitches_per_inch", (mm,)) for mm in (0.5, 2.5, 4, 7)),
    *(("stitches_per_cm", (mm,)) for mm in (0.5, 2.5, 4)),
    *(("metric_needle", (size,)) for size in (8, 9, 10, 11, 16, 18, 19, 21, 22)),
    *(("american_needle", (size,)) for size in (60, 70, 75, 90, 125, 140)),
    *(("needle_pair", pair) for pair in (("80/12", "metric"), ("12/80", "american"), ("90", "metric"), ("14", "american"))),
    *(("whole_thread", (40, 2, system)) for system in ("tex", "denier", "cotton", "metric", "ticket")),
    *(
        ("thread_size", (value, given, wanted))
        for value in (0.5, 30, 120)
        for given in ("tex", "denier", "cotton", "metric", "ticket")
        for wanted in ("tex", "denier", "cotton", "metric", "ticket")
    ),
    *(("belt_tooth_degrees", (teeth,)) for teeth in (10, 14, 22, 60)),
    *(("v_belt_deflection", (span,)) for span in (150, 320)),
    *(("flat_depth", (d, w)) for d, w in ((8, 4), (8, 8), (6.35, 2.5), (7.24, 0.1))),
    *(("flat_width", (d, h)) for d, h in ((8, 0.5), (8, 4), (6.35, 0.01))),
    *(("turns_to_clear", (h, p, m)) for h, p, m in ((0.536, 0.79375, 0.25), (0, 0.635, 0), (1.2, 0.7, 0.1))),
    *((name, (turns,)) for name in ("whole_quarters", "safe_turns", "advice") for turns in (0.2, 0.5, 0.99, 1.25, 1.26, 2, 2.6, 12.9)),
    *(("rock", (socket, key)) for socket, key in ((1.5875, 1.5), (3.175, 3), (2.38125, 2), (2, 2.5))),
    *(("holding_torque", (force, d)) for force, d in ((540, 0.3125), (1000, 0.25))),
    *(("play_degrees", (play, radius)) for play, radius in ((0.1, 12), (0.4, 17))),
    *(("motor_speed", (stitches, wheel, motor)) for stitches, wheel, motor in ((4500, 70, 110), (850, 80, 9.5))),
    *(("differential", (front, rear)) for front, rear in ((30, 21), (7, 10))),
    *(("outside_diameter", (module, teeth, helix)) for module, teeth, helix in ((0.8, 14, 45), (25.4 / 32, 20, 30))),
    *(("slider_crank", (16, 46, degrees)) for degrees in (0, 25, 90, 180, 300)),
    *(("slider_crank_rise", (32, 46, degrees)) for degrees in (0, 10, 25, 90, 180, 335, -25)),
    *(("slider_crank_angle", (32, 46, rise)) for rise in (0, 1.8, 2.2, 2.5, 16, 32)),
)

REFUSED: tuple[tuple[str, tuple], ...] = (
    ("stitch_length", (0,)), ("stitches_per_inch", (-1,)), ("stitches_per_cm", (0,)), ("blade_mm", (0,)),
    ("metric_needle", (7,)), ("american_needle", (92,)), ("american_needle", (14,)), ("metric_needle", (90,)),
    ("needle_pair", ("80/14", "metric")), ("needle_pair", ("14", "metric")), ("needle_pair", ("four", "metric")),
    ("whole_thread", (60, 0, "tex")), ("thread_size", (0, "tex", "denier")),
    ("belt_tooth_degrees", (0,)), ("v_belt_deflection", (-5,)), ("flat_depth", (8, 9)), ("flat_depth", (8, 0)),
    ("flat_width", (8, 5)), ("turns_to_clear", (1, 0, 0.2)), ("turns_to_clear", (-1, 1, 0.2)),
    ("differential", (3, 0)), ("holding_torque", (0, 1)), ("slider_crank", (7, 7, 10)), ("slider_crank_rise", (0, 46, 10)),
    ("slider_crank_angle", (32, 46, 33)), ("slider_crank_angle", (32, 46, -0.1)),
)  # fmt: skip


def _plain(result: object) -> object:
    return list(result) if isinstance(result, tuple) else result


def vectors() -> dict[str, list[dict]]:
    """The whole content of reckoners.json, as plain data."""
    return {
        "handbook": [
            {"function": name, "arguments": list(arguments), "expected": expected, "within": within, "source": source}
            for name, arguments, expected, within, source in HANDBOOK
        ],
        "computed": [
            {"function": name, "arguments": list(arguments), "result": _plain(FUNCTIONS[name](*arguments))}
            for name, arguments in COMPUTED
        ],
        "refused": [{"function": name, "arguments": list(arguments)} for name, arguments in REFUSED],
    }


def as_text(found: dict[str, list[dict]]) -> str:
    """One row a line, so that a change shows as a line."""
    parts = (
        f'  "{part}": [\n' + ",\n".join(f"    {json.dumps(row)}" for row in rows) + "\n  ]" for part, rows in found.items()
    )
    return "{\n" + ",\n".join(parts) + "\n}\n"


if __name__ == "__main__":
    Path(__file__).with_name("reckoners.json").write_text(as_text(vectors()), encoding="utf-8")
