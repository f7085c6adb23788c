"""The practice bench in a real browser, against chance, shares and minutes worked out here."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from scipy.stats import chisquare

from generator.analysis.doubt.standing import (
    check_minutes,
    check_number,
    not_cured,
    remedy_minutes,
    remedy_number,
    seen,
    start,
)
from generator.analysis.doubt.table import Table
from generator.bench import Bench
from generator.bench.walk import Entry, walk
from generator.content_rules import load_checked
from generator.library import Library
from generator.pages.data.families import data_files, family_data
from generator.pages.learn import practice as practice_page
from generator.pages.maker import Maker
from tests.script_files import given
from tests.site.some_pages import ROOT, build_pages

FAMILY = "testa-1"
MACHINES = 4000
UNLIKELY = 1e-4
"A sample that fits the shares is refused this often; the numbers are fixed, so the test does not waver."
WORD = 0xFFFFFFFF

_RUN = """([id, numbers]) => new Promise((done) => handwheel.withFamily(id, (family) => done(numbers.map((n) => {
  const machine = handwheel.practice.bringIn(family, n);
  const symptom = Object.keys(family.symptoms).find((s) => family.symptoms[s] === machine.of.symptom);
  const shown = machine.of.checks.map((c) => [c.id, handwheel.practice.shows(machine, c)]);
  return { symptom, fault: machine.fault.id, said: machine.said, shown: Object.fromEntries(shown),
           planned: handwheel.practice.plannedMinutes(machine) };
}))))"""


@pytest.fixture(scope="module")
def bench(tmp_path_factory) -> Bench:
    records, _ = load_checked([ROOT / "tests" / "records" / "sound"])
    return Bench(Library(records), tmp_path_factory.mktemp("cache"))


@pytest.fixture(scope="module")
def small(bench, tmp_path_factory) -> Path:
    data = {**dict(data_files(bench)), **dict(practice_page.cards_files(bench))}
    return build_pages(tmp_path_factory.mktemp("practice"), practice_page.pages(Maker(bench)), data)


@pytest.fixture
def page(browser, small):
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    opened = context.new_page()
    faults: list[str] = []
    opened.on("pageerror", lambda fault: faults.append(str(fault)))
    opened.goto(f"file://{small}/{practice_page.ADDRESS}")
    yield opened
    assert faults == []
    context.close()


def _hashed(text: str) -> int:
    """FNV-1a, 32 bits; for ASCII."""
    value = 0x811C9DC5
    for byte in text.encode("ascii"):
        value = (value ^ byte) * 0x01000193 & WORD
    return value


def _chance(text: str) -> Callable[[], float]:
    """mulberry32 on unsigned words."""
    state = _hashed(text)

    def following() -> float:
        nonlocal state
        state = state + 0x6D2B79F5 & WORD
        t = (state ^ state >> 15) * (state | 1) & WORD
        t ^= t + ((t ^ t >> 7) * (t | 61) & WORD) & WORD
        return (t ^ t >> 14) / 2**32

    return following


def _brought_in(family: dict, number: int) -> dict:
    following = _chance(f"{FAMILY}/{number}")
    names = sorted(family["symptoms"])
    name = names[int(following() * len(names))]
    symptom = family["symptoms"][name]
    hypotheses = symptom["hypotheses"]
    point = following() * sum(h["share"] for h in hypotheses)
    at = 0
    while (point := point - hypotheses[at]["share"]) >= 0:
        at += 1
    said = symptom["said"][int(following() * len(symptom["said"]))]
    shown = {c["id"]: _shown(family, number, c, at) for c in symptom["checks"]}
    return {"symptom": name, "fault": hypotheses[at]["id"], "said": said, "shown": shown}


def _shown(family: dict, number: int, check: dict, at: int) -> int:
    truth = check["sees"][at]
    following = _chance(f"{FAMILY}/{number}/{check['id']}")
    if truth in check["cured"] or following() < family["checks"][check["id"]]["trust"]:
        return truth
    others = [n for n in range(len(check["says"])) if n != truth and n not in check["cured"]]
    return others[int(following() * len(others))] if others else truth


def _plain(page: Page, numbers) -> list[dict]:
    return page.evaluate(_RUN, [FAMILY, list(numbers)])


def test_the_hash_is_fnv_1a():
    """Offset basis and the value for "a" as published with the algorithm (from memory)."""
    assert _hashed("") == 0x811C9DC5
    assert _hashed("a") == 0xE40C292C


def test_the_fault_the_words_and_the_outcomes_are_those_of_the_number(page, bench):
    family = family_data(bench, bench.library.for_family(FAMILY))
    # Two hundred, so that some check misleads among them.
    found = _plain(page, range(200))
    expected = [_brought_in(family, n) for n in range(200)]
    assert [{k: m[k] for k in e} for m, e in zip(found, expected, strict=True)] == expected
    assert found == _plain(page, range(200))


def test_faults_come_as_often_as_their_shares_say(page, bench):
    view = bench.library.for_family(FAMILY)
    drawn = Counter((m["symptom"], m["fault"]) for m in _plain(page, range(MACHINES)))
    for symptom in view.symptoms:
        hypotheses = bench.complaint(view, symptom).case.hypotheses
        seen = [drawn[symptom, h.id] for h in hypotheses]
        whole = sum(h.share for h in hypotheses)
        assert sum(seen) > MACHINES / 3
        assert chisquare(seen, [sum(seen) * h.share / whole for h in hypotheses]).pvalue > UNLIKELY


def test_a_check_shows_the_truth_as_often_as_it_can_be_trusted(page, bench):
    view = bench.library.for_family(FAMILY)
    true = Counter()
    for machine in _plain(page, range(MACHINES)):
        for check in bench.complaint(view, machine["symptom"]).case.checks:
            true[check.id, check.sees[machine["fault"]] == machine["shown"][check.id]] += 1
    assert true
    for name in {name for name, _ in true}:
        seen = [true[name, True], true[name, False]]
        trust = view.checks[name].trust
        assert chisquare(seen, [sum(seen) * trust, sum(seen) * (1 - trust)]).pvalue > UNLIKELY


def test_the_books_minutes_for_a_fault_are_those_of_a_walk_that_sees_the_truth(page, bench):
    view = bench.library.for_family(FAMILY)
    planned = {(m["symptom"], m["fault"]): m["planned"] for m in _plain(page, range(MACHINES))}
    assert len(planned) > 3
    for (symptom, fault), minutes in planned.items():
        assert minutes == pytest.approx(_walked(bench, bench.complaint(view, symptom), fault), abs=1e-9)


def _walked(bench, complaint, fault: str) -> float:
    """The minutes of Python's walk where every check shows the truth and every remedy for the fault cures."""
    table, log = Table(complaint.doubt), []
    hypothesis = next(h for h in complaint.case.hypotheses if h.id == fault)
    now, spent = start(table), 0.0
    while True:
        found = walk(bench, complaint, log)
        if found.next_check:
            number = check_number(table, found.next_check)
            check = complaint.case.checks[number]
            spent += check_minutes(table, now, table.checks[number])
            if check.sees[fault] in check.cured:
                return spent
            log.append(Entry("saw", check.id, check.sees[fault]))
            now = seen(table, now, number, check.sees[fault])
        elif found.next_remedy:
            number = remedy_number(table, found.next_remedy)
            spent += remedy_minutes(table, now, table.remedies[number])
            if found.next_remedy == hypothesis.remedy.id:
                return spent
            log.append(Entry("tried", found.next_remedy))
            now = not_cured(table, now, number)
        else:
            return spent + complaint.doubt.stop_minutes + complaint.doubt.come_back_minutes


