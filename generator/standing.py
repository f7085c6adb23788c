"""Pages, and files of data, taken over from the site that stands, where nothing that they were made of has changed.

What a page is made of: the values that were read for it (`watched`), by their prints, and what every page rests on, by one
print. The finished page is taken from the site's folder, and only if it is there as it was written.
"""

from __future__ import annotations

import base64
import hashlib
import os
import shutil
from array import array
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from generator.kept import Kept
from generator.pages.page import PageText
from generator.pages.piece import Files
from generator.prints import Prints
from generator.watched import Token, Watch

Stood = tuple[int, int]
"A file as it was found: its size, and when it was written. Its number does not tell: on some disks it is another each time."
MOST = 3
"Sites remembered: with a shop's records and without, and with one family alone."
_BETWEEN = "\t"


class StandingChanged(Exception):
    """The site that stands is not the one that this build began with."""


@dataclass(frozen=True, slots=True)
class Remembered:
    """One page of a site that was built."""

    address: str
    title: str
    search: str
    frame: str
    "What its frame shows of its own."
    sha256: str
    "Of the finished page."
    reads: str
    "Numbers of the values that were read for it, as base 64 of 32-bit words."


@dataclass(frozen=True, slots=True)
class Memory:
    """A site that was built: what its pages were made of."""

    values: tuple[str, ...] = ()
    "Space and key."
    prints: tuple[str, ...] = ()
    "Of each value, as it then was."
    made_of: tuple[str, ...] = ()
    "Numbers of the values that each was worked out from, where that is known: `Remembered.reads` says how."
    pages: tuple[Remembered, ...] = ()


@dataclass(frozen=True, slots=True)
class DataFile:
    """A file of data, as it becomes one of the site."""

    address: str
    content: str
    title: str = ""
    search: str = ""


@dataclass(frozen=True, slots=True)
class Made:
    """A page that was made, and what was read for it."""

    page: PageText | DataFile
    reads: tuple[Token, ...] | None
    "None for a page that is made every time."


