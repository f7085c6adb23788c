"""A family's timing: its own figures and its settings' targets, worked out."""

from generator.bench.timing.timing import Timing, timing
from generator.bench.timing.wanted import USED

__all__ = ["USED", "Timing", "timing"]
