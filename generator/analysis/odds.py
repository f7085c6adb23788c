"""A complaint's own odds: how a fault shows, and what the bench found behind this complaint.

The share of a cause for a complaint is how often the cause is met, times how many of the machines that
have it come in with that complaint, over the sum of the same for every cause. Jobs counted with the
complaint move the shares: a Dirichlet prior, the author's shares weighing as `WEIGHT` jobs, that a
multinomial count updates (the conjugate pair; see Bayesian Data Analysis, section 3.4).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import fsum

from generator.analysis.evidence import beta_quantile

WEIGHT = 20.0
"Jobs with the complaint that the author's shares count for."
SCALE = {"always": 0.95, "most": 0.6, "some": 0.2, "seldom": 0.04}
"Of the machines that have a fault, the part that comes in with a complaint: estimates, from memory."


@dataclass(frozen=True, slots=True)
class Share:
    """One cause's share of one complaint."""

    estimate: float
    "By rates and by how each cause shows; the estimates of a complaint sum to 1."
    found: int
    "Jobs with this complaint that had this cause."
    jobs: int
    "Jobs with this complaint, whatever was found."

    @property
    def mean(self) -> float:
        """The posterior mean."""
        return (WEIGHT * self.estimate + self.found) / (WEIGHT + self.jobs)

    @property
    def low(self) -> float:
        """5 % quantile of the posterior."""
        return self._quantile(0.05)

    @property
    def high(self) -> float:
        """95 % quantile of the posterior."""
        return self._quantile(0.95)

    def _quantile(self, p: float) -> float:
        """Of the share alone: a Beta, the Dirichlet's marginal."""
        a = WEIGHT * self.estimate + self.found
        b = WEIGHT + self.jobs - a
        return beta_quantile(a, b, p) if b > 0 else 1.0


def shown(said: Mapping[str, str | float], complaint: str, complaints: int) -> float:
    """Of the machines that have a fault, the part that comes in with a complaint that it can cause.

    `said` is what its record says by complaint, a word of the scale or a number; `complaints` how many it
    can cause. A complaint that the record leaves out is seldom; where it says nothing of any, one is as
    likely as another.

    >>> shown({"no-feed": "most"}, "no-feed", 3), shown({"no-feed": "most"}, "skips", 3), shown({}, "skips", 4)
    (0.6, 0.04, 0.25)
    """
    if not said:
        return 1 / max(complaints, 1)
    word = said.get(complaint, "seldom")
    return SCALE[word] if isinstance(word, str) else word


def shares(weights: Mapping[str, float], found: Mapping[str, int]) -> dict[str, Share]:
    """Each cause's share: `weights` are positive and of any sum, `found` are jobs with the complaint.

    >>> now = shares({"gear": 3, "needle": 1}, {"needle": 20})
    >>> now["gear"].mean, now["needle"].mean
    (0.375, 0.625)
    """
    whole = fsum(weights.values())
    jobs = sum(found.get(cause, 0) for cause in weights)
    return {cause: Share(weight / whole, found.get(cause, 0), jobs) for cause, weight in weights.items()}