@dataclass(slots=True)
class Standing:
    """The site that stands, and what is known of it."""

    folder: Path
    "Where it stands."
    cache: Path
    rests_on: str
    "Print of all that every page rests on: code, schema, what every page shows, and how the frame is made."
    frame_of: Callable[[str], str] = lambda address: ""
    "What the frame of the page at an address shows that no other page's does."
    taken: dict[str, Remembered] = field(default_factory=dict)
    "Pages that are taken over, by address."
    _found: dict[str, Stood] = field(default_factory=dict)
    _made: list[Made] = field(default_factory=list)
    _known: dict[str, Remembered] = field(default_factory=dict)
    _number: dict[Token, int] = field(default_factory=dict)
    _changed: set[int] = field(default_factory=set)
    _memory: Memory = field(default_factory=Memory)
    _prints: Prints = field(default_factory=Prints)
    _printed: dict[Token, str] = field(default_factory=dict)

    def begin(self, watch: Watch, shared: object) -> None:
        """Finds out what has changed; every page rests on what is shared."""
        self.rests_on += self._prints.of(shared)
        self._memory = memory = self._store().read(self._name()) or Memory()
        self._number = {_token(value): n for n, value in enumerate(memory.values)}
        same: dict[int, bool] = {}
        self._changed = {n for n in range(len(memory.values)) if not self._is_as_it_was(n, same, watch)}
        self._known = {page.address: page for page in memory.pages}

    def _is_as_it_was(self, n: int, same: dict[int, bool], watch: Watch) -> bool:
        """Whether a value is the same as before: that of which all is the same that it was worked out from, and that of the same print."""
        if n not in same:
            made_of = _numbers(self._memory.made_of[n])
            spared = bool(made_of) and all(same[m] if m in same else self._is_as_it_was(m, same, watch) for m in made_of)
            same[n] = spared or self._print(_token(self._memory.values[n]), watch) == self._memory.prints[n]
        return same[n]

    def as_before(self, token: Token) -> bool:
        """Whether a value is known, and the same as it was for the site that stands."""
        number = self._number.get(token)
        return number is not None and number not in self._changed

    def take(self, *together: str) -> bool:
        """Whether the pages at these addresses can be taken over, all of them; then they are."""
        found = [self._known[address] for address in together if address in self._known]
        if len(found) < len(together) or not all(map(self._stands, found)):
            return False
        self.taken.update((page.address, page) for page in found)
        return True

    def _stands(self, page: Remembered) -> bool:
        if not self._changed.isdisjoint(_numbers(page.reads)) or page.frame != self.frame_of(page.address):
            return False
        try:
            with (self.folder / page.address).open("rb") as file:
                self._found[page.address] = _as_found(os.fstat(file.fileno()))
                return hashlib.sha256(file.read()).hexdigest() == page.sha256
        except OSError:
            return False

    def lay(self, address: str, place: Path) -> None:
        """Put a page that is taken over into the new site, as it stands. Raises StandingChanged where it has changed since it was found.

        It is the same file under a second name, where the system has such: nothing of it is read or written.
        """
        place.parent.mkdir(parents=True, exist_ok=True)
        try:
            same = _laid(self.folder / address, place) == self._found[address]
        except FileNotFoundError:
            same = False
        if not same:
            raise StandingChanged(f"{address} was changed while the site was built. Build it again.")

    def made(self, pages: Sequence[Made]) -> None:
        """Pages that this build has made."""
        self._made += pages

    def remember(self, new: Path, watch: Watch) -> None:
        """Writes down what the pages of a new site were made of; it stands whole in its folder, which is about to take this one's place.

        A value that is known already keeps its number, so what is known of a page that was taken over is left as it is.
        """
        numbers = dict(self._number)
        pages = list(self.taken.values())
        for made in self._made:
            if made.reads is not None:
                pages.append(self._remembered(made.page, _numbered(made.reads, numbers), new))
        prints: list[str] = []
        made_of: list[str] = []
        for number, token in enumerate(_growing(numbers)):
            known = number < len(self._memory.values) and number not in self._changed
            prints.append(self._memory.prints[number] if known else self._print(token, watch))
            if known and token not in watch.made_of:
                made_of.append(self._memory.made_of[number])
            else:
                made_of.append(_numbered(sorted(watch.made_of.get(token, ())), numbers))
        self._store().write(self._name(), Memory(tuple(map(_BETWEEN.join, numbers)), tuple(prints), tuple(made_of), tuple(pages)))
        self._store().prune()

    def _print(self, token: Token, watch: Watch) -> str:
        if token not in self._printed:
            self._printed[token] = self._prints.of(watch.value(token))
        return self._printed[token]

    def _remembered(self, page: PageText | DataFile, reads: str, new: Path) -> Remembered:
        return Remembered(page.address, page.title, page.search, self.frame_of(page.address), _sha256(new / page.address), reads)

    def _store(self) -> Kept[Memory]:
        return Kept(self.cache, "pages", Memory, MOST)

    def _name(self) -> str:
        return hashlib.sha256(self.rests_on.encode()).hexdigest()[:40]


def with_reads(pages: Iterable[PageText], watch: Watch, noted: Collection[str]) -> list[Made]:
    """Pages with what was read for them; `noted` are those of which it is kept."""
    return [Made(page, tuple(sorted(watch.reads[page.address])) if page.address in noted else None) for page in pages]


def files_with_reads(files: Files, watch: Watch) -> list[Made]:
    """Files of data with what was read for them."""
    with watch.reading(first := next(iter(files.addresses), "")):
        made = [DataFile(address, content) for address, content in files.make()]
    reads = tuple(sorted(watch.reads[first])) if first else None
    return [Made(file, reads) for file in made]


def _token(value: str) -> Token:
    space, _, key = value.partition(_BETWEEN)
    return space, key


def _numbers(reads: str) -> array[int]:
    return array("I", base64.b64decode(reads))


def _numbered(tokens: Iterable[Token], numbers: dict[Token, int]) -> str:
    """Values by their numbers; one that has none yet is given the next."""
    found = array("I", [numbers.setdefault(token, len(numbers)) for token in tokens])
    return base64.b64encode(found.tobytes()).decode()


def _growing(numbers: dict[Token, int]) -> Iterator[Token]:
    """Every value that has a number, those too that are given one meanwhile."""
    done = 0
    while done < len(numbers):
        more = list(numbers)[done:]
        done += len(more)
        yield from more


def _as_found(stat: os.stat_result) -> Stood:
    return stat.st_size, stat.st_mtime_ns


def _laid(old: Path, new: Path) -> Stood:
    """What now stands under both names. Raises FileNotFoundError where nothing did."""
    try:
        os.link(old, new)
    except FileNotFoundError:
        raise
    except OSError:  # a system, or a disk, on which no file has two names
        shutil.copyfile(old, new)
        return _as_found(old.stat())
    return _as_found(new.stat())


def _sha256(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""
