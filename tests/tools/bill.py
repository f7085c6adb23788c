"""The bill of materials of what is installed to build a book, as CycloneDX JSON on standard output.

    python -m tests.tools.bill > handwheel.cdx.json

Each component with its version, its licence as its own metadata states it, and the address by which registries know
it (package URL). By the published specification, CycloneDX 1.6; nothing in it changes from one run to the next.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from typing import Any

from packaging.requirements import Requirement

from generator.pages.records.shipped import SHIPPED

OURS = "handwheel"


def bill() -> dict[str, Any]:
    """The whole bill: us, what we need, and what a built site carries."""
    parts = {name(d): d for d in needed(OURS)}
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {"component": component(distribution(OURS), "application")},
        "components": [*(component(parts[n], "library") for n in sorted(parts)), *carried()],
        "dependencies": [{"ref": ref(d), "dependsOn": sorted(ref(n) for n in direct(d))} for d in (distribution(OURS), *(parts[n] for n in sorted(parts)))],
    }


def needed(package: str) -> Iterator[Distribution]:
    """Everything that a package needs here, at any depth, each once."""
    found, open_ = {package: distribution(package)}, [package]
    while open_:
        for other in direct(found[open_.pop()]):
            if name(other) not in found:
                found[name(other)] = other
                open_.append(name(other))
                yield other


def direct(of: Distribution) -> list[Distribution]:
    """What a package itself needs on this system, as far as it is installed."""
    found = []
    for wanted in map(Requirement, of.requires or ()):
        if wanted.marker is None or wanted.marker.evaluate({"extra": ""}):
            try:
                found.append(distribution(wanted.name))
            except PackageNotFoundError:
                print(f"{wanted.name} is not installed.", file=sys.stderr)
    return found


def component(of: Distribution, kind: str) -> dict[str, Any]:
    """One package."""
    said = licence(of)
    known = {"licenses": [said]} if said else {}
    return {"type": kind, "bom-ref": ref(of), "name": name(of), "version": of.version, "purl": ref(of), **known}


def carried() -> Iterator[dict[str, Any]]:
    """What others made and a built site holds: their licences are on the site's page of sources."""
    for piece in SHIPPED[1:]:
        key = re.sub(r"[^a-z0-9]+", "-", piece.name.lower())
        yield {"type": "library", "bom-ref": f"site/{key}", "name": piece.name, "licenses": [{"license": {"id": piece.licence}}]}


def name(of: Distribution) -> str:
    """Normalised, as registries compare names."""
    return re.sub(r"[-_.]+", "-", of.metadata["Name"]).lower()


def ref(of: Distribution) -> str:
    """The package URL."""
    return f"pkg:pypi/{name(of)}@{of.version}"


def licence(of: Distribution) -> dict[str, Any] | None:
    """An SPDX expression where the metadata has one, else its words."""
    meta = of.metadata
    if expression := meta.get("License-Expression"):
        return {"expression": expression}
    classes = [c.rpartition(" :: ")[2] for c in meta.get_all("Classifier") or () if c.startswith("License ::")]
    words = next(iter(classes), None) or (meta.get("License") or "").partition("\n")[0].strip()
    return {"license": {"name": words}} if words else None


if __name__ == "__main__":
    json.dump(bill(), sys.stdout, indent=2, ensure_ascii=False)
    print()
