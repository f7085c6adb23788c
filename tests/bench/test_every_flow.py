"""Every order of the published book keeps the laws of the bench, as an independent checker reads them."""

from __future__ import annotations

from generator.analysis.policy import to_json
from tests.analysis.doubt.doubt_laws import broken


def test_every_flow_sees_a_sign_before_a_dear_part_drops_no_row_and_puts_no_power_on_a_fault(published) -> None:
    complaints = list(published.complaints())
    dear = 0
    for complaint in complaints:
        assert broken(complaint.doubt, to_json(published.diagnosed(complaint).order.policy)) == [], complaint.symptom.id
        dear += len(complaint.doubt.dear)
    assert len(complaints) > 200 and dear > 200
