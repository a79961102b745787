"""Small shops, tapes and price books for the tests of money and date."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from core.model.inventory import TapeLine
from core.model.names import FormatName, Outcome, Speed, TapeCode, TvSystem
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Deck, Rate, ShopFront, ShopSettings
from core.model.quote_records import Copy, QuotedTape, Storage
from core.model.ranges import ZERO, Range
from core.model.repair_records import Repair, Verdict
from core.model.stations import Station
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode, Way
from core.pricing.price_rules import CaptureRate, QuantityBreak, Tax
from core.scheduling.queued_tapes import QueuedTape

NEW_YORK = ZoneInfo("America/New_York")
TUESDAY = datetime(2026, 3, 3, 9, 0, tzinfo=NEW_YORK)
"""A Tuesday at opening time, no holiday near."""

FRONT = ShopFront("A shop", ("1 Street",), "555", "USD", "America/New_York")
WEEKDAYS = tuple(OpeningHours(day, 9 * 60, 18 * 60) for day in range(5))
PLAYS = Verdict(Outcome.PLAYS, (), (), (), not_for_reuse=False)
CANNOT = Verdict(Outcome.CANNOT, (), (), ("It cannot be played.",), not_for_reuse=False)
HOUR = Range(50, 60, 70)
NO_COPIES = Storage(ZERO, ZERO, ())


def deck(name: str, *plays: str, tv: str = "ntsc", speeds: str = "sp lp ep", in_service: bool = True) -> Deck:
    return Deck(
        name,
        frozenset(FormatName(one) for one in plays),
        frozenset(tv.split()),
        frozenset(speeds.split()),
        in_service,
    )


def fittings(*decks: Deck, openings: tuple[OpeningHours, ...] = WEEKDAYS, **changes: object) -> ShopSettings:
    """A shop open from 9 to 18 on weekdays, no holidays, one hour past closing, two people."""
    plain = ShopSettings(
        front=FRONT,
        decks=decks or (deck("VHS 1", "vhs"), deck("8 mm", "video8", "hi8", "digital8")),
        openings=openings,
        holiday_country=None,
        holiday_region=None,
        closed_days=frozenset(),
        past_closing_minutes=60,
        people=2,
        confidence=0.9,
    )
    return replace(plain, **changes)  # type: ignore[arg-type]  # the names are those of ShopSettings


def quoted(
    line: int = 1,
    n: int = 1,
    format: str = "vhs",
    minutes: Range = HOUR,
    verdict: Verdict = PLAYS,
    speed: Speed | None = Speed.SP,
) -> QuotedTape:
    draft = TapeLine(1, FormatName(format), tv=TvSystem.NTSC, speed=speed)
    return QuotedTape(line, n, draft, minutes, verdict)


def repaired(*codes: str) -> Verdict:
    repairs = tuple(Repair(code, code, Range(10, 20, 30)) for code in codes)
    return Verdict(Outcome.REPAIR, repairs, (), (), not_for_reuse=True)


def queued(
    number: int,
    format: str = "vhs",
    minutes: Range = HOUR,
    station: Station = Station.CLEARED_TO_PLAY,
    since: datetime = TUESDAY,
    rush: bool = False,
    job: int = 1,
) -> QueuedTape:
    return QueuedTape(
        TapeCode(f"{job:06d}{number:03d}0"),
        FormatName(format),
        None,
        TvSystem.NTSC,
        Speed.SP,
        minutes,
        station,
        since,
        rush,
        0.0,
    )


def copies(code: str, low: int, likely: int, high: int) -> Storage:
    return Storage(ZERO, ZERO, (Copy(code, code, Range(low, likely, high)),))


def book(
    *,
    tax: TaxMode = TaxMode.ON_TOP,
    tax_percent: str = "8.25",
    breaks: tuple[QuantityBreak, ...] = (),
    minimum: int = 0,
) -> PriceBook:
    """VHS by the started half hour at 6.00, Hi8 by the hour at 20.00, VHS-C by the tape at 14.00."""
    return PriceBook(
        name="Test book",
        remark="invented",
        invented=True,
        currency="USD",
        minor_digits=2,
        valid_from=date(2026, 1, 1),
        quote_valid_days=30,
        tax=Tax(tax, Decimal(tax_percent), "sales tax", "local tax law goes first"),
        capture={
            FormatName("vhs"): CaptureRate(Way.PER_PERIOD, Decimal(600), 30),
            FormatName("hi8"): CaptureRate(Way.PER_HOUR, Decimal(2000)),
            FormatName("vhs-c"): CaptureRate(Way.PER_TAPE, Decimal(1400)),
        },
        repairs={"splice": Rate("splice", "splice", Decimal(1800))},
        media={"dvd-r": Rate("dvd-r", "DVD-R disc", Decimal(500))},
        rush_percent=Decimal(30),
        breaks=breaks,
        minimum_minor=minimum,
        deposit_percent=Decimal(30),
        ceiling_percent=Decimal(5),
    )


def utc(*parts: int) -> datetime:
    return datetime(*parts, tzinfo=UTC)  # type: ignore[arg-type,misc]  # year, month, day, hour, minute
