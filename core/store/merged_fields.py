"""Two people change one record: what each of them changed, merged field by field."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Any, TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class FieldClash:
    """A field that both changed, each to something else."""

    field: str
    seen: Any
    """What stood there when the second began."""
    now: Any
    """What the first made of it."""
    wanted: Any
    """What the second wants."""


def merge(seen: T, wanted: T, now: T) -> tuple[T, tuple[FieldClash, ...]]:
    """``now`` with the fields in which ``wanted`` differs from ``seen``; and where that cannot be.

    All three are records of one dataclass.
    """
    changed: dict[str, Any] = {}
    clashes: list[FieldClash] = []
    for field in dataclasses.fields(now):  # type: ignore[arg-type]  # T is a dataclass
        was, want, stands = (getattr(each, field.name) for each in (seen, wanted, now))
        if want in (was, stands):
            continue
        if stands != was:
            clashes.append(FieldClash(field.name, was, stands, want))
        changed[field.name] = want
    return dataclasses.replace(now, **changed), tuple(clashes)  # type: ignore[type-var]  # as above
