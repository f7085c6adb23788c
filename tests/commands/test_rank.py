"""`rank` as a person or another tool asks it."""

from __future__ import annotations

import pytest

from generator.commands.rank import rank
from tests.commands.asking import COMPLAINT, asked, run

pytestmark = pytest.mark.usefixtures("in_sound_folder")


def test_rank_gives_the_agreed_keys_and_shares_that_make_a_whole() -> None:
    told = asked(rank, *COMPLAINT)
    assert {"causes", "next_check", "expected_minutes", "exact", "lower_bound"} <= set(told)
    assert all({"id", "share", "remedy"} <= set(cause) for cause in told["causes"])
    assert sum(cause["share"] for cause in told["causes"]) == pytest.approx(1)
    assert told["lower_bound"] <= told["expected_minutes"] + 1e-9


def test_an_answer_moves_the_shares_as_bayes_rule_does() -> None:
    """By hand: outcome 1 of three fits the cracked gear; trust 0.95, the rest of 0.05 shared by the other outcomes.

    What no book lists shows the sound outcome, and so this one as seldom as the rest.
    """
    before = {c["id"]: c["share"] for c in asked(rank, *COMPLAINT)["causes"]}
    after = {c["id"]: c["share"] for c in asked(rank, *COMPLAINT, "--saw", "watch-hook=1")["causes"]}
    seen = {i: share * (0.95 if i == "gear-cracked" else 0.025) for i, share in before.items()}
    assert after == pytest.approx({i: w / sum(seen.values()) for i, w in seen.items()})


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("--saw", "watch-hook=1", "--saw", "watch-hook=2"), "'watch-hook' is given twice with --saw"),
        (("--saw", "watch-hook=9"), "'watch-hook' has no outcome 9. It has: 1 It stands still"),
        (("--saw", "watch-hook"), "'watch-hook' says no outcome"),
        (("--skip", "watch-hok"), "Did you mean 'watch-hook'?"),
    ],
)
def test_rank_refuses_what_makes_no_sense_in_one_sentence(given, said) -> None:
    result = run(rank, *COMPLAINT, *given)
    assert result.exit_code == 1
    assert said in result.output
    assert len(result.output.splitlines()) == 1
