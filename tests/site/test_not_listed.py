"""A machine that is not in the book: the browser builds it as the library does, to the last digit."""

from __future__ import annotations

import dataclasses
import json
import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from playwright.sync_api import expect

from generator.analysis.doubt.next_step import next_steps
from generator.analysis.doubt.standing import start
from generator.analysis.doubt.table import Table
from generator.bench import Bench
from generator.library import Library
from generator.pages.data.families import doubt_data
from generator.records.model import AssemblyUse, Family
from generator.wording.grouping import GROUPS
from generator.wording.links import Links
from generator.wording.remedies import remedy_words

ROOT = Path(__file__).parent.parent.parent
CLOSE = 1e-9
"Minutes or shares: what two orders of adding up may differ by."
MACHINES = 6
"Machines put together by chance; each is tried with all its symptoms."


@pytest.fixture
def records(published):
    return published.library.records


@pytest.fixture
def tab(browser, site):
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True, accept_downloads=True)
    opened = context.new_page()
    opened.errors = []
    opened.on("pageerror", lambda error: opened.errors.append(str(error)))
    opened.goto((site / "not-listed.html").as_uri())
    yield opened
    assert opened.errors == []
    context.close()


def _ids(assembly) -> set[str]:
    return {*assembly.parts, *assembly.settings}


def _random_machine(records, rng: random.Random) -> dict:
    """Mechanisms that can stand together, some parts left out, any features."""
    uses, taken = [], set()
    for assembly in rng.sample(sorted(records.assemblies.values(), key=lambda a: a.id), len(records.assemblies)):
        if _ids(assembly) & taken or rng.random() < 0.15:
            continue
        taken |= _ids(assembly)
        without = [rng.choice(sorted(_ids(assembly)))] if _ids(assembly) and rng.random() < 0.2 else []
        uses.append({"use": assembly.id, "without": without})
    features = {f: rng.random() < 0.5 for f in sorted(records.features)}
    return {"title": "Made by chance", "kind": "domestic", "uses": uses, "features": features}


def _view(records, chosen: dict):
    """The same machine, built by the library from a record."""
    uses = tuple(AssemblyUse(u["use"], tuple(u["without"])) for u in chosen["uses"])
    family = Family("made", chosen["title"], chosen["kind"], "Made.", uses, features=chosen["features"])
    bench = Bench(Library(dataclasses.replace(records, families={"made": family}, tallies={}, fasteners={})))
    return bench, bench.library.for_family("made")


# As text: see the planner's test.
_BUILD = """(machines) => {
    let out;
    handwheel.whenGiven("mechanisms", (book) => {
        out = machines.map((chosen) => {
            const symptoms = handwheel.unlisted.viewOf(book, chosen).symptoms.map((s) => s.id);
            return symptoms.map((id) => {
                const family = handwheel.unlisted.familyData(book, chosen, id);
                const of = handwheel.caseOf(family, id);
                const { hypotheses, checks, doubt } = family.symptoms[id];
                const steps = handwheel.diagnosis.nextSteps(of, handwheel.doubt.start(of));
                return { id, hypotheses, checks, doubt, remedies: family.remedies, steps };
            });
        });
    });
    return JSON.stringify(out);
}"""


def _same_hypotheses(found, complaint):
    expected = complaint.case.hypotheses
    assert [(h["id"], h["causes"], h["remedy"]) for h in found] == [(h.id, list(h.causes), h.remedy.id) for h in expected]
    assert [h["share"] for h in found] == pytest.approx([complaint.share(h) for h in expected], abs=CLOSE)


def _same_checks(found, complaint):
    hypotheses, readings = complaint.case.hypotheses, complaint.doubt.readings
    expected = [
        (c.id, list(c.outcomes), [c.sees[h.id] for h in hypotheses], sorted(c.cured), readings[c.id].sound, sorted(readings[c.id].does))
        for c in complaint.case.checks
    ]
    assert [(c["id"], c["says"], c["sees"], c["cured"], c["sound"], c["does"]) for c in found] == expected


def _same_steps(found, complaint):
    table = Table(complaint.doubt)
    expected = next_steps(table, start(table))
    assert [(s["kind"], s["id"]) for s in found] == [(s.move.kind, s.id) for s in expected]
    assert [s["minutes"] for s in found] == pytest.approx([s.minutes for s in expected], abs=CLOSE)


