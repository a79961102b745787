"""The customers' names in memory: a misspelt one is looked for in all of them, at every key.

Reading two hundred thousand names takes longer than comparing them, so they are read once and then only the
new ones; the history tells when a name was put right and all must be read again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import cast

from sqlalchemy import select

from core.store import history
from core.store.tables import CustomerRow, EventRow
from core.store.unit import Unit

_KEY = "known names"


@dataclass(frozen=True, slots=True)
class Names:
    """Folded names as they were when the history had ``seq`` lines."""

    seq: int
    last_id: int
    whole: tuple[str, ...]
    by_word: dict[str, list[str]]
    """First and last names, each with the whole names it is part of."""


def known(unit: Unit) -> Names:
    """Every name of this moment, remembered in the unit's memory for the next question."""
    seq = history.latest(unit)
    kept = cast("Names | None", unit.memory.get(_KEY))
    if kept is not None and kept.seq == seq:
        return kept
    if kept is None or seq < kept.seq or _was_corrected(unit, kept.seq):
        kept = Names(0, 0, (), {})
    names = _grown(kept, seq, _since(unit, kept.last_id))
    unit.memory[_KEY] = names
    return names


def _was_corrected(unit: Unit, seq: int) -> bool:
    corrected = select(EventRow.seq).where(EventRow.seq > seq, EventRow.kind == "customer corrected")
    return unit.session.scalars(corrected.limit(1)).first() is not None


def _since(unit: Unit, last_id: int) -> Sequence[tuple[int, str]]:
    new = select(CustomerRow.id, CustomerRow.folded).where(CustomerRow.id > last_id).order_by(CustomerRow.id)
    return [(row.id, row.folded) for row in unit.session.execute(new)]


def _grown(kept: Names, seq: int, new: Sequence[tuple[int, str]]) -> Names:
    """A new record each time: another thread may be reading the one before."""
    whole = dict.fromkeys(kept.whole)
    fresh = [name for name in dict.fromkeys(name for _, name in new) if name not in whole]
    by_word = {word: list(names) for word, names in kept.by_word.items()} if fresh else kept.by_word
    for name in fresh:
        for word in name.split():
            by_word.setdefault(word, []).append(name)
    last_id = new[-1][0] if new else kept.last_id
    return Names(seq, last_id, _side_by_side([*kept.whole, *fresh]) if fresh else kept.whole, by_word)


def _side_by_side(names: list[str]) -> tuple[str, ...]:
    """Sorted, and made anew so that they lie in that order in memory: comparing takes half the time."""
    return tuple("\n".join(sorted(names)).split("\n"))
