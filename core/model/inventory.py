"""What lies on the counter: the frozen draft a quote is made from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from core.model.names import AnyFinding, FillKnown, FormatName, Origin, Speed, TvSystem
from core.model.price_ways import PriceWay

MOST_TAPES = 500
"""Tapes in one job; a larger box is booked as several jobs."""
MOST_FILL = 20.0
"""Times its printed length that a tape may be said to be recorded; what its shell holds is asked later."""
MOST_SETS = 20
"""Copies alike in one order: more are a slip of the finger (an assumption)."""
CARRIERS = ("usb", "disk", "download", "own-drive", "dvd-r", "bd-r")
"""What files are handed over on; the shop's own media come to them (`core.pricing.copy_sizes.carriers`)."""
LONGEST_EXEMPTION = 120
"""Letters of the reason why a customer pays no tax."""


@dataclass(frozen=True, slots=True)
class CustomerDraft:
    """Who brought the box. Phone and e-mail as they were given."""

    name: str
    phone: str | None = None
    email: str | None = None


@dataclass(frozen=True, slots=True)
class TapeLine:
    """``count`` tapes alike. ``None`` means that nobody knows yet."""

    count: int
    format: FormatName
    marking: str | None = None
    recorded_as: FormatName | None = None
    speed: Speed | None = None
    tv: TvSystem | None = None
    fill: float | None = None
    """Share of the tape that is recorded, above 0; above 1 where it is longer than its marking says."""
    findings: tuple[AnyFinding, ...] = ()
    label: str = ""
    origin: Origin | None = None
    """Whether a camcorder made it or somebody recorded a broadcast."""
    fill_known: FillKnown = FillKnown.TOLD
    """How `fill` is known; means nothing without one."""
    fill_off: float | None = None
    """How far the recording may end from `fill` either way, where that is known better than usual."""
    box_tv: TvSystem | None = None
    """Of a tape that has left its box: what the box was said to be, where the marking tells another system
    and nobody has answered yet which it is (`tv` is None then)."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """One set of copies: ``kind`` is ``files``, ``dvd`` or ``bluray``; files have a codec and a carrier."""

    kind: str
    codec: str | None = None
    carrier: str | None = None


@dataclass(frozen=True, slots=True)
class Inventory:
    """The whole box. ``tv`` is the system of every line that names none."""

    lines: tuple[TapeLine, ...]
    tv: TvSystem | None = None
    customer: CustomerDraft | None = None
    deliver: tuple[Delivery, ...] = ()
    rush: bool = False
    needed_by: date | None = None
    cold: bool = False
    """It came in cold, so its tapes rest before they play (`core.catalogue.acclimatisation`)."""
    tax_exempt: str = ""
    """Why the customer pays no tax: the reason, or the number of the certificate; nothing: they pay it."""
    way: PriceWay = PriceWay.BY_PLAY
    """How the price is agreed."""

    def tv_of(self, line: TapeLine) -> TvSystem | None:
        """The TV system of a line: its own, else the box's."""
        return line.tv or self.tv
