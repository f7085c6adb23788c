"""Finding symptoms by everyday words: the language of the finder, and the index that pages search."""

from generator.analysis.finder.index import Field, Index, Phrase, build
from generator.analysis.finder.language import Language, Unit, language, units

__all__ = ["Field", "Index", "Language", "Phrase", "Unit", "build", "language", "units"]
