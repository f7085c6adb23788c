"""Photographs and drawings, as records name them and as files."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph or a drawing as a record shows it."""

    file: str
    "Name of the file in the folder `pictures`."
    alt: str
    "What it shows, in words."
    credit: str
    "Who made it."
    licence: str
    "Under which it may be passed on."


@dataclass(frozen=True, slots=True)
class PictureFile:
    """The file of a picture."""

    path: str
    "Where it lies."
    width: int = 0
    "Pixels, as it is looked at; 0 where there is a fault."
    height: int = 0
    "Pixels, like the width."
    fault: str = ""
    "What is wrong with it, as a clause that follows its name; empty for nothing."
    mend: str = ""
    "What to do about it, as a sentence."
