"""Which values a piece of work has read, so that it need not be done again until one of them has changed.

A value has a name of two parts: the space that it stands in, such as `records.checks`, and its key there. What a piece
of work reads of a watched space is noted for it; what it makes is then a function of those values and of the code.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import cached_property
from typing import Any, Generic, Protocol, TypeVar

T = TypeVar("T")
K = TypeVar("K")

Token = tuple[str, str]
"Space and key of a value."
IDS, ALL = "*", "**"
"Keys of what is read of a space as a whole: which keys it has, in order; and everything in it. No id is written so."
_NONE: tuple[()] = ()
"What stands where nothing does."


class Space(Protocol):
    """Values by key."""

    def value(self, key: str) -> object:
        """The value, or what says that there is none; nothing is noted. It decides whether work is done again."""


class Watch:
    """What is read of a library's values, by the piece of work that reads it."""

    def __init__(self) -> None:
        self.reads: dict[str, set[Token]] = {}
        "Piece of work -> what it has read."
        self.made_of: dict[Token, frozenset[Token]] = {}
        "Value that was worked out -> what it was worked out from, of those whose makers say so."
        self._spaces: dict[str, Space] = {}
        self._fill: list[Callable[[], object]] = []
        self._open: list[set[Token] | None] = []

    def add(self, name: str, space: Space) -> None:
        """A space that values are read from."""
        self._spaces[name] = space

    def fills(self, make: Callable[[], object]) -> None:
        """What makes spaces that nobody may have read from yet: a value is what it is, asked for or not."""
        self._fill.append(make)

    def value(self, token: Token) -> object:
        """The value of that name as it is now."""
        self._open.append(None)  # as `unwatched`, in half the time: this is asked of every value there is
        try:
            while token[0] not in self._spaces and self._fill:
                self._fill.pop()()
            space = self._spaces.get(token[0])
            return _NONE if space is None else space.value(token[1])
        finally:
            self._open.pop()

    def note(self, space: str, key: str) -> None:
        """Something reads a value."""
        if self._open and self._open[-1] is not None:
            self._open[-1].add((space, key))

    @contextmanager
    def reading(self, work: str) -> Iterator[None]:
        """What is read meanwhile is read for this piece of work."""
        yield from self._with(self.reads.setdefault(work, set()), None)

    @contextmanager
    def unwatched(self) -> Iterator[None]:
        """What is read meanwhile makes a value that is watched itself."""
        yield from self._with(None, None)

    @contextmanager
    def working_out(self) -> Iterator[set[Token]]:
        """What is read meanwhile, for a value that is watched itself: its readers read it, and not this."""
        found: set[Token] = set()
        yield from self._with(found, found)

    @contextmanager
    def gathering(self) -> Iterator[set[Token]]:
        """What is read meanwhile, for whoever reads the value that comes of it later; it counts as read by the work at hand too."""
        found: set[Token] = set()
        self._open.append(found)
        try:
            yield found
        finally:
            self._open.pop()
            self.note_all(found)

    def note_all(self, tokens: set[Token]) -> None:
        """Something reads all these."""
        if self._open and self._open[-1] is not None:
            self._open[-1].update(tokens)

    def _with(self, reads: set[Token] | None, told: T) -> Iterator[T]:
        self._open.append(reads)
        try:
            yield told
        finally:
            self._open.pop()


class Watched(Mapping[str, T]):
    """A mapping whose readers are noted, key by key."""

    __slots__ = ("_items", "_name", "_watch")

    def __init__(self, watch: Watch, name: str, items: Mapping[str, T]) -> None:
        self._watch, self._name, self._items = watch, name, items
        watch.add(name, self)

    def value(self, key: str) -> object:
        """See `Space`."""
        if key == IDS:
            return tuple(self._items)
        return self._items if key == ALL else self._items.get(key, _NONE)

    def __getitem__(self, key: str) -> T:
        self._watch.note(self._name, key)
        return self._items[key]

    def __contains__(self, key: object) -> bool:
        self._watch.note(self._name, str(key))
        return key in self._items

    def get(self, key: str, default: Any = None) -> Any:
        """The value or the default; either is noted."""
        self._watch.note(self._name, key)
        return self._items.get(key, default)

    def __iter__(self) -> Iterator[str]:
        self._watch.note(self._name, IDS)
        return iter(self._items)

    def __len__(self) -> int:
        self._watch.note(self._name, IDS)
        return len(self._items)

    def values(self) -> Any:
        """Everything in it."""
        self._watch.note(self._name, ALL)
        return self._items.values()

    def items(self) -> Any:
        """Everything in it."""
        self._watch.note(self._name, ALL)
        return self._items.items()

    def __repr__(self) -> str:
        return f"Watched({self._name}, {self._items!r})"