def _machine_with_a_check(page: Page, bench: Bench) -> tuple[int, dict]:
    view = bench.library.for_family(FAMILY)
    for number, machine in enumerate(_plain(page, range(200))):
        case = bench.complaint(view, machine["symptom"]).case
        if case.checks and len({h.remedy.id for h in case.hypotheses}) > 2:
            return number, machine
    pytest.fail("No machine of these has a check and three remedies.")


def test_a_job_of_a_check_wrong_remedies_and_the_right_one_costs_pythons_minutes(page, bench):
    number, machine = _machine_with_a_check(page, bench)
    case = bench.complaint(bench.library.for_family(FAMILY), machine["symptom"]).case
    fault = next(h for h in case.hypotheses if h.id == machine["fault"])
    page.goto(f"{page.url.partition('#')[0]}#{FAMILY}/{number}")
    bench_of = page.locator("#practice-bench")
    expect(bench_of).to_contain_text(f"“{machine['said']}”")
    table = Table(bench.complaint(bench.library.for_family(FAMILY), machine["symptom"]).doubt)
    check, now = case.checks[0], start(table)
    spent = check_minutes(table, now, table.checks[0])
    now = seen(table, now, 0, machine["shown"][check.id])
    guessed = 0
    bench_of.locator(f'button[data-id="{check.id}"]').click()
    expect(bench_of.locator(f'button[data-id="{check.id}"]')).to_have_count(0)
    wrong = {h.remedy.id: h.remedy for h in case.hypotheses if h.remedy.id != fault.remedy.id}
    for remedy in [*wrong.values(), fault.remedy]:
        number = remedy_number(table, remedy.id)
        spent += remedy_minutes(table, now, table.remedies[number])
        guess = table.remedies[number].needs_proof and not now.proved >> number & 1
        button = bench_of.locator(f'[data-does="remedy"] button[data-id="{remedy.id}"]')
        assert ("sign not seen yet" in button.inner_text()) == guess
        now, guessed = not_cured(table, now, number), guessed + guess
        button.click()
    expect(bench_of).to_contain_text("It was:")
    assert guessed and page.get_by_text("Dear work was done").count() == 1
    (score,) = page.evaluate("handwheel.device.read('practice.scores', [])")
    assert score["spent"] == pytest.approx(spent, abs=1e-9)
    assert score["planned"] == pytest.approx(machine["planned"], abs=1e-9)
    _the_end_tells_the_cause(page, bench, machine)


