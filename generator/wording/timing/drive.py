"""Belt, gears and motor in words."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.timing import Timing


def belt_lines(found: Timing) -> Iterator[str]:
    """A belt a tooth off."""
    tooth = found.tooth
    if tooth is None or found.middle is None:
        return
    hook = f", {tooth.hook_degrees:.0f}° of the hook" if tooth.hook_degrees else ""
    yield f"One tooth, on either pulley, is {tooth.degrees:.1f}° of the hand wheel{hook}."
    before = " while still going down" if tooth.early_before else ""
    yield (
        f"Set at {found.middle.rise:.2f} mm and a tooth early, the point comes at {tooth.early:.1f} mm{before}; "
        f"a tooth late, at {tooth.late:.1f} mm."
    )
    yield (
        f"A timing out by {tooth.degrees:.0f}° or {2 * tooth.degrees:.0f}°, to within 2°, is the belt; "
        "any other angle is a slipped pulley. "
        "A pulley that slipped by just a tooth looks the same: the marks and its screws decide."
    )
    if tooth.centres is not None:
        yield f"The belt's own teeth put the shafts {tooth.centres:.1f} mm apart."


def gear_lines(found: Timing) -> Iterator[str]:
    """Which gears the hook's are."""
    gears = found.gears
    if gears is None:
        return
    slant = f" at {gears.helix:g}°" if gears.helix else ""
    best = " or ".join(f"{c.system} {c.size:g} ({c.error:+.2f} mm)" for c in gears.can_be[:2])
    yield (
        f"{gears.teeth} teeth{slant} and {gears.outside:g} mm over them: {best}, in brackets by how much the measured one is larger. "
        "Worn teeth measure small."
    )
    if gears.distance is not None:
        yield f"With the best of these and its mate of {gears.mate} teeth the shafts stand {gears.distance:.2f} mm apart."


def motor_lines(found: Timing) -> Iterator[str]:
    """Motor and hand wheel by their pulleys."""
    motor = found.motor
    if motor is None:
        return
    yield (
        f"By its pulleys the motor turns {motor.ratio:.3g} times for one turn of the hand wheel: about {motor.speed:,.0f} "
        f"turns a minute at {motor.stitches:.0f} stitches, less what the belt slips."
    )
    yield (
        "Count stitches at the sewing, never at a bare belt or an open motor. Clearly slower with a good belt and a free machine: "
        "someone qualified in motors."
    )
