"""A cache of what holds words: each language spoken has answers of its own."""

from __future__ import annotations

from collections.abc import Callable
from functools import _CacheInfo, lru_cache, update_wrapper
from typing import Concatenate, Generic, ParamSpec, TypeVar, cast

from core.wording.messages import Speech, current

P = ParamSpec("P")
R = TypeVar("R")


class WordedCache(Generic[P, R]):
    """A function whose answers are remembered by its arguments and the language and locale of the process."""

    def __init__(self, make: Callable[P, R], maxsize: int) -> None:
        def made(speech: Speech, /, *args: P.args, **named: P.kwargs) -> R:
            return make(*args, **named)

        self._cache = lru_cache(maxsize=maxsize)(made)
        self._made = cast("Callable[Concatenate[Speech, P], R]", self._cache)
        update_wrapper(self, make)

    def __call__(self, *args: P.args, **named: P.kwargs) -> R:
        return self._made(current(), *args, **named)

    def cache_info(self) -> _CacheInfo:
        """Hits, misses and size, as `functools.lru_cache` counts them."""
        return self._cache.cache_info()

    def cache_clear(self) -> None:
        """Forget every answer."""
        self._cache.cache_clear()


def worded_cache(maxsize: int) -> Callable[[Callable[P, R]], WordedCache[P, R]]:
    """Remember the newest ``maxsize`` answers of a function that says sentences or writes figures."""
    return lambda make: WordedCache(make, maxsize)
