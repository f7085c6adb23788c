"""Addresses that are gone lead to what stands for them now."""

from __future__ import annotations

from dataclasses import replace

from generator.pages.moved import moved_files
from tests.building import bench, two_families


def test_a_former_id_and_a_sheet_under_another_name_lead_on():
    records = two_families()
    full = replace(records.families["full"], was=("whole",))
    skips = replace(records.symptoms["skips"], was=("misses",))
    asked = bench(replace(records, families={**records.families, "full": full}, symptoms={**records.symptoms, "skips": skips}))
    there = {"bench/full/skips.html": "Skips <here>", "jobs/full/needle-bent.html": "Renew the needle", "symptoms/skips.html": "Skips"}
    gone = ("bench/whole/misses.html", "bench/full/misses.html", "jobs/whole/needle-worn.html", "symptoms/lost.html", "index.html", "bench/full/skips.html")
    moved = dict(moved_files(asked, gone, there))
    assert set(moved) == {"bench/whole/misses.html", "bench/full/misses.html", "jobs/whole/needle-worn.html"}
    assert 'content="0; url=../full/skips.html"' in moved["bench/whole/misses.html"]
    assert '<a href="skips.html">Skips &lt;here&gt;</a>' in moved["bench/full/misses.html"]
    assert '<a href="../full/needle-bent.html">Renew the needle</a>' in moved["jobs/whole/needle-worn.html"]
