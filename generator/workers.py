"""Pieces of work shared out among processes, their results in the order of the pieces."""

from __future__ import annotations

import gc
import multiprocessing
import os
import sys
import threading
from collections.abc import Callable, Iterable, Sequence
from operator import itemgetter
from typing import Any, TypeVar

T = TypeVar("T")

_held: list[Callable[[], Iterable[Any]]] = []
"The pieces, in the processes that work for this one: each holds a whole book, which is in their memory and not sent."
_TURNS = 2
"Bundles that each core makes at the least, so that none waits long for another at the end."
_RARELY = (20_000, 20, 20)
"""How often the collector of cycles looks in a process that makes pages: they leave few cycles, and it takes a tenth of the
time when it looks as often as it does by itself."""


def all_made(pieces: Sequence[Callable[[], Iterable[T]]], kin: Sequence[str] = ()) -> list[list[T]]:
    """What each piece makes, made on every core where processes can share what was read, else one after another.

    A piece must not rest on what another leaves behind. What one raises is raised here.
    `kin` names for each piece those with which it shares what it works out: they are made in one process, if there are
    enough of them for every core. The nameless have none.

    >>> [sum(made) for made in all_made([lambda: range(3), lambda: range(4)])]
    [3, 6]
    """
    if not _can_share():
        return [list(piece()) for piece in pieces]
    from concurrent.futures import ProcessPoolExecutor  # slow to load, and commands need none

    share, cores = multiprocessing.get_context("fork"), os.cpu_count() or 1
    bundles = _bundles(kin or [""] * len(pieces), cores)
    with ProcessPoolExecutor(cores, share, initializer=_begin, initargs=(pieces,)) as workers:
        made = [list(zip(bundle, results, strict=True)) for bundle, results in zip(bundles, workers.map(_made, bundles), strict=True)]
    return [results for _, results in sorted((pair for bundle in made for pair in bundle), key=itemgetter(0))]


def _bundles(kin: Sequence[str], cores: int) -> list[list[int]]:
    """The numbers of pieces that are made together; where there are too few kinds of them to keep all cores at work, each alone.

    >>> _bundles(["", "b", "a", "b"], 1), _bundles(["", "b", "a", "b"], 2)
    ([[1, 3], [2], [0]], [[0], [1], [2], [3]])
    """
    alone = [[number] for number, name in enumerate(kin) if not name]
    together: dict[str, list[int]] = {}
    for number, name in enumerate(kin):
        if name:
            together.setdefault(name, []).append(number)
    if len(together) < _TURNS * cores:
        return [[number] for number in range(len(kin))]
    return [*together.values(), *alone]  # the large ones first: the small ones fill the time until all cores are done


def _begin(pieces: Sequence[Callable[[], Iterable[Any]]]) -> None:
    gc.freeze()  # what was read is looked at no more, and stays in the memory that processes share
    gc.set_threshold(*_RARELY)
    _held.extend(pieces)
    threading.Thread(target=_end_with_the_parent, daemon=True).start()


def _end_with_the_parent() -> None:
    """A process whose parent was killed would wait for work for ever."""
    parent = multiprocessing.parent_process()
    if parent:
        parent.join()
        os._exit(1)


def _made(numbers: Sequence[int]) -> list[list[Any]]:
    return [list(_held[number]()) for number in numbers]


def _can_share() -> bool:
    """Whether a copy of this process can be made safely: not beside other threads, and not where the system's own are."""
    alone = threading.active_count() == 1 and sys.platform.startswith("linux")
    return alone and (os.cpu_count() or 1) > 1
