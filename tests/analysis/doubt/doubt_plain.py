"""What may come next, the next step and the outlook, each by its formula and nothing else: no set in bits, nothing kept, nothing cut off."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor, fsum
from random import Random

from generator.analysis.doubt.grow import STOP, Move
from generator.analysis.doubt.standing import Standing, must_check, not_cured, seen, start
from generator.analysis.doubt.table import Table

WAITING = 0.15
NEVER = float("inf")


def checks(table: Table, now: Standing) -> list[int]:
    """Checks that may come next."""
    every = [n for n in range(len(table.checks)) if not now.checked >> n & 1]
    first = [table.doubt.case.checks[n].id for n in every]
    for before in table.doubt.before:
        if before in first:
            return [every[first.index(before)]]
    free = [n for n in every if all(now.checked >> a & 1 for a in range(len(table.checks)) if table.checks[n].after >> a & 1)]
    return [n for n in free if now.unsafe() is None or not table.checks[n].powered]


def remedies(table: Table, now: Standing) -> list[int]:
    """Remedies that may come next."""
    if must_check(table, now):
        return []
    found = [n for n in mended(table, now) if not table.remedies[n].needs_proof or now.proved >> n & 1]
    return [n for n in found if all(now.checked >> a & 1 for a in range(len(table.checks)) if table.remedies[n].after >> a & 1)]


def mended(table: Table, now: Standing) -> list[int]:
    """Remedies that are not done and that no fault keeps from being done."""
    mends = now.unsafe()
    return [n for n in range(len(table.remedies)) if not now.tried >> n & 1 and (mends is None or mends >> n & 1)]


def steps(table: Table, now: Standing) -> list[tuple[Move, float, float]]:
    """Steps with their minutes and scores, in their order."""
    found = [(STOP, table.doubt.stop_minutes, table.doubt.cures * (table.doubt.stop_minutes + table.doubt.come_back_minutes), "")]
    for kind, numbers, rows in (("remedy", remedies(table, now), table.remedies), ("check", checks(table, now), table.checks)):
        for n in numbers:
            minutes = rows[n].minutes + table.opening(rows[n].parts & ~now.open_parts)
            causes = rows[n].causes if kind == "remedy" else [c for c in rows[n].tells if not now.tried >> table.remedy_of[c] & 1]
            chance = fsum(now.weights[c] for c in causes) / now.share
            if chance:
                found.append((Move(kind, n), minutes, minutes / chance, rows[n].id))
    rank = {"remedy": 0, "check": 1, "stop": 2}
    found.sort(key=lambda s: (floor(s[2] * 1e6 + 0.5), floor(s[1] * 1e6 + 0.5), rank[s[0].kind], s[3]))
    return [step[:3] for step in found]


def outlook(table: Table, now: Standing) -> float:
    """Minutes (times share) still to come."""
    doubt, rest = table.doubt, now.share
    listed, total, chances = rest - now.weights[table.unlisted], 0.0, []
    for n in mended(table, now):
        remedy = table.remedies[n]
        minutes = remedy.minutes + table.opening(remedy.parts & ~now.open_parts)
        if remedy.needs_proof and not now.proved >> n & 1:
            left = [table.checks[c] for c in remedy.proofs if not now.checked >> c & 1]
            minutes += min((c.minutes + table.opening(c.parts & ~now.open_parts) for c in left), default=NEVER)
        chance = fsum(now.weights[c] for c in remedy.causes)
        chances += [(minutes / chance, chance, minutes)] if chance else []
    for _, chance, minutes in sorted(chances):
        takes = minutes * (chance + WAITING * (rest - chance))
        if takes < doubt.cures * (doubt.stop_minutes + doubt.come_back_minutes) * chance:
            total, rest, listed = total + takes, rest - doubt.cures * chance, listed - doubt.cures * chance
    return total + rest * doubt.stop_minutes + listed * doubt.come_back_minutes


def places(table: Table, draw: Random) -> Iterator[Standing]:
    """Where a job comes that does whatever may be done, by chance, until it can do nothing more or is rare."""
    now = start(table)
    while now.share > 1e-6:
        yield now
        moves = [("check", n) for n in checks(table, now)] + [("remedy", n) for n in remedies(table, now)]
        if not moves:
            return
        kind, number = draw.choice(moves)
        now = not_cured(table, now, number) if kind == "remedy" else seen(table, now, number, draw.choice(table.checks[number].outcomes))
