"""Timing sheets."""