def test_a_machine_made_by_chance_has_pythons_causes_shares_checks_and_next_steps(tab, records):
    rng = random.Random(5)
    machines = [_random_machine(records, rng) for _ in range(MACHINES)]
    compared = joint = 0
    for chosen, symptoms in zip(machines, json.loads(tab.evaluate(_BUILD, machines)), strict=True):
        bench, view = _view(records, chosen)
        assert sorted(s["id"] for s in symptoms) == sorted(view.symptoms)
        for found in symptoms:
            complaint = bench.complaint(view, found["id"])
            _same_hypotheses(found["hypotheses"], complaint)
            _same_checks(found["checks"], complaint)
            assert found["doubt"] == json.loads(json.dumps(doubt_data(complaint.doubt)))
            _same_steps(found["steps"], complaint)
            compared += 1
            joint += any(len(h.causes) > 1 for h in complaint.case.hypotheses)
    assert compared > 20
    assert joint > 0


def test_its_remedies_do_and_say_what_the_pages_of_a_listed_machine_would(tab, records):
    chosen = _random_machine(records, random.Random(2))
    bench, view = _view(records, chosen)
    link = Links(bench.library, "index.html", view)
    remedies = bench.remedies(view)
    causes = {}
    for mode, remedy in sorted(remedies.items()):
        causes.setdefault(remedy.id, []).append(mode)
    found = json.loads(tab.evaluate(_BUILD, [chosen]))[0][0]["remedies"]
    for remedy in remedies.values():
        words = remedy_words(bench, view, remedy, causes[remedy.id], link)
        twin = found[remedy.id]
        assert twin["says"] == "; ".join(w.text for w in words)
        assert (twin["renew"], twin["set"], twin["reach"]) == (list(remedy.renew), list(remedy.set), list(remedy.reach))


def test_votes_shared_events_and_absorption_give_the_textbooks_cut_sets(tab):
    """The pressure tank of NUREG-0492, Fault Tree Handbook (from memory), and a 2-out-of-3 vote."""
    relays = {"k": 2, "of": ["S", {"k": 1, "of": ["S1", "K1", "R"]}]}
    tank = {"k": 1, "of": ["T", {"k": 1, "of": ["K2", relays]}]}
    cut = "(tree) => handwheel.faultTree.cutSets(tree)"
    assert tab.evaluate(cut, tank) == [["K2"], ["T"], ["K1", "S"], ["R", "S"], ["S", "S1"]]
    assert tab.evaluate(cut, {"k": 2, "of": ["a", "b", "c"]}) == [["a", "b"], ["a", "c"], ["b", "c"]]
    assert tab.evaluate(cut, {"k": 1, "of": [{"k": 2, "of": ["a", "b"]}, "a"]}) == [["a"]]


def _start(tab, family="tessaly-40"):
    tab.get_by_label("Start from the machine that is most like it").select_option(family)


def test_started_from_a_listed_machine_it_has_that_machines_symptoms(tab, records):
    _start(tab)
    shown = {b.get_attribute("data-symptom") for b in tab.locator("#nl-symptoms button").all()}
    listed = Library(records).for_family("tessaly-40")
    if listed.family.symptoms is None:
        assert shown == set(listed.symptoms)
    assert set(listed.symptoms) <= shown


def test_complaints_stand_in_the_groups_of_the_home_page(tab, records):
    _start(tab)
    shown = tab.locator("#nl-symptoms h3").all_text_contents()
    assert shown == [title for title in GROUPS.values() if title in shown]
    assert len(shown) >= 4
    for section in tab.locator("#nl-symptoms section").all():
        title = section.locator("h3").inner_text()
        for button in section.locator("button").all():
            symptom = records.symptoms[button.get_attribute("data-symptom")]
            assert GROUPS[symptom.group or "other"] == title


def test_where_nothing_differs_it_leads_to_the_listed_machines_own_page(tab, site):
    same = tab.locator("#nl-same")
    expect(same).to_be_empty()
    _start(tab)
    expect(same).to_contain_text("Nothing differs.")
    tab.locator("#nl-symptoms [data-symptom='no-feed']").click()
    link = same.get_by_role("link")
    assert link.get_attribute("href").endswith("bench/tessaly-40/no-feed.html")
    assert (site / "bench" / "tessaly-40" / "no-feed.html").is_file()
    tab.locator("#nl-features summary").click()
    tab.locator("#nl-form [name='has']:not(:checked)").first.check()
    expect(same).to_be_empty()


def test_a_symptom_opens_the_same_walk_and_the_device_remembers_it(tab):
    _start(tab)
    tab.locator("#nl-symptoms [data-symptom='no-feed']").click()
    expect(tab.locator("#walk [data-check]")).to_have_count(1)
    tab.locator("#walk [data-outcome]").last.click()
    second = tab.locator("#walk [data-check]").get_attribute("data-check")
    tab.reload()
    assert tab.locator("#walk [data-check]").get_attribute("data-check") == second
    shares = [float(c.get_attribute("data-share")) for c in tab.locator("#walk [data-cause]").all()]
    assert sum(shares) == pytest.approx(1, abs=1e-6)


