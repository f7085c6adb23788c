"""Toothed-belt pitches."""

from __future__ import annotations

BELT_PITCH_MM: dict[str, float] = {"MXL": 2.032, "XL": 5.08, "L": 9.525, "H": 12.7}
"Pitch code -> mm from tooth to tooth. ISO 5296."
