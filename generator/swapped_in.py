"""A folder made beside its place and swapped in whole: until then, what stood there stands."""

from __future__ import annotations

import ctypes
import os
import secrets
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # a system without such locks: what a killed build left there stays until it is taken away by hand
    fcntl = None  # type: ignore[assignment]

_EXCHANGE, _HERE = 2, -100
"RENAME_EXCHANGE and AT_FDCWD of Linux, renameat2(2)."

_ASIDE = ".old.part"
"The end of a name under which what was published stands for a moment, where two folders cannot be exchanged."


_TRIES = 10
"New folders begun before the system is taken for one without locks."


class NewFolder:
    """A folder that is being made to take the place of another."""

    def __init__(self, place: Path) -> None:
        """Take away what builds that were killed have left, and begin. Raises OSError where nothing can be put beside."""
        self.place = Path(os.path.realpath(place))
        self.place.parent.mkdir(parents=True, exist_ok=True)
        with _alone(self.place.parent):
            aside = next(self.place.parent.glob(f".{self.place.name}.*{_ASIDE}"), None)
            if aside and not self.place.exists():
                aside.rename(self.place)
        for left in _left_over(self.place):
            shutil.rmtree(left, ignore_errors=True)
        self.folder, self._lock = _begun(self.place)

    def swap_in(self) -> None:
        """Put the folder in its place, with the hidden files that stood there: they are their owner's, as for MkDocs.

        One build at a time: else a second would read the hidden files of a folder that the first is taking away.
        """
        with _alone(self.place.parent):
            if self.place.is_dir():
                _carry_hidden(self.place, self.folder)
                shutil.copymode(self.place, self.folder)
                _exchange(self.folder, self.place)
            else:
                self.folder.rename(self.place)
        self.drop()

    def drop(self) -> None:
        """Take away what is beside the place: the folder given up, or the one that it has replaced."""
        shutil.rmtree(self.folder, ignore_errors=True)
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None


def can_be_swapped(place: Path) -> bool:
    """Whether another folder can take the place of this one: not where a disk is mounted, or beside which nothing can be put."""
    real = Path(os.path.realpath(place))
    return not os.path.ismount(real) and not (real.parent.exists() and not os.access(real.parent, os.W_OK))


def _begun(place: Path) -> tuple[Path, int | None]:
    """A new folder beside the place, and its lock; without one only where the system has none.

    Another build that looks for what is left over may come between the making and the locking, and take the folder for such: then another.
    """
    for _ in range(_TRIES):
        folder = _beside(place)
        lock = _locked(folder)
        if lock is not None and folder.is_dir():
            return folder, lock
        if lock is not None:
            os.close(lock)
        shutil.rmtree(folder, ignore_errors=True)
    return _beside(place), None


def _beside(place: Path) -> Path:
    folder = place.with_name(f".{place.name}.{secrets.token_hex(4)}.part")
    folder.mkdir()
    return folder


def _left_over(place: Path) -> Iterator[Path]:
    """Folders of builds of the same place that no process makes any more."""
    for folder in place.parent.glob(f".{place.name}.*.part"):
        if fcntl and folder.is_dir() and not folder.is_symlink():
            lock = _locked(folder)
            if lock is not None:
                yield folder
                os.close(lock)


@contextmanager
def _alone(parent: Path) -> Iterator[None]:
    """Nobody else exchanges what stands in this folder meanwhile, where the system has such locks."""
    held = os.open(parent, os.O_RDONLY) if fcntl else None
    try:
        if held is not None:
            with suppress(OSError):
                fcntl.flock(held, fcntl.LOCK_EX)
        yield
    finally:
        if held is not None:
            os.close(held)


def _locked(folder: Path) -> int | None:
    """The folder locked until the process ends, or None where another holds it or the system has no such locks."""
    if not fcntl:
        return None
    with suppress(OSError):
        held = os.open(folder, os.O_RDONLY)
        try:
            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            os.close(held)
            return None
        return held
    return None


def _carry_hidden(old: Path, new: Path) -> None:
    for entry in old.iterdir():
        if not entry.name.startswith(".") or os.path.lexists(new / entry.name):
            continue
        if entry.is_dir() and not entry.is_symlink():
            shutil.copytree(entry, new / entry.name, symlinks=True)
        else:
            shutil.copy2(entry, new / entry.name, follow_symlinks=False)


def _exchange(one: Path, other: Path) -> None:
    """Two folders in one another's place: in one step where the system can, else in two renames close together."""
    with suppress(AttributeError, OSError):
        if ctypes.CDLL(None).renameat2(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0:
            return
    aside = other.with_name(one.name + _ASIDE)
    other.rename(aside)
    one.rename(other)
    aside.rename(one)
