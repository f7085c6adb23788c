"""`share`: the built site as one file that opens from disk."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

import click

from generator.commands import common
from generator.made_from import LEAVE_OUT, NAME, made_from, private_in

_CONFIG = "mkdocs.yml"
_EPOCH = (1980, 1, 1, 0, 0, 0)
"The same site gives the same file, whenever it is packed."
_READABLE = 0o100644 << 16
"A plain file that everyone may read once it is unpacked on a shop's network."
_PACKED = 9
"As small as every system can unpack by itself."
_UNIX = 3
"What the readers' bits above are of, whichever system packs."


@click.command()
@click.argument("out", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--site", type=click.Path(path_type=Path), default=Path("site"), show_default=True, help="Where the built site is.")
def share(out: Path, site: Path) -> None:
    """Pack the built site into OUT, a zip file that opens from disk when unpacked."""
    if out.suffix.lower() != ".zip":
        common.refuse(f"'{out}' does not end in .zip. Name the file something.zip.")
    if not (site / "index.html").is_file():
        common.refuse(f"There is no built site in {site}. Build it first with `make site`.")
    said = made_from(site)
    if said is None:
        common.refuse(f"{site} does not say from which folders it was made. Build it again with `make site`.")
    private = private_in(said, Path())
    if not private:
        _write(out, site)
        return
    click.echo(f"Left out, marked private: {', '.join(private)}. The site is built again without.")
    with tempfile.TemporaryDirectory() as folder:
        _write(out, _built_without(Path(folder, "site")))


def _built_without(site: Path) -> Path:
    """A site of the folders that are not private. Refuses where it cannot be built, or would hold one of them."""
    if not Path(_CONFIG).is_file():
        common.refuse(f"There is no {_CONFIG} here to build it from. Run `share` in the folder that holds it. Nothing was packed.")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", str(site)]
    done = subprocess.run(command, env={**os.environ, LEAVE_OUT: "1"}, capture_output=True, text=True, check=False)
    if done.returncode:
        common.refuse(f"Without its private folders the site cannot be built. Nothing was packed.\n{done.stdout}{done.stderr}".rstrip())
    left = private_in(made_from(site) or (), Path())
    if left:
        common.refuse(f"{', '.join(left)} is marked private and is the first folder: nothing would be left. Nothing was packed.")
    return site


def _write(out: Path, site: Path) -> None:
    """One file of everything in the site but what is about this computer alone."""
    spared = {out.resolve(), (site / NAME).resolve()}
    files = sorted(path for path in site.rglob("*") if path.is_file() and path.resolve() not in spared)
    part = out.with_suffix(".part")
    try:
        _pack(files, site, part)
        part.replace(out)
    except OSError as error:
        part.unlink(missing_ok=True)
        common.refuse(f"{out} cannot be written: {error.strerror}.")
    click.echo(f"{out}: {len(files)} files, {out.stat().st_size / 1e6:.1f} MB.")


def _pack(files: list[Path], site: Path, part: Path) -> None:
    with zipfile.ZipFile(part, "w") as packed, click.progressbar(files, label="Packing", width=24) as paths:
        for path in paths:
            packed.writestr(_entry(path.relative_to(site).as_posix()), path.read_bytes(), compresslevel=_PACKED)


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(f"handwheel/{name}", _EPOCH)
    entry.compress_type = zipfile.ZIP_DEFLATED
    entry.external_attr, entry.create_system = _READABLE, _UNIX
    return entry
