"""The service worker: written last, over everything that a build has put into the site's folder."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

_TEMPLATE = Path(__file__).parent / "assets" / "service-worker.js"
NAME = "sw.js"
_NOT_KEPT = {NAME, "sitemap.xml", "sitemap.xml.gz", "404.html"}
"Not needed without a signal: for search engines, lost visitors, and the copy of the index for pages opened from disk."
_FOR_PROGRAMS = "open/"
"Files for other programs: no page needs them at a machine."


def write_service_worker(site: Path, known: Mapping[str, str]) -> None:
    """Puts the worker into the site's root, with every file's fingerprint; `known` are the SHA-256 of some, by address.

    Pages and scripts that any visit needs come first: they are kept before the first visit ends.
    """
    files = {p.relative_to(site).as_posix(): p for p in sorted(site.rglob("*")) if p.is_file()}
    at_machine = [address for address in files if not address.startswith(_FOR_PROGRAMS)]
    kept = [address for address in at_machine if address not in _NOT_KEPT and not address.endswith(".map")]
    first = [a for a in kept if "/" not in a or (a.startswith("assets/") and "/data/" not in a and "/lunr/" not in a)]
    order = [*first, *(a for a in kept if a not in set(first))]
    prints = {address: (known.get(address) or _sha256(files[address]))[:16] for address in order}
    version = hashlib.sha256(json.dumps(prints).encode()).hexdigest()[:16]
    text = _TEMPLATE.read_text(encoding="utf-8")
    filled = {"__VERSION__": version, "__FILES__": json.dumps(prints, indent=0), "__FIRST__": str(len(first))}
    for mark, value in filled.items():
        text = text.replace(mark, value)
    (site / NAME).write_text(text, encoding="utf-8")


def _sha256(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()
