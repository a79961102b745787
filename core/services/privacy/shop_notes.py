"""Notes of the shop about itself, in which a customer's name may stand though nobody asked for it.

*From Ada Fenwick's broken tape*, of a donor part, or *her wedding, 555 0111* beside a closed day: the name
and the number are taken out, the rest of the note stays. One word alone may be a month or a place and stays.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sqlalchemy import Row, select, update

from core.model import folding
from core.store import history, personal_columns, row_digests
from core.store.sharing import shop_scope
from core.store.tables import EventRow
from core.store.unit import Unit

NOTES = {
    **dict.fromkeys(("deck_events", "day_events", "box_orders"), "words"),
    **dict.fromkeys(("donors", "repairs"), "came_from"),
    "drawer_counts": "note",
}
"""By table the column that is typed freely. A part of a donor goes into anybody's tape."""
KINDS = (
    *("closed-by-plan", "stayed-closed", "open-after-all", "order-of-boxes", history.DONOR, "drawer"),
    *("outage-planned", "outage-canceled", "deck-out", "deck-back", "repair-tried", "repair-struck-out"),
)
"""Of the lines of history that quote such notes."""
_LEAST_DIGITS = 7
"""Of a number without its area (E.164 subscriber numbers are rarely shorter: common practice, no source)."""
_NUMBER = re.compile(r"\+?\(?\d(?:[\s().\-/]*\d)+")
_WORD = re.compile(r"\w+")


@dataclass(frozen=True, slots=True)
class NamedPerson:
    """Whom a note may tell of: the words of a name, in any order, and the digits of a number."""

    words: tuple[str, ...]
    digits: str

    @classmethod
    def of(cls, name: str, digits: str) -> NamedPerson:
        return cls(tuple(_WORD.findall(folding.folded(name))), digits)

    def taken_out(self, note: str, mark: str) -> str:
        """The note with ``mark`` where the whole name or the number stood."""
        for start, end in sorted({*self._names(note), *self._numbers(note)}, reverse=True):
            note = note[:start] + mark + note[end:]
        return note

    def stands_in(self, note: str) -> bool:
        return self.taken_out(note, "") != note

    def _names(self, note: str) -> Iterator[tuple[int, int]]:
        """Where the words of the name stand side by side; a name of one word is found nowhere."""
        many, wanted = len(self.words), sorted(self.words)
        said = list(_WORD.finditer(note)) if many > 1 else []
        place = 0
        while place + many <= len(said):
            window = said[place : place + many]
            if sorted(folding.folded(each.group()) for each in window) == wanted:
                yield window[0].start(), window[-1].end()
                place += many
            else:
                place += 1

    def _numbers(self, note: str) -> Iterator[tuple[int, int]]:
        for each in _NUMBER.finditer(note):
            number = folding.digits(each.group())
            if min(len(number), len(self.digits)) >= _LEAST_DIGITS and _is_same(number, self.digits):
                yield each.start(), each.end()


def take_out(unit: Unit, person: NamedPerson, mark: str) -> tuple[list[int], set[int]]:
    """Takes a person out of the notes.

    Gives the numbers of the lines of history that were emptied for it, and the places on the shelf of donors
    whose lines are among them.
    """
    for name, column in NOTES.items():
        _take_out_of(unit, name, column, person, mark)
    lines: list[int] = []
    shelf: set[int] = set()
    for row in list(_lines(unit)):
        if person.stands_in(row.words) or person.stands_in(row.payload):
            lines.append(row.seq)
            if row.kind == history.DONOR:
                shelf.add(int(history.payload_of(row.payload)["donor"]))
    words, payload = history.ERASED_WORDS
    emptied = update(EventRow).where(EventRow.seq.in_(lines)).values(words=words, payload=payload, salt=None)
    unit.session.execute(emptied.execution_options(synchronize_session=False))
    unit.session.expire_all()
    return lines, shelf


def _lines(unit: Unit) -> Iterable[Row[tuple[int, str, str, str]]]:
    asked = select(EventRow.seq, EventRow.kind, EventRow.words, EventRow.payload)
    told = asked.where(EventRow.kind.in_(KINDS), EventRow.salt.is_not(None))
    return unit.session.execute(told.order_by(EventRow.seq))


def _take_out_of(unit: Unit, name: str, column: str, person: NamedPerson, mark: str) -> None:
    connection = unit.session.connection()
    kept = row_digests.raw_table(connection, name)
    (key,) = row_digests.key_names(connection, name)
    asked = shop_scope.narrowed(connection, select(kept.c[key], kept.c[column]), kept)
    for row, note in connection.execute(asked).all():
        if (without := person.taken_out(note, mark)) != note:
            personal_columns.change(unit.session, name, row, {column: without})


def _is_same(one: str, other: str) -> bool:
    """Whether one number is the other, or its end: with and without its country or area."""
    return one.endswith(other) or other.endswith(one)
