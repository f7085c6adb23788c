"""Rules that need more than records, such as what the standards say of them. The door that loads with all rules.

A module put here is found by itself.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from generator.records.finding import Finding
from generator.records.load import load
from generator.records.model import Records
from generator.records.rules import RULES
from generator.records.rules.registry import rules_in
from generator.records.sound_files import SoundFiles

EXTRA_RULES = rules_in(sys.modules[__name__])
"Every rule of this floor."

ALL_RULES = tuple(sorted((*RULES, *EXTRA_RULES), key=lambda rule: rule.name))
"Every rule that `check` holds the content to, by name."


def load_checked(folders: Sequence[Path], known: SoundFiles | None = None) -> tuple[Records, tuple[Finding, ...]]:
    """All good records, and everything that is wrong by any rule. `known` are files that were sound before."""
    return load(folders, EXTRA_RULES, known=known)
