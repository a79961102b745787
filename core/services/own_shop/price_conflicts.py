"""Two counters entered prices: who entered what meanwhile, and both versions of what both changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from core.model.errors import Conflict
from core.model.own_shop import settings_differences
from core.pricing import price_book
from core.services.own_shop import price_books, setting_names
from core.services.own_shop.merged_documents import Path, merged
from core.services.own_shop.settings_conflicts import SettingsClash
from core.store import current_prices, current_settings
from core.store.unit import Unit
from core.wording.messages import say

Book = Mapping[str, Any]
"""A price book as the plain tables of its file."""
_DATED = ("valid_from", "name")
"""Keys that say which book it is: the one that was typed keeps its own."""


@dataclass(frozen=True, slots=True)
class PriceConflict:
    """Prices that were typed over another book than the one in force now on the day they are meant for."""

    number: int
    """Of the newest entry."""
    by: str
    """Who made that."""
    changes: tuple[tuple[datetime, str, str], ...]
    """When, who and what in words, of each entry since the one that was typed over; oldest first."""
    clashes: tuple[SettingsClash, ...]
    timezone: str
    base: Book
    theirs: Book
    yours: Book

    @property
    def subject(self) -> str:
        """What both changed, as a key of the wording."""
        return "prices"

    def told(self) -> Conflict:
        """That nothing of yours is saved yet, and because of whom."""
        return Conflict(say("access", "conflict-told-prices", who=self.by))

    def settled(self, yours: Mapping[Path, bool]) -> Book:
        """Both changes in one book from the day that was typed: of each clash yours where ``yours`` says so.

        WrongInput where the two do not go together.
        """

        def choose(path: Path, _: Any, theirs: Any, mine: Any) -> Any:
            return mine if yours[path] else theirs

        docs = [_undated(each) for each in (self.base, self.theirs, self.yours)]
        both = merged((), docs[0], docs[1], docs[2], choose) | {key: self.yours[key] for key in _DATED}
        return price_book.document(price_book.of_document(both, say("settings", "the-prices")))


def read(unit: Unit, base: Book, yours: Book, based_on: int) -> PriceConflict:
    """What became of the prices since entry ``based_on``, when ``yours`` was typed over ``base``."""
    entries = current_prices.entries(unit)
    theirs = price_books.document_in_force(unit, yours["valid_from"])
    return PriceConflict(
        number=entries[-1].number if entries else 0,
        by=entries[-1].by if entries else "",
        changes=tuple((row.at, row.by, row.words) for row in entries if row.number > based_on),
        clashes=_clashes(base, theirs, yours),
        timezone=current_settings.read(unit).front.timezone,
        base=base,
        theirs=theirs,
        yours=yours,
    )


def _clashes(base: Book, theirs: Book, yours: Book) -> tuple[SettingsClash, ...]:
    found: list[SettingsClash] = []
    was, one, other = (_undated(each) for each in (base, theirs, yours))

    def note(path: Path, _: Any, theirs: Any, mine: Any) -> Any:
        found.append(SettingsClash(path, *(_words(was, path, each) for each in (theirs, mine))))
        return theirs

    merged((), was, one, other, note)
    return tuple(found)


def _words(was: Book, path: Path, now: Any) -> str:
    """What one side made of a key, as the history would tell it."""
    changed = settings_differences.with_value(was, path, now)
    return "; ".join(map(setting_names.price_line, settings_differences.differences(was, changed)))


def _undated(book: Book) -> dict[str, Any]:
    return {key: value for key, value in book.items() if key not in _DATED}
