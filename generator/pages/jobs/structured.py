"""A job sheet in the open vocabulary of schema.org, for programs that read pages: a `HowTo` with its steps and cautions.

The names of types and properties are schema.org's; what each means there is from memory.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Mapping, Sequence

from markupsafe import Markup

from generator.records.model import Caution
from generator.wording.jobs.steps import StepView
from generator.wording.words import plain

_ASUNDER = {"<": "\\u003c", ">": "\\u003e", "&": "\\u0026"}
"No text may end the block that it stands in; JSON reads these as the signs themselves."
LAST = "Sew on scrap"


def how_to(
    title: str,
    minutes: float,
    steps: Sequence[StepView],
    throughout: Iterable[str],
    cautions: Mapping[str, Caution],
    **needs: Sequence[str],
) -> Markup:
    """The data block of a sheet. `needs` are the names of its `tool` and of its `supply`.

    Cautions stand before the step that they guard, those of the whole job before the first.
    """
    first, *rest = steps
    told = [_step(first, (*throughout, *first.cautions), cautions), *(_step(step, step.cautions, cautions) for step in rest)]
    whole = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": title,
        "totalTime": f"PT{math.ceil(minutes)}M",
        **{need: list(names) for need, names in needs.items() if names},
        "step": told,
    }
    return embedded(whole)


def embedded(data: object) -> Markup:
    """Data that stands in a page and is not run.

    >>> print(embedded("</script>"))
    <script type="application/ld+json">"\\u003c/script\\u003e"</script>
    """
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    for sign, code in _ASUNDER.items():
        text = text.replace(sign, code)
    return Markup(f'<script type="application/ld+json">{text}</script>')


def _step(step: StepView, guarding: Iterable[str], cautions: Mapping[str, Caution]) -> str | dict[str, object]:
    """A step in its words, plain text as `step` takes it; where it is guarded, with the cautions as tips before the direction."""
    name = " ".join(filter(None, (step.do, plain(step.title)))) if step.title else LAST
    tips = [{"@type": "HowToTip", "text": cautions[id].title} for id in dict.fromkeys(guarding) if id in cautions]
    if not tips:
        return name
    return {"@type": "HowToStep", "itemListElement": [*tips, {"@type": "HowToDirection", "text": name}]}
