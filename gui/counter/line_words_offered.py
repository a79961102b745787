"""The text of the one line with its reading: what to mark, what to offer, what to say of it."""

from __future__ import annotations

from typing import NamedTuple

from gui.tables.choices import CellChoice


class WordOffer(NamedTuple):
    """Words for what stands from ``start`` to ``end``."""

    start: int
    end: int
    choices: tuple[CellChoice, ...]


class LineText:
    """One text and how it is understood.

    The grammar is imported when something is typed: the window opens without it.
    """

    def __init__(self, text: str) -> None:
        self.text = text
        self.spoken = ""
        """The reading as it is read aloud."""
        self.rows_told = ""
        """The rows as they are understood; nothing while there are none."""
        self.faults: tuple[tuple[int, str], ...] = ()
        """Where words stand that were not understood, each with its sentence."""
        self.unread: tuple[tuple[int, int], ...] = ()
        self.customer_at: int | None = None
        """Where the name of the customer begins."""
        if text.strip():
            self._read()

    def _read(self) -> None:
        from core.catalogue.box_line import line_reading, line_told

        reading = line_reading.read(self.text)
        self.rows_told = line_told.understood(reading)
        self.faults = tuple((each.start, line_told.not_understood(reading, each)) for each in reading.unread)
        self.unread = tuple((each.start, each.end) for each in reading.unread)
        self.customer_at = reading.customer.start if reading.customer is not None else None
        self.spoken = " ".join([*(sentence for _, sentence in self.faults), self.rows_told])

    def completion(self, cursor: int) -> WordOffer | None:
        """The words that may be meant by the one that is typed."""
        from core.catalogue.box_line import line_offers, line_reading

        found = line_offers.completions(line_reading.read(self.text), cursor)
        return WordOffer(found.start, found.end, _choices(found.words)) if found else None

    def correction(self, place: int) -> WordOffer | None:
        """What may have been meant by the unread words around ``place``; by the first such ones at -1."""
        from core.catalogue.box_line import line_reading

        for each in line_reading.read(self.text).unread if self.unread else ():
            if each.offers and (place < 0 or each.start <= place <= each.end):
                return WordOffer(each.start, each.end, _choices(each.offers))
        return None

    @staticmethod
    def is_table(text: str) -> bool:
        """Whether a pasted text has cells or rows that the line itself cannot hold."""
        from core.catalogue.box_line import line_tokens

        return line_tokens.is_table(text)


def _choices(words: tuple[str, ...]) -> tuple[CellChoice, ...]:
    return tuple(CellChoice(word) for word in words)
