"""What of the shop's own is in force in this process, and answers that are remembered under that only.

As the language is, the catalogue is one for the whole process: the shop's own formats, findings, repairs and
media come to those of the program. A number stands for all that is in force; equal ones have an equal number.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import _CacheInfo, lru_cache, update_wrapper
from typing import Concatenate, Generic, ParamSpec, TypeVar, cast

P = ParamSpec("P")
R = TypeVar("R")

FORMATS, ADDITIONS = "formats", "additions"
_numbers: dict[Hashable, int] = {((), ()): 0}
_own: dict[str, Hashable] = {FORMATS: (), ADDITIONS: ()}
_in_force = [0]


def use(part: str, own: Hashable) -> None:
    """``own`` is in force from now on as that part of the catalogue; ``()`` is nothing of the shop's own."""
    _own[part] = own
    _in_force[0] = _numbers.setdefault((_own[FORMATS], _own[ADDITIONS]), len(_numbers))


def current() -> int:
    """The number of what is in force."""
    return _in_force[0]


class EditionCache(Generic[P, R]):
    """A function that asks the catalogue; its answers are remembered by its arguments and the edition."""

    def __init__(self, make: Callable[P, R], maxsize: int) -> None:
        def made(edition: int, /, *args: P.args, **named: P.kwargs) -> R:
            return make(*args, **named)

        self._cache = lru_cache(maxsize=maxsize)(made)
        self._made = cast("Callable[Concatenate[int, P], R]", self._cache)
        update_wrapper(self, make)

    def __call__(self, *args: P.args, **named: P.kwargs) -> R:
        return self._made(_in_force[0], *args, **named)

    def cache_info(self) -> _CacheInfo:
        """Hits, misses and size, as `functools.lru_cache` counts them."""
        return self._cache.cache_info()

    def cache_clear(self) -> None:
        """Forget every answer."""
        self._cache.cache_clear()


def edition_cache(maxsize: int) -> Callable[[Callable[P, R]], EditionCache[P, R]]:
    """Remember the newest ``maxsize`` answers of a function that asks the catalogue."""
    return lambda make: EditionCache(make, maxsize)
