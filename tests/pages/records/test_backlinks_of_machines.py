"""A page of a mechanism says what is so on machines that have it, and nothing of other machines."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from generator.pages.maker import Maker
from generator.pages.records import assemblies as assembly_pages
from generator.pages.records import faults as fault_pages
from generator.pages.records.check_uses import check_uses


@pytest.fixture(scope="module")
def maker(published) -> Maker:
    return Maker(published)


@pytest.fixture(scope="module")
def part_of(maker) -> Callable[[str, str], str]:
    """What the page of an assembly says of one of its parts."""
    pages = {page.address: page.html for page in assembly_pages.piece(maker).pages()}

    def said(assembly: str, part: str) -> str:
        return re.search(rf'<section class="hw-part" id="{part}">.*?</section>', pages[f"assemblies/{assembly}.html"], re.S)[0]

    return said


def test_a_rotary_hook_has_no_driver_of_an_oscillating_one_nor_its_faults(part_of):
    hook = part_of("rotary-hook-geared", "hook")
    assert "Hook shaft and bush" in hook and "Hook point blunt" in hook
    for other in ("Hook driver", "Shuttle", "Oscillating hook"):
        assert other not in hook


def test_a_shuttle_is_called_a_shuttle_and_drives_no_hook_gear(part_of):
    shuttle = part_of("vibrating-shuttle", "hook")
    assert "Shuttle carrier" in shuttle and "Shuttle put in wrongly" in shuttle
    assert "Rotary hook" not in part_of("vibrating-shuttle", "bobbin")
    assert "gear" not in shuttle


def test_of_two_parts_of_one_mechanism_only_one_is_in_front(maker):
    backlinks = maker.backlinks
    for assembly, record in maker.records.assemblies.items():
        fronts = {part: backlinks.in_front_of[assembly].get(part, ()) for part in record.parts}
        both = [(a, b) for a, behind in fronts.items() for b in behind if a in fronts.get(b, ())]
        assert not both, assembly


def test_a_fault_of_one_kind_of_hook_sits_on_no_other(maker):
    page = next(p for p in fault_pages.pieces(maker)[0].pages() if p.address == "failure-modes/hook-in-wrongly.html")
    seats = re.search(r"Sits on:.*?</p>", page.html, re.S)[0]
    assert "oscillating-hook" in seats
    assert "rotary" not in seats and "shuttle" not in seats


def test_a_check_is_used_for_what_it_tells_apart_and_best_where_it_splits_evenly(maker):
    uses = check_uses(maker.bench)
    found = [apart for check in maker.records.checks for families in uses(check).values() for apart in families.values()]
    assert found and all(0 < apart < 1 for apart in found)
    page = next(p for p in fault_pages.pieces(maker)[1].pages() if p.address == "checks/sew-hands-off.html")
    open_list = page.html.split('id="used"')[1].split("<details>")[0]
    assert 0 < open_list.count("<li>") <= 9
