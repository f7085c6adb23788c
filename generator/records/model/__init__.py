"""Records as frozen data, field for field as the schema has them."""

from generator.records.model.bench import (
    Fastener,
    Flat,
    Shop,
    Tally,
    Technique,
    TechniqueStep,
    price_band,
)
from generator.records.model.faults import (
    Check,
    FailureMode,
    LooksLike,
    Outcome,
    RemedySpec,
    Symptom,
    TreeEvent,
    TreeGate,
    TreeNode,
    TreeTransfer,
)
from generator.records.model.lists import Caution, Feature, FigureKind, Source, Term, Tool
from generator.records.model.machines import (
    AssemblyUse,
    Family,
    Figure,
    Move,
    NeedleFit,
    Part,
)
from generator.records.model.records import Records
from generator.records.model.settings import Assembly, OilPoint, Setting, Target

__all__ = [
    "Assembly",
    "AssemblyUse",
    "Caution",
    "Check",
    "FailureMode",
    "Family",
    "Fastener",
    "Feature",
    "Figure",
    "FigureKind",
    "Flat",
    "LooksLike",
    "Move",
    "NeedleFit",
    "OilPoint",
    "Outcome",
    "Part",
    "Records",
    "RemedySpec",
    "Setting",
    "Shop",
    "Source",
    "Symptom",
    "Tally",
    "Target",
    "Technique",
    "TechniqueStep",
    "Term",
    "Tool",
    "TreeEvent",
    "TreeGate",
    "TreeNode",
    "TreeTransfer",
    "price_band",
]
