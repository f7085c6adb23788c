"""`compare` as a reviewer asks it."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path

import pytest

from generator.commands.compare import compare
from tests.commands.asking import asked, run

pytestmark = pytest.mark.usefixtures("in_sound_folder")


@pytest.fixture(autouse=True)
def _sound(in_sound_folder: None) -> None:
    """The sound records are what stood before."""
    for words in (("init",), ("add", "."), ("commit", "-m", "sound")):
        who = ("-c", "user.name=A", "-c", "user.email=a@example.org")
        subprocess.run(["git", *who, *words], check=True, capture_output=True)


def change(place: str, old: str, new: str) -> None:
    path = Path("content", place)
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_nothing_changed_is_one_line() -> None:
    assert run(compare, "HEAD").output == "Nothing has changed.\n"


def test_a_figure_stands_beside_what_it_was_and_orders_that_moved_come_first() -> None:
    change("failure-modes/timing-off.yaml", "seen: 12", "seen: 600")
    told = asked(compare, "HEAD")
    assert {"added", "changed", "order_changes"} <= set(told)
    assert [(record["id"], record["keys"], record["values"]) for record in told["changed"]] == [
        ("timing-off", ["seen"], [{"key": "seen", "before": "12", "now": "600"}])
    ]
    sizes = [abs(o["minutes_now"] - o["minutes_before"]) for o in told["order_changes"]]
    assert len(sizes) == 2 and sizes == sorted(sizes, reverse=True)
    text = run(compare, "HEAD").output
    assert text.index("Orders of checks that moved") < text.index("Failure mode: Hook timing off")
    assert "  seen; before: 12; now: 600\n" in text


def test_a_new_mode_is_told_with_the_outcome_that_it_falls_to_and_its_line_in_the_tree() -> None:
    Path("content/failure-modes/point-blunt.yaml").write_text(
        "title: Hook point blunt\npart: hook-gear\nseen: 30\nremedy: {renew: [hook-gear]}\n", encoding="utf-8"
    )
    change("symptoms/skipped-stitches.yaml", "any: [gear-cracked, timing-off]", "any: [gear-cracked, timing-off, point-blunt]")
    told = asked(compare, "HEAD")
    assert [(r["kind"], r["id"]) for r in told["added"]] == [("failure-mode", "point-blunt")]
    assert told["falls"] == [{"mode": "point-blunt", "check": "watch-hook", "says": "It turns evenly", "how": "rest"}]
    (tree,) = next(r["values"] for r in told["changed"] if r["id"] == "skipped-stitches")
    assert tree["key"] == "tree[the symptom (any of) > The hook misses the loop (any of) > point-blunt]"
    assert "not named: it falls to the outcome for all else" in run(compare, "HEAD").output


def test_causes_that_no_check_tells_apart_any_more_are_named() -> None:
    change("checks/watch-hook.yaml", "fits: [gear-cracked]}", "fits: [gear-cracked, timing-off]}")
    told = asked(compare, "HEAD")
    assert [set(a["causes"]) for a in told["ambiguous"] if a["symptom"] == "skipped-stitches"] == [{"gear-cracked", "timing-off"}]


def test_a_part_that_takes_longer_makes_other_jobs_and_a_lost_complaint_comes_first() -> None:
    change("families/testa-1.yaml", "off: {minutes: 9}", "off: {minutes: 29}")
    change("families/testa-1.yaml", "symptoms: [skipped-stitches, nest-below]", "symptoms: [skipped-stitches]")
    told = asked(compare, "HEAD")
    (plan,) = told["plans"]
    assert (plan["mode"], plan["minutes_now"] - plan["minutes_before"]) == ("gear-cracked", 20)
    assert run(compare, "HEAD").output.startswith("Complaints lost\n  testa-1; complaint: Nest below\n")


def test_a_complaint_of_which_a_reader_would_see_no_other_figure_is_left_out() -> None:
    change("failure-modes/gear-cracked.yaml", "title: Hook-shaft gear cracked", "title: Gear on the hook shaft cracked")
    told = asked(compare, "HEAD")
    assert (told["order_changes"], told["plans"], told["ambiguous"]) == ([], [], [])
    assert told["changed"][0]["values"][0]["before"] == "Hook-shaft gear cracked"


def test_many_files_and_few_files_are_compared_alike() -> None:
    """Few are read by themselves and laid over what stands today; of many the whole revision is read."""
    change("tools.yaml", "Screwdriver", "Driver")
    change("shop.yaml", "labour_rate: ", "labour_rate: 1")
    few = asked(compare, "HEAD")
    from generator.commands import revision

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(revision, "_FEW", 0)
        assert asked(compare, "HEAD") == few
    assert [r["id"] for r in few["changed"]] == ["shop", "driver"]


def test_markdown_holds_the_same_rows_and_nothing_in_a_record_gets_out_of_its_cell() -> None:
    change("tools.yaml", "Screwdriver,", "'Driver | @all *x* #12',")
    text = run(compare, "HEAD", "--as", "markdown").output
    assert "| title | Screwdriver | Driver &#124; &#64;all &#42;x&#42; &#35;12 |" in text
    assert json.loads(run(compare, "HEAD", "--as", "json").output) == asked(compare, "HEAD")


def test_compare_takes_no_option_for_a_revision() -> None:
    result = run(compare, "--", "--output=taken.tar")
    assert result.exit_code == 1
    assert "no revision" in result.output
    assert not Path("taken.tar").exists()


def test_a_revision_with_errors_is_not_compared_with() -> None:
    change("tools.yaml", "title: Screwdriver", "titel: Screwdriver")
    who = ("-c", "user.name=A", "-c", "user.email=a@example.org")
    subprocess.run(["git", *who, "commit", "-am", "broken"], check=True, capture_output=True)
    change("tools.yaml", "titel: Screwdriver", "title: Screwdriver")
    result = run(compare, "HEAD")
    assert result.exit_code == 1
    assert re.fullmatch(r"The records at HEAD have [1-9] errors?, so there is nothing sound to compare with\.\n", result.output)


def test_a_hidden_file_is_no_record_and_is_passed_over() -> None:
    Path("content/.notes.yaml").write_text("ours: 1\n", encoding="utf-8")
    change("tools.yaml", "Screwdriver", "Driver")
    assert [r["id"] for r in asked(compare, "HEAD")["changed"]] == ["driver"]


def test_a_file_taken_away_is_told_whatever_git_would_record_next() -> None:
    Path("content/shop.yaml").unlink()
    told = asked(compare, "HEAD")
    assert [r["id"] for r in told["changed"]] == ["shop"]
    subprocess.run(["git", "rm", "-q", "--cached", "content/shop.yaml"], check=True, capture_output=True)
    assert asked(compare, "HEAD") == told