def _the_end_tells_the_cause(page: Page, bench: Bench, machine: dict) -> None:
    titles = [bench.library.records.failure_modes[m].title for m in machine["fault"].split("+")]
    assert sorted(page.locator(".hw-practice-path mark").all_text_contents()) == sorted(titles)
    expect(page.locator("#practice-bench li", has_text="True cause:")).to_have_count(1)
    link = page.locator(f'#practice-bench a[href="bench/{FAMILY}/{machine["symptom"]}.html"]')
    expect(link).to_have_count(1)


def test_the_score_sheet_is_text_and_can_be_forgotten(page):
    row = {"family": "<i>x</i>", "number": 3, "symptom": "s", "fault": "f", "spent": 4, "planned": 3}
    page.evaluate("(row) => handwheel.device.write('practice.scores', [row])", row)
    page.reload()
    expect(page.locator("#practice-scores tbody td").first).to_have_text("<i>x</i>")
    page.get_by_role("button", name="Forget the sheet").click()
    expect(page.locator("#practice-scores table")).to_have_count(0)
    assert page.evaluate("handwheel.device.names()") == []


def test_a_typed_number_stands_in_the_address_and_a_foreign_address_does_no_harm(page):
    page.locator("#practice-number").fill("42")
    page.locator("#practice-number").press("Enter")
    expect(page.locator("#practice-bench")).to_contain_text("machine number 42")
    assert page.url.endswith(f"#{FAMILY}/42")
    page.evaluate("location.hash = '#<b>/x'")
    page.evaluate("location.hash = '#%E0%A4%A'")
    expect(page.locator("#practice-bench")).to_contain_text("machine number 42")


_CARDS = {
    "parts": [["Hook", "It takes the loop.", "Hook drive"]],
    "signs": [["Late", "a"], ["Late", "b"], ["Blunt", "c"]],
    "modes": {"a": "A", "b": "B", "c": "C", "d": "D", "e": "E", "f": "F"},
    "settings": [["Needle bar height", "Hook timing", "Hook drive"]],
}


def test_cards_hold_the_right_answer_once_and_no_other_that_is_right(page):
    decks = page.evaluate(
        "(data) => [1, 2, 3].flatMap((n) => ['parts', 'signs', 'settings'].flatMap((k) => handwheel.practiceCards.deck(data, k, n)))",
        _CARDS,
    )
    for card in decks:
        assert len(set(card["choices"])) == len(card["choices"])
        assert card["choices"].count(card["answer"]) == (1 if card["choices"] else 0)
        if "Late" in card["ask"]:
            assert len(card["choices"]) == 4
            assert not {"A", "B"} - {card["answer"]} & set(card["choices"])
    assert {"Needle bar height"} == {c["answer"] for c in decks if "setting" in c["ask"]}


def test_a_card_is_answered_by_keyboard(page):
    page.locator("#practice-kind").select_option("signs")
    cards = page.locator("#practice-cards")
    answer = page.evaluate("() => { let d; handwheel.whenGiven('cards', (c) => (d = c)); return handwheel.practiceCards.deck(d, 'signs', 1)[0].answer; }")
    cards.get_by_role("button", name=answer, exact=True).focus()
    page.keyboard.press("Enter")
    expect(cards.get_by_role("status")).to_have_text(f"Right: {answer}.")
    cards.get_by_role("button", name="Next card").focus()
    page.keyboard.press("Enter")
    expect(cards.locator("h3")).to_be_focused()


def _ends(way: list) -> list[str]:
    title, below = way
    return [end for branch in below for end in _ends(branch)] if below else [title]


def test_a_way_through_the_tree_ends_in_the_causes_and_in_nothing_else(published):
    """A hypothesis is a minimal cut set: what makes the top true is all of it (IEC 61025's terms)."""
    told = dict(practice_page.cards_files(published))
    joint = 0
    for view in published.library.views:
        text = told[f"assets/handwheel/data/practice-{view.id}.js"]
        ways = given(text)["symptoms"]
        for symptom in view.symptoms:
            for cause in published.complaint(view, symptom).case.hypotheses:
                titles = [view.failure_modes[m].title for m in cause.causes]
                assert sorted(_ends(ways[symptom][cause.id])) == sorted(titles)
                joint += len(titles) > 1
    assert joint


def test_no_setting_card_is_contradicted_by_another(published):
    text = dict(practice_page.cards_files(published))["assets/handwheel/data/cards.js"]
    data = given(text)
    print({kind: len(cards) for kind, cards in data.items()})
    pairs = {(first, second, home) for first, second, home in data["settings"]}
    assert pairs
    assert not {(second, first, home) for first, second, home in pairs} & pairs
    assert all(first != second for first, second, _ in pairs)