class Known(Generic[T]):
    """Values worked out once each, whose readers are noted."""

    def __init__(
        self,
        watch: Watch,
        name: str,
        work_out: Callable[[str], T],
        told_by: Callable[[str], object] | None = None,
        dear: bool = False,
    ) -> None:
        """`told_by` gives for a key what the value is a function of, where that is had for less than the value.

        A value that is `dear` is taken to be as it was, without working it out, while all is that it was worked out from.
        """
        self.name = name
        self._watch, self._work_out, self._told_by, self._dear = watch, work_out, told_by, dear
        self._known: dict[str, T] = {}
        self._made_of: dict[str, set[Token]] = {}
        watch.add(name, self)

    def __call__(self, key: str) -> T:
        """The value. What `work_out` raises is raised."""
        self._watch.note(self.name, key)
        if key not in self._known:
            with self._watch.working_out() as read:
                self._known[key] = self._work_out(key)
            self._made_of[key] = read
        return self._known[key]

    def put(self, key: str, value: T) -> None:
        """A value that was worked out elsewhere."""
        self._known[key] = value

    def value(self, key: str) -> object:
        """See `Space`; of a key that nothing can be worked out for any more, nothing."""
        itself = self.name, key
        try:
            with self._watch.working_out() as read:
                told = self._told_by(key) if self._told_by else self(key)
        except KeyError:
            return _NONE
        if self._dear:
            self._watch.made_of[itself] = frozenset((read | self._made_of.get(key, set())) - {itself})
        return told


class Traced(Generic[K, T]):
    """Values worked out once each; who reads one has read all that it was worked out from."""

    def __init__(self, watch: Watch) -> None:
        self._watch = watch
        self._known: dict[K, tuple[T, set[Token]]] = {}

    def __call__(self, key: K, work_out: Callable[[], T]) -> T:
        """The value of a key, worked out if it is not known. What `work_out` raises is raised."""
        if key not in self._known:
            with self._watch.gathering() as read:
                value = work_out()
            self._known[key] = value, read
        value, read = self._known[key]
        self._watch.note_all(read)
        return value


class HasWatch(Protocol):
    """Something whose values are watched."""

    watch: Watch


def watched(work_out: Callable[[Any], Mapping[str, T]]) -> cached_property[Mapping[str, T]]:
    """A property worked out once: a mapping whose readers are noted, under the name of its class and its own.

    >>> class Book:
    ...     watch = Watch()
    ...     @watched
    ...     def homes(self):
    ...         return {"hook": ("rotary",)}
    >>> book = Book()
    >>> with book.watch.reading("a page"):
    ...     book.homes["hook"]
    ('rotary',)
    >>> book.watch.reads
    {'a page': {('Book.homes', 'hook')}}
    """
    name = work_out.__qualname__.split("<locals>.")[-1]

    def wrapped(self: HasWatch) -> Mapping[str, T]:
        with self.watch.unwatched():
            return Watched(self.watch, name, work_out(self))

    wrapped.__doc__ = work_out.__doc__
    return _WatchedProperty(wrapped)


class _WatchedProperty(cached_property[Mapping[str, T]]):
    """One that `fill` knows again."""


def fill(owner: HasWatch) -> None:
    """Works out every watched property of an object."""
    for kind in type(owner).__mro__:
        for name, held in vars(kind).items():
            if isinstance(held, _WatchedProperty):
                getattr(owner, name)
