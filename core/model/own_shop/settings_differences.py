"""What differs between two settings documents, path by path; how a path is read and set."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from core.model.errors import WrongInput
from core.wording.messages import say

Document = Mapping[str, Any]
_SECRETS = ("pin", "digest")
_KEYED_BY = "name"
"""Tables of a list are told apart by this key where they have it, else by their place."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One key that is not what it was; ``None``: it was, or is, not there."""

    path: tuple[str, ...]
    was: Any
    now: Any

    @property
    def is_secret(self) -> bool:
        """Whether it is the hash of a PIN or a token, which is shown to nobody."""
        return self.path[-1] in _SECRETS

    @property
    def place(self) -> str:
        """The path as it is typed: ``deck.VHS 1.plays``."""
        return ".".join(self.path)


def differences(before: Document, after: Document) -> tuple[Difference, ...]:
    """Every key that differs, in the order of the documents."""
    return tuple(_between((), before, after))


def value_at(content: Document, path: Sequence[str], place: str) -> Any:
    """What stands at a path; WrongInput names the first step that leads nowhere and what is there."""
    found: Any = content
    for n, step in enumerate(path):
        known = _entries(found)
        if step not in known:
            where = ".".join((place, *path[:n]))
            names = ", ".join(known) or say("files", "none")
            raise WrongInput(where, step, say("files", "one-of", names=names))
        found = known[step]
    return found


def with_value(content: Any, path: Sequence[str], value: Any) -> Any:
    """The document with ``value`` at a path (``None``: without what is there), the rest as it was."""
    step, *further = path
    if isinstance(content, list):
        return list(_with_entry(content, step, further, value))
    if not isinstance(content, Mapping):
        raise WrongInput(step, content, say("files", "table"))
    changed = dict(content)
    if further:
        changed[step] = with_value(changed.get(step, {}), further, value)
    elif value is None:
        changed.pop(step, None)
    else:
        changed[step] = value
    return changed


def _with_entry(content: list[Any], step: str, further: Sequence[str], value: Any) -> Iterator[Any]:
    keys = list(_entries(content))
    for key, entry in zip(keys, content, strict=True):
        if key != step:
            yield entry
        elif further:
            yield with_value(entry, further, value)
        elif value is not None:
            yield {_KEYED_BY: step, **value} if _is_named(content) and isinstance(value, Mapping) else value
    if step not in keys and value is not None and not further:
        yield {_KEYED_BY: step, **value} if isinstance(value, Mapping) and not step.isdigit() else value


def _between(path: tuple[str, ...], before: Any, after: Any) -> Iterator[Difference]:
    if before == after:
        return
    if _is_table(before) and _is_table(after):
        was, now = _entries(before), _entries(after)
        for key in dict.fromkeys([*was, *now]):
            yield from _between((*path, key), was.get(key), now.get(key))
    else:
        yield Difference(path, before, after)


def _is_table(value: Any) -> bool:
    return isinstance(value, Mapping) or (
        isinstance(value, list) and any(isinstance(x, Mapping) for x in value)
    )


def _entries(value: Any) -> dict[str, Any]:
    """What can be stepped into, by its name."""
    if isinstance(value, Mapping):
        return dict(value)
    if isinstance(value, list) and _is_named(value):
        return {str(each[_KEYED_BY]): each for each in value}
    if isinstance(value, list):
        return {str(n): each for n, each in enumerate(value, 1)}
    return {}


def _is_named(content: list[Any]) -> bool:
    return bool(content) and all(isinstance(each, Mapping) and _KEYED_BY in each for each in content)


def without_secrets(value: Any) -> Any:
    """A value of the document with the hashes of PINs and tokens blotted out."""
    if isinstance(value, Mapping):
        return {
            key: "…" if key in _SECRETS and each else without_secrets(each) for key, each in value.items()
        }
    return [without_secrets(each) for each in value] if isinstance(value, list) else value


def spelled(value: Any) -> str:
    """A value as a sentence shows it: texts as they are, lists with commas."""
    if value is None or value in ("", []):
        return say("files", "nothing")
    if isinstance(value, list):
        return ", ".join(map(spelled, value))
    if isinstance(value, Mapping):
        return ", ".join(
            f"{key} {spelled(each)}" for key, each in value.items() if key not in (_KEYED_BY, *_SECRETS)
        )
    if isinstance(value, bool):
        return say("files", "yes" if value else "no")
    if isinstance(value, date):
        return value.isoformat()
    text = str(value)
    return text if len(text) <= 60 else f"{text[:59]}…"
