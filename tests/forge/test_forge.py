"""What the forge reads: workflows, forms, owners. Their shapes are held to the published schemas that come with
check-jsonschema; what they run, pin and name is held to this project."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from click import Group

from generator.__main__ import main
from generator.pages.learn.forms import FORMS

ROOT = Path(__file__).parents[2]
FORGE = ROOT / ".github"
WORKFLOWS = sorted((FORGE / "workflows").glob("*.yml"))
ISSUE_FORMS = sorted(path for path in (FORGE / "ISSUE_TEMPLATE").glob("*.yml") if path.name != "config.yml")
SHAPES = {
    "github-workflows": WORKFLOWS,
    "github-issue-forms": ISSUE_FORMS,
    "github-issue-config": [FORGE / "ISSUE_TEMPLATE" / "config.yml"],
    "dependabot": [FORGE / "dependabot.yml"],
}
PINNED = re.compile(r"[\w./-]+@(v\d+\.\d+\.\d+|[0-9a-f]{40})")


def jobs(path: Path) -> dict[str, dict]:
    return yaml.safe_load(path.read_text("utf-8"))["jobs"]


def steps(path: Path) -> list[dict]:
    return [step for job in jobs(path).values() for step in job["steps"]]


def commands(path: Path) -> list[str]:
    """Every line that a workflow runs."""
    return [line for step in steps(path) for line in step.get("run", "").splitlines()]


@pytest.mark.parametrize("shape", SHAPES)
def test_every_file_has_the_shape_that_the_forge_publishes(shape: str) -> None:
    line = [sys.executable, "-m", "check_jsonschema", "--builtin-schema", f"vendor.{shape}", *map(str, SHAPES[shape])]
    done = subprocess.run(line, capture_output=True, text=True, check=False)
    assert SHAPES[shape]
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("path", WORKFLOWS, ids=lambda path: path.stem)
def test_a_workflow_is_pinned_bounded_in_time_and_asks_for_no_more_than_it_needs(path: Path) -> None:
    whole = yaml.safe_load(path.read_text("utf-8"))
    assert [step["uses"] for step in steps(path) if "uses" in step and not PINNED.fullmatch(step["uses"])] == []
    assert whole["permissions"] == {"contents": "read"}
    assert all(0 < job["timeout-minutes"] <= 60 and job["runs-on"] == "ubuntu-24.04" for job in jobs(path).values())
    assert not any("pull_request_target" in str(key) for key in whole[True])  # YAML 1.1 takes `on` for true


@pytest.mark.parametrize("path", WORKFLOWS, ids=lambda path: path.stem)
def test_no_line_that_a_workflow_runs_takes_in_text_from_outside(path: Path) -> None:
    """What an expression holds is pasted into the shell; a branch's name may hold a command. Variables are safe."""
    assert [line for line in commands(path) if "${{" in line] == []


@pytest.mark.parametrize("path", WORKFLOWS, ids=lambda path: path.stem)
def test_every_command_that_a_workflow_runs_is_ours_and_its_options_are_known(path: Path) -> None:
    assert isinstance(main, Group)
    for line in commands(path):
        name, *rest = line.partition("-m generator ")[2].split() or [""]
        options = {o for p in (main.get_command(None, name).params if name else ()) for o in p.opts}
        assert {word for word in rest if word.startswith("--")} <= options
        for place in re.findall(r"\btests/[\w./]+", line):
            assert (ROOT / place).exists()
    assert (ROOT / ".ci" / "run").stat().st_mode & 0o100


def test_a_change_of_the_records_alone_goes_the_short_way_and_any_other_the_whole() -> None:
    short, whole = (yaml.safe_load((FORGE / "workflows" / name).read_text("utf-8"))[True]["pull_request"] for name in ("content.yml", "whole.yml"))
    assert short["paths"] == whole["paths-ignore"] == ["content/**"]


def test_the_forms_ask_what_the_page_contribute_asks_in_a_letter() -> None:
    asked = {}
    for path in ISSUE_FORMS:
        form = yaml.safe_load(path.read_text("utf-8"))
        kinds = ("input", "textarea", "dropdown")
        asked[form["name"]] = tuple(part["attributes"]["label"] for part in form["body"] if part["type"] in kinds)
    assert asked == FORMS


def test_the_link_that_a_page_gives_opens_a_form_and_fills_in_a_field_that_it_has() -> None:
    form = yaml.safe_load((FORGE / "ISSUE_TEMPLATE" / "wrong-or-missing.yml").read_text("utf-8"))
    assert "where" in {part["id"] for part in form["body"]}


def test_every_area_that_has_owners_is_there() -> None:
    lines = [line.split() for line in (FORGE / "CODEOWNERS").read_text("utf-8").splitlines() if line and not line.startswith("#")]
    assert lines[0][0] == "*"
    assert [place for place, *_ in lines[1:] if not (ROOT / place.strip("/")).exists()] == []
    assert all(owner.startswith("@") for _, *owners in lines for owner in owners)


def test_what_runs_before_a_commit_is_what_the_workflows_run() -> None:
    (repo,) = yaml.safe_load((ROOT / ".pre-commit-config.yaml").read_text("utf-8"))["repos"]
    assert repo["repo"] == "local"
    assert [hook["entry"].split()[2] for hook in repo["hooks"]] == ["generator", "ruff"]
    assert all({"id", "name", "entry", "language"} <= hook.keys() for hook in repo["hooks"])


def test_the_newest_change_is_of_this_version() -> None:
    version = re.search(r'^version = "(.+)"$', (ROOT / "pyproject.toml").read_text("utf-8"), re.MULTILINE)[1]
    newest = re.search(r"^## (\S+), edition (\d{4}\.\d{2})$", (ROOT / "CHANGELOG.md").read_text("utf-8"), re.MULTILINE)
    assert newest[1] == version


@pytest.mark.parametrize("name", ["CONTRIBUTING.md", "README.md", "DEVELOPERS.md"])
def test_what_a_page_of_the_repository_links_to_is_there(name: str) -> None:
    links = re.findall(r"\]\(([^)#]+)\)", (ROOT / name).read_text("utf-8"))
    assert links
    assert [link for link in links if not link.startswith("http") and not (ROOT / link).exists()] == []
