"""Two documents that were changed from the same one, joined: what only one changed is as they changed it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

Path = tuple[str, ...]
_KEYED_BY = "name"
Choice = Callable[[Path, Any, Any, Any], Any]


def merged(path: Path, was: Any, theirs: Any, yours: Any, choose: Choice) -> Any:
    """Both changes in one; ``choose`` is asked where both changed the same. ``None``: it is not there."""
    if yours in (was, theirs):
        return theirs
    if theirs == was:
        return yours
    if not all(map(_is_keyed, (theirs, yours))) or not (was is None or _is_keyed(was)):
        return choose(path, was, theirs, yours)
    entries = [_entries(each) for each in (was or {}, theirs, yours)]
    before, one, other = entries
    found = {
        key: merged((*path, key), before.get(key), one.get(key), other.get(key), choose)
        for key in _order(before, one, other)
    }
    kept = {key: value for key, value in found.items() if value is not None}
    return list(kept.values()) if isinstance(theirs, list) else kept


def _order(before: Mapping[str, Any], theirs: Mapping[str, Any], yours: Mapping[str, Any]) -> list[str]:
    """Every key, in the order of whoever changed it: theirs, unless they left it as it was."""
    left = [key for key in before if key in theirs]
    is_theirs = left != [key for key in theirs if key in before]
    first, second = (theirs, yours) if is_theirs else (yours, theirs)
    return list(dict.fromkeys((*first, *second)))


def _is_keyed(value: Any) -> bool:
    """Whether its parts have names: a table, or a list of tables with names."""
    if isinstance(value, Mapping):
        return True
    return isinstance(value, list) and all(isinstance(each, Mapping) and _KEYED_BY in each for each in value)


def _entries(value: Mapping[str, Any] | Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    if isinstance(value, Mapping):
        return dict(value)
    return {str(each[_KEYED_BY]): each for each in value}
