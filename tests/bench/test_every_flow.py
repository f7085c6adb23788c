"""Every order of the published book keeps the laws of the bench, as an independent checker reads them."""

from __future__ import annotations

from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.table import Table
from generator.analysis.policy import to_json
from tests.analysis.doubt.doubt_laws import broken
from tests.analysis.doubt.doubt_simulate import by_rule, simulate


def test_every_flow_sees_a_sign_before_a_dear_part_drops_no_row_and_puts_no_power_on_a_fault(published) -> None:
    complaints = list(published.complaints())
    dear = 0
    for complaint in complaints:
        assert broken(complaint.doubt, to_json(published.diagnosed(complaint).order.policy)) == [], complaint.symptom.id
        dear += len(complaint.doubt.dear)
    assert len(complaints) > 200 and dear > 200


def test_hidden_faults_take_the_reckoned_minutes_where_a_fault_on_the_mains_side_keeps_power_off(published) -> None:
    """What is estimated, where few jobs come, must not count on remedies that wait for power."""
    complaint = published.complaint(published.library.for_family("aldermoor-s"), "motor-hums-wont-turn")
    assert complaint.doubt.safe
    table = Table(complaint.doubt)
    jobs = simulate(table, by_rule(table, Rollout(table).move), 3_000)
    reckoned = published.diagnosed(complaint).order.expected_minutes
    assert abs(jobs.minutes - reckoned) <= 3 * jobs.error + 0.02 * jobs.minutes
