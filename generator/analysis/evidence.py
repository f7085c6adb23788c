"""How often a failure mode is met: the author's estimate, brought up to date by bench tallies.

The estimate weighs as `WEIGHT` machines: a Beta prior that tallies of a binomial count update
(the conjugate pair; see Bayesian Data Analysis, section 2.4).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import exp, inf, lgamma, log, log1p

WEIGHT = 50.0
"Machines that the author's estimate counts for."
_CLOSE = 1e-12
"A step smaller than this part of its place is the last: the next would be of the square of it."


@dataclass(frozen=True, slots=True)
class Rate:
    """How often one failure mode is met, of all machines of a family."""

    estimate: float
    "The author's: a probability."
    found: int
    "Counted at the bench."
    machines: int
    "Machines in the tallies that counted it; 0 where it rests on the estimate alone."

    @property
    def mean(self) -> float:
        """Probability, 0 to 1: the posterior mean."""
        a, b = self._shape()
        return a / (a + b)

    @property
    def low(self) -> float:
        """5 % quantile of the posterior."""
        return beta_quantile(*self._shape(), 0.05)

    @property
    def high(self) -> float:
        """95 % quantile of the posterior."""
        return beta_quantile(*self._shape(), 0.95)

    def _shape(self) -> tuple[float, float]:
        a = WEIGHT * self.estimate + self.found
        return a, WEIGHT * (1 - self.estimate) + self.machines - self.found


def rate(estimate: float, found: int = 0, machines: int = 0) -> Rate:
    """The rate that an estimate and a count lead to, with its 90 % interval.

    `estimate` is a probability. Raises ValueError for one outside 0..1 or a count that cannot be.

    >>> r = rate(0.020, found=31, machines=412)
    >>> round(r.mean, 4), round(r.low, 4), round(r.high, 4)
    (0.0693, 0.051, 0.0897)
    """
    if not 0 < estimate < 1:
        raise ValueError(f"An estimate of {estimate} is no probability between 0 and 1.")
    if not 0 <= found <= machines:
        raise ValueError(f"{found} found among {machines} machines cannot be counted.")
    return Rate(estimate, found, machines)


@lru_cache(maxsize=65536)
def beta_quantile(a: float, b: float, p: float) -> float:
    """The value that a Beta(a, b) variable is below with probability p.

    By the method of Newton on log P against log x, which is nearly straight for small x; a step that would
    leave the bounds known so far halves them instead.

    >>> round(beta_quantile(1, 1, 0.95), 12)
    0.95
    """
    low, high = 0.0, 1.0
    x, density = a / (a + b), lgamma(a + b) - lgamma(a) - lgamma(b)
    for _ in range(80):
        below = beta_cumulative(a, b, x)
        if below < p:
            low = x
        else:
            high = x
        last, x = x, _newton(a, b, p, x, below, density)
        if not low < x < high:
            x = (low + high) / 2
        if x in (low, high) or abs(x - last) < _CLOSE * last:  # no number stands between, or the step was the last
            break
    return x


def _newton(a: float, b: float, p: float, x: float, below: float, density: float) -> float:
    """The next guess after x, below which `below` lies; `density` is the logarithm of 1 / B(a, b)."""
    if not below:
        return 0.0
    slope = exp(density + a * log(x) + (b - 1) * log1p(-x)) / below
    step = log(p / below) / slope if slope else inf
    return x * exp(step) if step < 1 else inf


def beta_cumulative(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function I_x(a, b) (Abramowitz and Stegun, 26.5.8)."""
    if not 0 < x < 1:
        return float(x >= 1)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x))
    if x < (a + 1) / (a + b + 2):
        return front * _continued_fraction(a, b, x) / a
    return 1 - front * _continued_fraction(b, a, 1 - x) / b


def _continued_fraction(a: float, b: float, x: float) -> float:
    """Evaluated forward by the method of Lentz; `x` is on the side where it converges fast."""
    tiny = 1e-300
    c, d = 1.0, 1 / _not_zero(1 - (a + b) * x / (a + 1), tiny)
    value = d
    for m in range(1, 500):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for term in (even, odd):
            d = 1 / _not_zero(1 + term * d, tiny)
            c = _not_zero(1 + term / c, tiny)
            value *= c * d
        if abs(c * d - 1) < 1e-15:
            break
    return value


def _not_zero(value: float, tiny: float) -> float:
    return value if abs(value) > tiny else tiny
