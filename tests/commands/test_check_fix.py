"""`check --fix` mends what it can without a change of meaning, keeps notes and layout, and says what it did."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.commands.check import check

DRIVE = Path("content/assemblies/hook-drive.yaml")
CHECK = Path("content/checks/watch-hook.yaml")


pytestmark = pytest.mark.usefixtures("in_sound_folder")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(check, arguments)


def texts() -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(Path("content").rglob("*")) if path.is_file()}


def test_sound_records_are_left_as_they_are() -> None:
    before = texts()
    assert run("--fix").output.endswith("records: no problems.\n")
    assert texts() == before


def test_a_unit_is_written_as_the_book_does_and_its_line_stays_otherwise() -> None:
    before = DRIVE.read_text()
    DRIVE.write_text(before.replace("low: 1.8 mm, high: 2.5 mm", "low: 1.8  MM,  high: '2.5 millimetres'") + "# by eye\n")
    result = run("--fix")
    assert result.exit_code == 0
    assert ": '1.8  MM' is '1.8 mm' now." in result.output
    assert DRIVE.read_text() == before.replace("low: 1.8 mm, high: 2.5 mm", "low: 1.8 mm,  high: '2.5 mm'") + "# by eye\n"


def test_marks_and_line_ends_of_another_editor_stay() -> None:
    text = "\ufeff# Slowly.\r\n" + CHECK.read_text().replace("\n", "\r\n").replace("title: Watch the hook\r\n", "")
    CHECK.write_bytes((text + "title: Watch the hook\r\n").encode("utf-8"))
    run("--fix", str(CHECK))
    after = CHECK.read_bytes()
    assert after.startswith("\ufeff# Slowly.\r\ntitle: Watch the hook\r\nhow:".encode("utf-8"))
    assert after.count(b"\n") == after.count(b"\r\n") == text.count("\n") + 1
    run("--fix", str(CHECK))
    assert CHECK.read_bytes() == after


def test_a_file_gets_the_name_of_a_record_unless_another_has_it() -> None:
    CHECK.rename("content/checks/Watch_Hook.yml")
    result = run("--fix", "content/checks/Watch_Hook.yml")
    assert "content/checks/Watch_Hook.yml: renamed to 'watch-hook.yaml'." in result.output
    assert CHECK.is_file()
    Path("content/checks/watch_hook.yaml").write_text("title: Another\n")
    assert "left, since 'watch-hook.yaml' is there already." in run("--fix").output
    assert Path("content/checks/watch_hook.yaml").read_text() == "title: Another\n"


def test_keys_of_a_named_file_come_in_order_with_their_notes() -> None:
    rest = CHECK.read_text().removeprefix("title: Watch the hook\n")
    CHECK.write_text(f"# For all machines.\n\n# Slowly.\n{rest}# In few words.\ntitle: Watch the hook\n")
    assert "order" not in run("--fix").output
    assert f"{CHECK}: its keys are in the order of the schema." in run("--fix", str(CHECK)).output
    lines = CHECK.read_text().splitlines()
    assert lines[:5] == ["# For all machines.", "", "# In few words.", "title: Watch the hook", "# Slowly."]
    assert "order" not in run("--fix", str(CHECK)).output


def test_the_nearest_id_is_written_only_on_request() -> None:
    CHECK.write_text(CHECK.read_text().replace("reach: [plate]", "reach: [plaet]  # turned"))
    assert "'plaet' is no part. Did you mean 'plate'?" in run("--fix").output
    result = run("--fix", "--nearest")
    assert (result.exit_code, "'plaet' is 'plate' now." in result.output) == (0, True)
    assert "reach: [plate]  # turned\n" in CHECK.read_text()
    assert run("--nearest").exit_code == 1


def test_a_file_that_cannot_be_written_whole_stays_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    DRIVE.write_text(DRIVE.read_text().replace("1.8 mm", "1.8 MM"))
    before = texts()

    DRIVE.chmod(0o444)
    assert "left, it cannot be written: it is for reading only." in run("--fix").output
    DRIVE.chmod(0o644)

    def full(*paths: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.replace", full)
    assert "left, it cannot be written: No space left on device." in run("--fix").output
    assert texts() == before
