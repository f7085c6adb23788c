"""Pieces of work shared out among processes, their results in the order of the pieces."""

from __future__ import annotations

import multiprocessing
import os
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any, TypeVar

T = TypeVar("T")

_held: list[Callable[[], Iterable[Any]]] = []
"The pieces, in the processes that work for this one: each holds a whole book, which is in their memory and not sent."


def all_made(pieces: Sequence[Callable[[], Iterable[T]]]) -> Iterator[list[T]]:
    """What each piece makes, made on every core where processes can share what was read, else one after another.

    A piece must not rest on what another leaves behind. What one raises is raised here.

    >>> [sum(made) for made in all_made([lambda: range(3), lambda: range(4)])]
    [3, 6]
    """
    if not _can_share():
        yield from (list(piece()) for piece in pieces)
        return
    from concurrent.futures import ProcessPoolExecutor  # slow to load, and commands need none

    share = multiprocessing.get_context("fork")
    with ProcessPoolExecutor(os.cpu_count(), share, initializer=_begin, initargs=(pieces,)) as workers:
        yield from workers.map(_made, range(len(pieces)))


def _begin(pieces: Sequence[Callable[[], Iterable[Any]]]) -> None:
    _held.extend(pieces)
    threading.Thread(target=_end_with_the_parent, daemon=True).start()


def _end_with_the_parent() -> None:
    """A process whose parent was killed would wait for work for ever."""
    parent = multiprocessing.parent_process()
    if parent:
        parent.join()
        os._exit(1)


def _made(number: int) -> list[Any]:
    return list(_held[number]())


def _can_share() -> bool:
    """Whether a copy of this process can be made safely: not beside other threads, and not where the system's own are."""
    alone = threading.active_count() == 1 and sys.platform.startswith("linux")
    return alone and (os.cpu_count() or 1) > 1
