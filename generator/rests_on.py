"""What every page of a site rests on beside its records: the code, the schema, the libraries, and how the site is set up."""

from __future__ import annotations

import hashlib
import importlib.metadata
import json
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from generator.carried import carried

_HERE = Path(__file__).parent
_NOT_SHOWN = ("site_dir", "docs_dir", "config_file_path")
OURS = "handwheel"


def rests_on(config: MkDocsConfig, folders: Sequence[Path]) -> str:
    """A print of it all; another one means that every page is made anew."""
    said = (sys.version, *_libraries(), _settings(config), *map(str, folders))
    digest = hashlib.sha256()
    for part in (*(text.encode() for text in said), Path(config.config_file_path).read_bytes(), *_files()):
        digest.update(hashlib.sha256(part).digest())
    return digest.hexdigest()


def is_plain(config: MkDocsConfig) -> bool:
    """Whether pages are made by this package alone: no other plugin, no hook and no template of the shop's own has a hand in them."""
    return list(config.plugins) == [OURS] and not config.hooks and not config.theme.custom_dir


def _files() -> Iterator[bytes]:
    for folder in (_HERE, carried("schema")):
        for path in sorted(p for p in folder.rglob("*") if p.is_file() and "__pycache__" not in p.parts):
            yield path.relative_to(folder).as_posix().encode()
            yield path.read_bytes()


def _libraries() -> list[str]:
    return sorted(f"{found.name} {found.version}" for found in importlib.metadata.distributions())


def _settings(config: MkDocsConfig) -> str:
    """Every setting that has a plain value."""
    return json.dumps({key: config[key] for key in config if key not in _NOT_SHOWN}, default=lambda value: type(value).__name__)
