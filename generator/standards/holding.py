"""What published charts give for cup-point set screws: seating torque and holding force."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SetScrewRow:
    """One screw size in one chart."""

    size: str
    "Screw size: 4, 8, 10 or 1/4."
    seating_torque_lbf_in: float
    holding_force_lbf: float | None
    "Force along the shaft's surface at which the screw slips; None where the chart gives none here."
    source: str
    memory: bool = False
    "True where the row is recalled, not read from a copy or quotation of its source."


SET_SCREW_CHARTS: tuple[SetScrewRow, ...] = (
    # Shigley, Mechanical Engineering Design, cup-point set screws; forces of #4 and #8 read in quotation.
    SetScrewRow("4", 5, 160, "shigley", memory=True),
    SetScrewRow("6", 10, 250, "shigley", memory=True),
    SetScrewRow("8", 20, 385, "shigley"),
    SetScrewRow("10", 36, 540, "shigley", memory=True),
    SetScrewRow("1/4", 87, 1000, "shigley", memory=True),
    # Other published charts stop lower.
    SetScrewRow("8", 15, None, "common-practice"),
    SetScrewRow("10", 25, None, "common-practice"),
)
