"""Pages that are made together, and which of them are asked for."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass

from generator.pages.page import PageText


@dataclass(frozen=True, slots=True)
class Piece:
    """Pages that are made together."""

    make: Callable[[Collection[str]], Iterable[PageText]]
    "The pages with these addresses. What each page rests on is read under its address, and nothing else."
    addresses: tuple[str, ...] = ()
    "All its pages; none for a piece that is small and is made every time."
    family: str = ""
    "The id of the one that it is all about, if there is one: what is worked out for that serves its other pieces too."

    def pages(self) -> Iterable[PageText]:
        """All its pages."""
        return self.make(self.addresses)


@dataclass(frozen=True, slots=True)
class Files:
    """Files of data that are made together, and rest on the same."""

    make: Callable[[], Iterable[tuple[str, str]]]
    "Address and content of each."
    addresses: tuple[str, ...] = ()
    "Of all of them; none for those that are made every time."
    family: str = ""
    "As of a `Piece`."


def every_time(make: Callable[[], Iterable[PageText]]) -> Piece:
    """A piece whose pages rest on much and take little."""
    return Piece(lambda _: make())
