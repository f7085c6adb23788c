"""Timing: needle bar, hook, belt and zigzag, in degrees of the hand wheel and mm of rise."""
