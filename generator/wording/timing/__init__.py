"""Timing in words: for the sheet and for the command."""

from generator.wording.timing.drive import belt_lines, gear_lines, motor_lines
from generator.wording.timing.feed import feed_lines
from generator.wording.timing.hook import backlash_lines, caveats, hook_lines, plain, sides, swing_lines
from generator.wording.timing.measure import ABOVE_ALL, HOW_TO_MEASURE, missing_lines

__all__ = [
    "ABOVE_ALL",
    "HOW_TO_MEASURE",
    "backlash_lines",
    "belt_lines",
    "caveats",
    "feed_lines",
    "gear_lines",
    "hook_lines",
    "missing_lines",
    "motor_lines",
    "plain",
    "sides",
    "swing_lines",
]
