"""`python -m tests.edits N [FAMILY...]`: N edits of the book by chance; after each, the site taken over against the site made anew.

Pages without their frame are compared. With families named, the book has those alone. Ends with 1 where a page differs.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import replace
from pathlib import Path
from random import Random

from generator import workers
from generator.content_rules import load_checked
from tests.edits import anew, taken_over
from tests.edits.by_chance import edited

ROOT = Path(__file__).parents[2]
SEED = 200


def main(edits: int, families: list[str]) -> int:
    """How many edits left a page that is not the one made anew."""
    workers._can_share = lambda: False  # the other processors are for whoever works beside
    folders, wrong, tried, taken_in_all, made_in_all = [ROOT / "content"], 0, 0, 0, 0
    first = load_checked(folders)[0]
    if families:
        kept = {id: family for id, family in first.families.items() if id in families}
        first = replace(first, families=kept, tallies={id: t for id, t in first.tallies.items() if t.family in kept})
    chance, records = Random(SEED), first
    with tempfile.TemporaryDirectory() as folder:
        place, cache = Path(folder, "site"), Path(folder, "cache")
        taken_over(records, folders, place, cache)
        while tried < edits:
            new, what = edited(records, chance)
            try:
                expected = anew(new, folders, cache)
            except Exception as error:
                print(f"passed over: {what}: {type(error).__name__}")
                records = first
                continue
            tried += 1
            pages, taken = taken_over(new, folders, place, cache)
            other = [address for address in expected if pages.get(address) != expected[address]]
            wrong += pages.keys() != expected.keys() or bool(other)
            taken_in_all, made_in_all = taken_in_all + taken, made_in_all + len(pages) - taken
            print(f"{tried:4}  {taken} of {len(pages)} taken over  {what}  {other[:3]}", flush=True)
            records = first if chance.random() < 0.5 else new
    print(f"{edits} edits, {wrong} with a page that differs; {taken_in_all / (taken_in_all + made_in_all):.0%} of the pages were taken over.")
    return wrong


if __name__ == "__main__":
    raise SystemExit(bool(main(int(sys.argv[1]), sys.argv[2:])))
