"""Rules about the features of a family: what they are called, what its mechanisms say of them, what goes together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.model import Family
from generator.records.rules.book import Book
from generator.records.rules.reads import Reads
from generator.records.rules.registry import rule

BROUGHT = Reads({"family": ("features", "assemblies"), "assembly": ("brings",)})


@rule("A feature that a family states is one of the list, where there is a list.", "family", alone=True)
def feature_has_words(book: Book) -> Iterator[Finding]:
    listed = book.content.records["feature"]
    if not listed or "feature" in {*book.content.blind, *book.content.unread}:
        return
    for id, family in book.records.families.items():
        for feature in family.features.keys() - listed.keys():
            message = f"Nothing says in words what {quote(feature)} means."
            hint = did_you_mean(feature, listed, "Mend the name, or add it to features.yaml with `title:` and `absent:`.")
            yield book.finding(("family", id), ("features", feature), message, hint, key=True)


@rule("A family states as true what its mechanisms bring.", "family", reads=BROUGHT)
def brought_feature_is_stated(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        for place, use in enumerate(family.assemblies):
            assembly = book.records.assemblies.get(use.use)
            for feature in assembly.brings if assembly else ():
                if family.features.get(feature) is False:
                    message = f"{quote(feature)} is false, and the mechanism {quote(use.use)} brings it."
                    hint = f"Write `{feature}: true`, or take the mechanism out."
                    yield book.finding(("family", id), ("features", feature), message, hint)
                elif feature not in family.features:
                    message = f"{quote(use.use)} brings {quote(feature)}, which the family does not state."
                    yield book.finding(("family", id), ("assemblies", place), message, f"Write `{feature}: true` under `features`.")


@rule("A feature that mechanisms bring is stated where one of them is.", "family", reads=BROUGHT)
def stated_feature_is_brought(book: Book) -> Iterator[Finding]:
    brought = {feature for assembly in book.records.assemblies.values() for feature in assembly.brings}
    for id, family in book.records.families.items():
        used = [book.records.assemblies.get(use.use) for use in family.assemblies]
        if None in used:
            continue
        here = {feature for assembly in used if assembly for feature in assembly.brings}
        for feature, has in family.features.items():
            if has and feature in brought - here:
                message = f"{quote(feature)} is true, and no mechanism of {quote(id)} brings it."
                hint = f"Add the mechanism to `assemblies`, write `brings: [{feature}]` in the one that has it, or write false."
                yield book.finding(("family", id), ("features", feature), message, hint, level="warning")


@rule("No family states two features that cannot be together, or one without what it needs.", "family", alone=True)
def features_agree(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        for feature, message, hint in _contradictions(family, book.records.features):
            yield book.finding(("family", id), ("features", feature), message, hint)


def _contradictions(family: Family, features: Mapping[str, object]) -> Iterator[tuple[str, str, str]]:
    """Feature, what is wrong with it, and the mend."""
    true = [name for name, has in family.features.items() if has]
    for name in true:
        kind = features.get(name)
        for other in getattr(kind, "not_with", ()):
            if other in true:
                yield name, f"No machine has both {quote(name)} and {quote(other)}.", "Look at it, and write false for one of them."
        for other in getattr(kind, "only_with", ()):
            if other not in true:
                yield name, f"A machine with {quote(name)} has {quote(other)} too.", f"Write `{other}: true`, or `{name}: false`."
