"""What somebody typed, cell by cell: the truth about a box while it is open, readable or not."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.model.names import FillKnown, Origin
from core.model.price_ways import PriceWay


@dataclass(frozen=True, slots=True)
class TypedRow:
    """One line of the tray, cell by cell."""

    count: str = ""
    format: str = ""
    marking: str = ""
    recorded_as: str = ""
    speed: str = ""
    tv: str = ""
    findings: str = ""
    label: str = ""
    fill: float | None = None
    """Set by an answer or a reading, never typed; so is all that follows."""
    origin: Origin | None = None
    fill_known: FillKnown = FillKnown.TOLD
    fill_off: float | None = None
    codes: tuple[str, ...] = ()
    """The cassettes of a booked order that is changed."""

    @property
    def is_empty(self) -> bool:
        return (replace(self, codes=()) if self.codes else self) == _NOTHING_TYPED


_NOTHING_TYPED = TypedRow()


@dataclass(frozen=True, slots=True)
class TypedBox:
    """Everything on the counter."""

    rows: tuple[TypedRow, ...] = (TypedRow(),)
    name: str = ""
    phone: str = ""
    tv: str = ""
    copies: str = ""
    needed_by: str = ""
    rush: bool = False
    cold: bool = False
    deposit: str | None = None
    """What was typed as taken today; None: what the quote asks for."""
    tax_exempt: str | None = None
    """Why the customer pays no tax, as typed; None: they pay it."""
    way: PriceWay = PriceWay.BY_PLAY
    """How the price is agreed."""
    told: tuple[str, ...] = ()
    """What the customer has been told before paying; counts for nothing without tapes."""
    amends: str = ""
    """The number of the booked order that is changed."""
    version: int = 0
    """The version of its agreement that was opened."""
    command: str = ""
    """The id it is booked under, however often and wherever it is tried; nothing while it is empty."""
    line: str = ""
    """What is typed in the one line and not taken as rows yet."""

    @property
    def is_empty(self) -> bool:
        """Whether nothing at all was typed."""
        rows = tuple(row for row in self.rows if not row.is_empty)
        return replace(self, rows=rows, told=(), command="") == TypedBox(rows=())
