"""The way out as a least path: what is on, what is off and how the machine lies, at every step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from heapq import heappop, heappush

BUDGET = 20_000
"States looked at before the search gives up. Every job of the content takes fewer than a thousand."


@dataclass(frozen=True, slots=True)
class PathPart:
    """A part by bits: `bit` its own among the parts."""

    bit: int
    on_position: str
    "Empty, like the next: as the machine lies."
    off_position: str
    front: int
    "Parts in front: off before it moves either way."
    inside: int
    "Parts behind it: on before it goes on."
    cost: int
    "Off and on once more, in ten-thousandths of a minute; never nothing."
    upsets: int
    "Settings, by job bit, that taking it off upsets."
    read_against: bool
    "Whether settings are read against it: it is no cover."


@dataclass(frozen=True, slots=True)
class PathJob:
    """A setting, a check or the proving sew by bits: `bit` its own among the jobs."""

    bit: int
    first: int
    "Jobs done before it."
    off: int
    "Parts off for it, with all in front."
    on: int
    "Parts on for it, with all behind them."
    position: str
    "Empty: as the machine lies."
    is_setting: bool
    names_none: bool = True
    "Whether it names no parts that it is made with: then all is on that settings are read against."


@dataclass(frozen=True, slots=True)
class State:
    """How the machine stands between two steps, and how it came to stand so."""

    done: int
    off: int
    lies: str
    extra: int = 0
    "Minutes of parts that come off and go on once more than once, in ten-thousandths."
    turns: int = 0
    order: tuple[int, ...] = ()
    "Task numbers: a part refitted is its place, a job follows the parts, a part taken off follows the jobs."

    @property
    def cost(self) -> tuple[int, int, tuple[int, ...]]:
        """What is kept least: minutes, then turns, then the order preferred."""
        return self.extra, self.turns, self.order


@dataclass(frozen=True, slots=True)
class Bench:
    """Parts in the order they are preferred to go on, jobs in the order they are preferred; the sew last."""

    parts: tuple[PathPart, ...]
    jobs: tuple[PathJob, ...]

    def needed_off(self, done: int) -> int:
        """Parts that a job still to come needs off."""
        return _union(job.off for job in self.jobs if not job.bit & done)

    def refitted(self, state: State, n: int) -> State:
        """The state with a part on; what is still needed off costs its minutes once more."""
        part = self.parts[n]
        again = part.cost if part.bit & self.needed_off(state.done) else 0
        return replace(state, off=state.off & ~part.bit, extra=state.extra + again, order=(*state.order, n))

    def taken_off(self, state: State, n: int) -> State:
        """The state with a part off."""
        number = len(self.parts) + len(self.jobs) + n
        return replace(state, off=state.off | self.parts[n].bit, order=(*state.order, number))

    def carried_out(self, state: State, n: int) -> State:
        """The state with a job done."""
        number = len(self.parts) + n
        return replace(state, done=state.done | self.jobs[n].bit, order=(*state.order, number))


def least_path(bench: Bench, start: State) -> State | None:
    """The end of a least path from `start` to all jobs done; None if there is none within `BUDGET`.

    Least in the minutes of what comes off again, then in turns of the machine; ties by the order
    preferred. Dijkstra's algorithm. The minutes counted are those over what every path costs (each
    part off and on once), which is A* with that sum as its bound: a refit of what is still needed
    off is the only step that costs more. No such minutes: that is proved the fewest. What costs
    nothing is done at once (`_run`): a check, a refit of what no job needs off any more, a setting
    that nothing can upset again. That keeps the states few and the sheet in the trade's order. Among
    small random machines, against every way there is, it costs a turn in one of thirty and minutes
    in one of five hundred, and in one of a hundred it finds no way where there is one.
    """
    return _least(bench, start, ahead=False) or _least(bench, start, ahead=True)


def _least(bench: Bench, start: State, ahead: bool) -> State | None:
    """`ahead`: parts move for jobs, too, that still wait for another."""
    heap = [_entry(_run(bench, start))]
    met: set[tuple[int, int, str]] = set()
    while heap and len(met) < BUDGET:
        state = heappop(heap)[1]
        here = state.done, state.off, state.lies
        if here in met:
            continue
        met.add(here)
        if state.done == _union(job.bit for job in bench.jobs):
            return state
        for then in _further(bench, state, ahead):
            if (then.done, then.off, then.lies) not in met:
                heappush(heap, _entry(then))
    return None


def _entry(state: State) -> tuple[tuple[int, int, tuple[int, ...], int, int, str], State]:
    """Told apart to the last, so that no two states are ever compared themselves."""
    return (*state.cost, state.done, state.off, state.lies), state


def _run(bench: Bench, state: State) -> State:
    """All that costs nothing as the machine lies, the preferred first."""
    while (then := _at_no_cost(bench, state)) is not None:
        state = then
    return state


def _at_no_cost(bench: Bench, state: State) -> State | None:
    needed = bench.needed_off(state.done)
    jobs = [n for n, job in enumerate(bench.jobs) if _ready(bench, job, state, needed)]
    for n in jobs:
        if not bench.jobs[n].is_setting:
            return bench.carried_out(state, n)
    for n, part in enumerate(bench.parts):
        if part.bit & state.off & ~needed and part.on_position in ("", state.lies) and not part.inside & state.off:
            return bench.refitted(state, n)
    safe = (n for n in jobs if not _at_risk(bench, bench.jobs[n], state, needed))
    return next((bench.carried_out(state, n) for n in safe), None)


def _at_risk(bench: Bench, job: PathJob, state: State, needed: int) -> bool:
    """Whether a part that upsets a setting may still go on and come off again: it may be better made later."""
    wanted = _union(other.on for other in bench.jobs if not other.bit & state.done)
    return any(part.bit & needed & wanted and part.upsets & job.bit for part in bench.parts)


def _ready(bench: Bench, job: PathJob, state: State, needed: int) -> bool:
    stands = not (job.bit & state.done or job.first & ~state.done or job.off & ~state.off or job.on & state.off)
    if not stands or job.position not in ("", state.lies):
        return False
    return not job.is_setting or _settles(bench, job, state, needed)


def _settles(bench: Bench, job: PathJob, state: State, needed: int) -> bool:
    """Whether all is on that a setting is read against, and nothing that is yet to come off upsets it."""
    idle, coming = state.off & ~needed, needed & ~state.off
    return not any(
        (part.bit & (idle | coming) and part.upsets & job.bit) or (part.bit & idle and part.read_against and job.names_none)
        for part in bench.parts
    )


def _further(bench: Bench, state: State, ahead: bool) -> Iterator[State]:
    """States one hop on: a turn, or what one job needs on and off as far as it can be done as the machine lies."""
    waiting = [j for j in bench.jobs if not j.bit & state.done and (ahead or not j.first & ~state.done)]
    for lies in sorted(_positions(bench) | {state.lies}):
        turned = replace(state, lies=lies, turns=state.turns + (lies != state.lies))
        for job in (None, *waiting):
            brought = turned if job is None else _brought(bench, job, turned)
            then = _run(bench, brought)
            if then.order != state.order:
                yield then
            yield from _made_at_risk(bench, then)


def _made_at_risk(bench: Bench, state: State) -> Iterator[State]:
    needed = bench.needed_off(state.done)
    for n, job in enumerate(bench.jobs):
        if job.is_setting and _ready(bench, job, state, needed):
            yield _run(bench, bench.carried_out(state, n))


def _positions(bench: Bench) -> set[str]:
    found = {p for part in bench.parts for p in (part.on_position, part.off_position)}
    return (found | {job.position for job in bench.jobs}) - {""}


def _brought(bench: Bench, job: PathJob, state: State) -> State:
    """Parts put on and taken off for a job, those that move as the machine lies."""
    while (then := _moved(bench, job, state)) is not None:
        state = then
    return state


def _moved(bench: Bench, job: PathJob, state: State) -> State | None:
    for n, part in enumerate(bench.parts):
        if part.bit & job.on & state.off and part.on_position in ("", state.lies) and not part.inside & state.off:
            return bench.refitted(state, n)
    for n in reversed(range(len(bench.parts))):
        part = bench.parts[n]
        blocked = part.front & ~state.off or part.upsets & state.done
        if part.bit & job.off & ~state.off and part.off_position in ("", state.lies) and not blocked:
            return bench.taken_off(state, n)
    return None


def _union(bits: Iterator[int]) -> int:
    found = 0
    for some in bits:
        found |= some
    return found
