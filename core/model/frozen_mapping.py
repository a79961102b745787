"""A mapping that cannot be changed and is hashed by its content, so that what holds one can key a cache."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from typing import Any, TypeVar

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")


class FrozenMapping(Mapping[K, V]):
    """Equal to any mapping of the same content; the hash is taken once. Mappings inside are frozen too."""

    __slots__ = ("_content", "_hash")

    def __init__(self, content: Mapping[K, V]) -> None:
        self._content: dict[K, V] = {key: _frozen(value) for key, value in content.items()}
        self._hash = hash(frozenset(self._content.items()))

    def __getitem__(self, key: K) -> V:
        return self._content[key]

    def __iter__(self) -> Iterator[K]:
        return iter(self._content)

    def __len__(self) -> int:
        return len(self._content)

    def __hash__(self) -> int:
        return self._hash

    def __repr__(self) -> str:
        return repr(self._content)


def _frozen(value: Any) -> Any:
    return FrozenMapping(value) if isinstance(value, dict) else value
