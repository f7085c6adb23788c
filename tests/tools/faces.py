"""The type families that the site's own is cut from and measured against, from the public package registry."""

from __future__ import annotations

import shutil
import subprocess
import tarfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path


class NotFetched(Exception):
    """A package could not be had; the message says why."""


@dataclass(frozen=True, slots=True)
class Face:
    """A family's two weights, as files of a package."""

    package: str
    regular: str
    bold: str


OURS = Face(
    "@expo-google-fonts/encode-sans-semi-condensed@0.2.3",
    "EncodeSansSemiCondensed_400Regular.ttf",
    "EncodeSansSemiCondensed_700Bold.ttf",
)
LICENCE = ("@fontsource/encode-sans-semi-condensed@5", "LICENSE")


@dataclass(frozen=True, slots=True)
class StandIn:
    """A face that readers' machines have, under every name by which it or one of its widths goes."""

    name: str
    measured: Face
    regular: Sequence[str]
    bold: Sequence[str]


STAND_INS = (
    StandIn(
        "Stand-in A",
        Face("@expo-google-fonts/arimo@0.4.3", "400Regular/Arimo_400Regular.ttf", "700Bold/Arimo_700Bold.ttf"),
        ("Arial", "ArialMT", "Liberation Sans", "Arimo", "Arimo Regular", "Helvetica", "Nimbus Sans", "Nimbus Sans Regular"),
        ("Arial Bold", "Arial-BoldMT", "Liberation Sans Bold", "Arimo Bold", "Helvetica Bold", "Helvetica-Bold", "Nimbus Sans Bold"),
    ),
    StandIn(
        "Stand-in B",
        Face("@expo-google-fonts/roboto@0.4.3", "400Regular/Roboto_400Regular.ttf", "700Bold/Roboto_700Bold.ttf"),
        ("Roboto", "Roboto Regular", "Roboto-Regular"),
        ("Roboto Bold", "Roboto-Bold"),
    ),
    StandIn(
        "Stand-in C",
        Face("@expo-google-fonts/open-sans@0.4.2", "400Regular/OpenSans_400Regular.ttf", "700Bold/OpenSans_700Bold.ttf"),
        ("Noto Sans", "Noto Sans Regular", "NotoSans-Regular", "Open Sans", "Open Sans Regular", "OpenSans-Regular"),
        ("Noto Sans Bold", "NotoSans-Bold", "Open Sans Bold", "OpenSans-Bold"),
    ),
    StandIn(
        "Stand-in D",
        Face("dejavu-fonts-ttf@2.37.3", "ttf/DejaVuSans.ttf", "ttf/DejaVuSans-Bold.ttf"),
        ("DejaVu Sans", "DejaVuSans", "Bitstream Vera Sans", "BitstreamVeraSans-Roman", "Verdana"),
        ("DejaVu Sans Bold", "DejaVuSans-Bold", "Bitstream Vera Sans Bold", "BitstreamVeraSans-Bold", "Verdana Bold", "Verdana-Bold"),
    ),
)


def unpacked(package: str, folder: Path) -> Path:
    """The package's folder below `folder`, fetched with npm. Raises NotFetched."""
    home = folder / package.replace("/", "-")
    if not home.is_dir():
        npm = shutil.which("npm")
        if npm is None:
            raise NotFetched("npm is not on the PATH: install Node.js.")
        done = subprocess.run([npm, "pack", "--silent", package], cwd=folder, capture_output=True, text=True, check=False)
        if done.returncode:
            raise NotFetched(f"{package}: {done.stderr.strip() or 'not to be had'}")
        with tarfile.open(folder / done.stdout.split()[-1]) as archive:
            archive.extractall(home, filter="data")
    return home / "package"


def files(face: Face, folder: Path) -> tuple[Path, Path]:
    """The regular and the bold file. Raises NotFetched."""
    home = unpacked(face.package, folder)
    return home / face.regular, home / face.bold
