"""How a line was understood: its rows, and what each stretch of it was taken as."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from core.model.inventory import TapeLine
from core.model.names import AnyFinding, FormatName, Speed, TvSystem


class Taken(Enum):
    """What a stretch of the line was taken as; the values are the words of the JSON."""

    COUNT = "count"
    FORMAT = "format"
    MARKING = "marking"
    RECORDED_AS = "recorded-as"
    SPEED = "speed"
    TV = "tv"
    FINDING = "finding"
    LABEL = "label"
    CUSTOMER = "customer"
    """Who brings the tapes, name and phone number together."""
    PART = "part"
    """Words such as *of them*: the row is about some of the tapes named just before."""
    FILLER = "filler"
    """A comma, or a word that says nothing of its own: *tapes*, *with*."""
    UNREAD = "unread"


@dataclass(frozen=True, slots=True)
class LineStretch:
    """The characters from ``start`` up to ``end`` of the line, counted from 0."""

    start: int
    end: int
    taken: Taken
    row: int | None = None
    """The row it belongs to, from 0; None for what stands between rows."""
    offers: tuple[str, ...] = ()
    """What may have been meant by words that were not understood, the likeliest first."""
    because: str = ""
    """Why words were not taken, where there is more to say than that they are not known."""


@dataclass(frozen=True, slots=True)
class LineRow:
    """One row as the line names it. ``format`` is None where no kind of cassette was understood."""

    count: int = 1
    format: FormatName | None = None
    marking: str | None = None
    """As the catalogue writes it; as typed while there is no format."""
    recorded_as: FormatName | None = None
    speed: Speed | None = None
    tv: TvSystem | None = None
    findings: tuple[AnyFinding, ...] = ()
    label: str = ""
    unread: tuple[str, ...] = ()
    """The words of this row that were not understood, as typed."""

    @property
    def tapes(self) -> TapeLine | None:
        """The row for an inventory; None without a format."""
        return None if self.format is None else self.without_format

    @property
    def without_format(self) -> TapeLine:
        """What is known of the row, its format named or not."""
        return TapeLine(
            self.count,
            self.format or FormatName(""),
            self.marking,
            self.recorded_as,
            self.speed,
            self.tv,
            findings=self.findings,
            label=self.label,
        )


@dataclass(frozen=True, slots=True)
class LineCustomer:
    """Who brings the tapes, as typed from ``start`` up to ``end``; a name without capitals has got them."""

    name: str
    phone: str
    """As typed; empty where none was."""
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class LineReading:
    """A whole line: its rows in order, and stretches that hold every character but spaces exactly once."""

    text: str
    rows: tuple[LineRow, ...]
    stretches: tuple[LineStretch, ...]
    customer: LineCustomer | None = None

    @property
    def unread(self) -> tuple[LineStretch, ...]:
        """What was not understood, in order."""
        return tuple(each for each in self.stretches if each.taken is Taken.UNREAD)

    @property
    def is_whole(self) -> bool:
        """Whether every word was taken and every row names its format."""
        return not self.unread and all(row.format is not None for row in self.rows)

    def words(self, stretch: LineStretch) -> str:
        """The text of a stretch."""
        return self.text[stretch.start : stretch.end]
