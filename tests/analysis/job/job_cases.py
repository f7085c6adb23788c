"""Machines to plan on: three as the bench knows them, and any number of random ones."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import networkx as nx

from generator.analysis.job.types import Handling, Practice, SettingHandling
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Proof, Remedy

BACK, FACE = "on-its-back", "on-its-face"
POSITIONS = ("upright", BACK, FACE)
AS_IT_LIES = ""
TOOLS = ("driver", "hex-key", "spanner")


def handled(off: str = "upright", *tools: str, **more: object) -> Handling:
    """Handling that is the same both ways."""
    return Handling(off, off, tools, tools, **more)


def zigzag_domestic() -> tuple[Machine, Practice]:
    """A zigzag flatbed with a geared rotary hook; relations are common practice, minutes invented."""
    parts = [
        MachinePart("needle", (), 0.5, 0.5),
        MachinePart("presser-foot", (), 0.5, 0.5),
        MachinePart("needle-plate", ("presser-foot",), 1, 1.5),
        MachinePart("underside-cover", (), 2, 2),
        MachinePart("hook-gear", ("needle", "underside-cover"), 6, 6, ("hook-timing",)),
        MachinePart("lower-shaft-gear", ("underside-cover",), 5, 7, ("hook-timing", "feed-timing")),
        MachinePart("feed-dog", ("needle-plate",), 2, 2, ("feed-height",)),
        MachinePart("hook", ("needle", "needle-plate"), 4, 5, ("hook-timing", "hook-gap")),
        MachinePart("face-cover", (), 1, 1),
        MachinePart("needle-bar", ("needle", "face-cover"), 8, 9, ("needle-bar-height",)),
        MachinePart("belt-cover", (), 1, 1),
        MachinePart("motor", ("belt-cover",), 9, 9, ("belt-tension",)),
        MachinePart("tension-unit", ("face-cover",), 4, 4, ("upper-tension",)),
    ]
    settings = [
        MachineSetting("needle-centring", 6),
        MachineSetting("needle-bar-height", 8, ("needle-centring",), ("hook-timing",), ("face-cover",)),
        MachineSetting("hook-timing", 20, ("needle-bar-height",), ("hook-gap",), ("underside-cover",)),
        MachineSetting("hook-gap", 6, ("hook-timing",), (), ("needle-plate",)),
        MachineSetting("feed-height", 4),
        MachineSetting("feed-timing", 10, ("hook-timing", "feed-height"), (), ("underside-cover",)),
        MachineSetting("belt-tension", 3, reach=("belt-cover",)),
        MachineSetting("upper-tension", 5, ("hook-gap", "feed-timing")),
    ]
    practice = Practice(
        {
            "needle": handled("upright", "driver", joints=("needle-clamp-screw",), wears=True),
            "presser-foot": handled(joints=("foot-screw",)),
            "needle-plate": handled("upright", "driver", joints=("needle-plate-screws",)),
            "underside-cover": handled(BACK, "driver", joints=("underside-cover-screw",), oil=("hook-race",)),
            "hook-gear": handled(
                BACK, "hex-key", joints=("hook-gear-screws",), loose=("hook-shaft-shim",), wears=True,
                price=(Fraction(9), Fraction(18)), oil=("hook-race",),
            ),
            "lower-shaft-gear": handled(BACK, "hex-key", joints=("lower-gear-screws",), wears=True),
            "feed-dog": handled("upright", "driver", wears=True, joints=("feed-dog-screws",)),
            "hook": handled("upright", "driver", joints=("hook-screws",)),
            "face-cover": handled("upright", "driver", joints=("face-cover-screw",)),
            "needle-bar": handled("upright", "driver", joints=("needle-bar-screw",), oil=("needle-bar",)),
        },
        {
            "hook-timing": SettingHandling(BACK, ("hex-key",), "watch-hook-pass-needle"),
            "needle-bar-height": SettingHandling("upright", ("driver",), "watch-hook-pass-needle"),
            "feed-timing": SettingHandling(BACK, ("hex-key",), "sew-longest-stitch"),
        },
    )  # fmt: skip
    return machine_of(parts, settings), practice


def overlock() -> tuple[Machine, Practice]:
    """A three-thread overlock: needle, lower looper, upper looper, knives, tension; common practice."""
    parts = [
        MachinePart("needle", (), 0.5, 0.5),
        MachinePart("front-cover", (), 1, 1),
        MachinePart("side-cover", (), 2, 2),
        MachinePart("lower-looper", ("front-cover", "needle"), 3, 4, ("lower-looper-timing",)),
        MachinePart("upper-looper", ("front-cover", "side-cover", "needle"), 4, 5, ("upper-looper-crossing",)),
        MachinePart("lower-knife", ("front-cover",), 2, 3, ("knives",)),
    ]
    settings = [
        MachineSetting("needle-height", 8, disturbs=("lower-looper-timing",)),
        MachineSetting("lower-looper-timing", 15, ("needle-height",), ("upper-looper-crossing",), ("front-cover",)),
        MachineSetting("upper-looper-crossing", 12, ("lower-looper-timing",), (), ("side-cover",)),
        MachineSetting("knives", 5, ("upper-looper-crossing",), (), ("front-cover",)),
        MachineSetting("balance-tension", 5, ("knives",)),
    ]
    practice = Practice({p.id: handled("upright", "hex-key", wears="looper" in p.id) for p in parts})
    return machine_of(parts, settings), practice


def industrial_head() -> tuple[Machine, Practice]:
    """A needle-feed industrial head, tilted back on its hinges; common practice."""
    parts = [
        MachinePart("needle", (), 0.5, 0.5),
        MachinePart("oil-tray", (), 3, 3),
        MachinePart("timing-belt-cover", (), 2, 2),
        MachinePart("timing-belt", ("timing-belt-cover", "oil-tray"), 15, 20, ("hook-timing", "feed-timing")),
        MachinePart("hook", ("needle", "oil-tray"), 4, 5, ("hook-timing", "hook-gap")),
        MachinePart("feed-eccentric", ("oil-tray",), 7, 8, ("feed-timing",)),
    ]
    settings = [
        MachineSetting("needle-bar-height", 8, (), ("hook-timing",)),
        MachineSetting("hook-timing", 12, ("needle-bar-height",), ("hook-gap",), ("oil-tray",)),
        MachineSetting("hook-gap", 6, ("hook-timing",), ("needle-guard",), ("oil-tray",)),
        MachineSetting("needle-guard", 3, ("hook-gap",), (), ("oil-tray",)),
        MachineSetting("feed-timing", 9, ("hook-timing",), (), ("timing-belt-cover",)),
    ]
    practice = Practice({p.id: handled(BACK if p.behind else "upright", "driver") for p in parts})
    return machine_of(parts, settings), practice


def machine_of(parts: list[MachinePart], settings: list[MachineSetting]) -> Machine:
    return Machine({p.id: p for p in parts}, {s.id: s for s in settings})


def random_case(number: int, parts: int = 14) -> tuple[Machine, Practice, list[Remedy]]:
    """A machine without rounds, how it is handled, and one to three remedies."""
    rng = random.Random(number)
    ids = [f"p{n:02}" for n in range(rng.randint(1, parts))]
    rng.shuffle(ids)
    rank = [f"s{n}" for n in range(rng.randint(0, 8))]
    rng.shuffle(rank)

    def some(of: list[str], most: int) -> tuple[str, ...]:
        return tuple(rng.sample(of, min(len(of), rng.randint(0, most))))

    def minutes() -> float:
        return rng.randint(0, 40) / 4

    machine = machine_of(
        [MachinePart(p, some(ids[:n], 3), minutes(), minutes(), some(rank, 2)) for n, p in enumerate(ids)],
        [
            MachineSetting(s, minutes(), some(rank[:n], 2), some(rank[n + 1 :], 2), some(ids, 1))
            for n, s in enumerate(rank)
        ],
    )
    return machine, _practice(rng, some, machine), _remedies(rng, some, machine, minutes)


def random_case_in_place(number: int, parts: int = 8) -> tuple[Machine, Practice, list[Remedy]]:
    """The same with parts that settings and checks need on, and checks that need parts off."""
    machine, practice, remedies = random_case(number, parts)
    rng = random.Random(-number - 1)
    ids = sorted(machine.parts)

    def some(most: int) -> tuple[str, ...]:
        return tuple(rng.sample(ids, min(len(ids), rng.randint(0, most))))

    settings = {s: replace(setting, on=some(1)) for s, setting in sorted(machine.settings.items())}
    proofs = {c: Proof(c, some(1), some(1)) for c in ("check-a", "check-b")}
    lies = {"check-a": rng.choice(POSITIONS)}
    return Machine(machine.parts, settings, proofs), replace(practice, proofs=lies), remedies


def _practice(rng: random.Random, some, machine: Machine) -> Practice:
    def lies() -> str:
        return rng.choice((*POSITIONS, AS_IT_LIES))

    return Practice(
        {
            p: Handling(
                lies(), lies(), some(list(TOOLS), 2), some(list(TOOLS), 2),
                some(["joint-a", "joint-b", f"{p}-joint"], 2), some([f"{p}-shim"], 1),
                rng.random() < 0.4, None, some(["oil-a", "oil-b"], 1),
            )
            for p in machine.parts
        },
        {
            s: SettingHandling(lies(), some(list(TOOLS), 1), rng.choice(["", "check-a", "check-b"]))
            for s in machine.settings
        },
    )  # fmt: skip


def _remedies(rng: random.Random, some, machine: Machine, minutes) -> list[Remedy]:
    parts, settings = list(machine.parts), list(machine.settings)
    return [
        Remedy(f"r{n}", some(parts, 2), some(settings, 1), some(parts, 1), rng.choice([0.0, minutes()]))
        for n in range(rng.randint(1, 3))
    ]


def behind_graph(machine: Machine, parts: object = None) -> nx.DiGraph:
    """Edges from what stands in front to what is behind it."""
    graph = nx.DiGraph()
    graph.add_nodes_from(machine.parts)
    graph.add_edges_from((b, p.id) for p in machine.parts.values() for b in p.behind)
    return graph if parts is None else graph.subgraph(parts)


def settings_graph(machine: Machine, made: set[str]) -> nx.DiGraph:
    """Edges from each setting to what is made after it; only settings made disturb."""
    graph = nx.DiGraph()
    graph.add_nodes_from(machine.settings)
    graph.add_edges_from((a, s.id) for s in machine.settings.values() for a in s.after)
    graph.add_edges_from((s, d) for s in made for d in machine.settings[s].disturbs)
    return graph


def needed_off(machine: Machine, setting: str) -> set[str]:
    """The reach of a setting and all in front, by networkx."""
    graph = behind_graph(machine)
    reach = machine.settings[setting].reach
    return set(reach).union(*(nx.ancestors(graph, p) for p in reach))
