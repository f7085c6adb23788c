"""Timing drawn to scale."""
