"""Work in which Python's collector of cycles rests.

What is read of a book is kept, and nearly none of it forms cycles: to go through it again and again, as the collector
does while it grows, takes a fifth of the time and frees nothing.
"""

from __future__ import annotations

import gc
from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
T = TypeVar("T")


def uncollected(work: Callable[P, T]) -> Callable[P, T]:
    """The same function, with the collector at rest until it ends.

    >>> import gc
    >>> uncollected(gc.isenabled)(), gc.isenabled()
    (False, True)
    """

    @wraps(work)
    def run(*args: P.args, **kwargs: P.kwargs) -> T:
        worked = gc.isenabled()
        gc.disable()
        try:
            return work(*args, **kwargs)
        finally:
            if worked:
                gc.enable()

    return run