def test_what_the_complaint_warns_of_stands_before_its_first_check(tab, records):
    warned = next(s for s in Library(records).for_family("tessaly-40").symptoms.values() if s.cautions or s.stop)
    _start(tab)
    tab.locator(f"#nl-symptoms [data-symptom='{warned.id}']").click()
    walk = tab.locator("#walk")
    for caution in warned.cautions:
        expect(walk).to_contain_text(records.cautions[caution].title)
    first = "node => node.querySelector('.hw-caution, .hw-caution-line, [data-check], [data-remedy]').className"
    assert "hw-caution" in walk.evaluate(first)
    assert not warned.stop or "Stop using this machine" in walk.inner_text()


def test_a_shared_link_brings_the_machine_along(tab, browser):
    _start(tab)
    tab.locator("#nl-symptoms [data-symptom='no-feed']").click()
    tab.locator("#walk [data-outcome]").last.click()
    second = tab.locator("#walk [data-check]").get_attribute("data-check")
    tab.get_by_role("button", name="Share this walk").click()
    link = tab.locator("#walk-message").input_value().splitlines()[-1]
    other = browser.new_context(offline=True).new_page()
    other.goto(link)
    assert other.locator("#walk [data-check]").get_attribute("data-check") == second
    other.context.close()


def test_a_mechanism_with_the_same_parts_takes_the_place_of_the_other(tab):
    _start(tab)
    tab.locator("#nl-mechanisms summary").click()
    tab.locator("#nl-form [value='industrial-rotary-hook']").check()
    expect(tab.locator("#nl-form [value='rotary-hook-geared']")).not_to_be_checked()
    expect(tab.locator("#nl-live")).to_contain_text("Taken out")
    expect(tab.locator("#nl-form [value='industrial-rotary-hook']")).to_be_focused()


_TITLES = (
    "My old one",
    "\"quoted\" \\ 'it' # : - {x} [y] <img src=x onerror=1></script>",
    "\u202e\u200fRTL \u05d0\u05d1\u05d2 \U0001f9f5\x07",
    "tessaly 40",
    "W" * 500,
)


def _save(tab, title, folder) -> Path:
    """Names the machine and downloads its record; what is shown to copy is the same text."""
    tab.get_by_label("What you call it").evaluate("(box, title) => { box.value = title; box.dispatchEvent(new Event('input')); }", title)
    with tab.expect_download() as waiting:
        tab.get_by_role("link", name="Download").click()
    saved = folder / waiting.value.suggested_filename
    assert not saved.exists()
    waiting.value.save_as(saved)
    assert saved.read_text(encoding="utf-8") == tab.locator("#nl-text").input_value()
    return saved


def test_the_records_that_it_saves_pass_the_check_as_they_are(tab, records, tmp_path):
    content = tmp_path / "content"
    shutil.copytree(ROOT / "content", content)
    _start(tab)
    saved = [_save(tab, title, content / "families") for title in _TITLES]
    listed = records.families["tessaly-40"]
    for path in saved:
        record = yaml.safe_load(path.read_text(encoding="utf-8"))
        assert [u if isinstance(u, str) else u["use"] for u in record["assemblies"]] == [u.use for u in listed.assemblies]
        assert {f for f, has in record["features"].items() if has} == {f for f, has in listed.features.items() if has}
    done = subprocess.run(
        [sys.executable, "-m", "generator", "check", "--content", str(content), *map(str, saved)],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_what_is_typed_shows_as_text_and_nothing_runs_over_the_edge(tab):
    _start(tab)
    tab.get_by_label("What you call it").fill("<img src=x onerror=window.hurt=1>" + "W" * 80)
    tab.locator("#nl-symptoms [data-symptom='no-feed']").click()
    tab.get_by_role("button", name="Share this walk").click()
    assert tab.locator("img[src='x']").count() == 0
    assert tab.evaluate("window.hurt") is None
    assert tab.evaluate("document.documentElement.scrollWidth") <= 390


def test_without_scripts_the_page_leads_to_the_nearest_machines(browser, site):
    page = browser.new_context(java_script_enabled=False, offline=True).new_page()
    page.goto((site / "not-listed.html").as_uri())
    expect(page.get_by_role("link", name="Tessaly 40-series")).to_be_visible()
    expect(page.locator("#nl-keep")).to_be_hidden()
    page.context.close()
