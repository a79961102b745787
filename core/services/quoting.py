"""The whole quote of a box at one moment: play times, verdicts, price, date, questions and warnings.

Pure and quick enough to run at every key: what belongs to one frozen line is remembered, and the
queue comes already worked through.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import lru_cache

from core.catalogue import acclimatisation, condition, formats
from core.model import common_random_numbers
from core.model.errors import WrongInput
from core.model.inventory import MOST_TAPES, Inventory, TapeLine
from core.model.names import Outcome, TvSystem
from core.model.promise_records import Promise
from core.model.quote_records import Price, Quote, QuotedTape, Storage
from core.model.ranges import ZERO, Range
from core.model.settings_records import ShopSettings
from core.playtime import box_habits, questions, tape_minutes
from core.playtime.box_habits import Box
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.questions import BoxLine
from core.pricing import box_price, copy_sizes, savings
from core.pricing.price_book import PriceBook
from core.promise import chances, late_correction, promise_basis, stated_dates, turnaround
from core.scheduling import opening_hours
from core.scheduling.deck_choice import suited
from core.scheduling.plan_records import SEED
from core.wording import locale_figures

_SCENARIOS = 1000
"""The 90th percentile of hours is then known to one point in a hundred (derived: √(0.9 × 0.1 ÷ 1,000))."""
_SCENARIOS_TO_ASK = 256
"""Enough to tell which question takes off more."""


def quote(
    inventory: Inventory,
    *,
    book: PriceBook,
    fittings: ShopSettings,
    load: turnaround.Load,
    now: datetime,
    shop: ShopHabits = STARTING,
) -> Quote:
    """The quote; stores nothing. ``shop`` is what the shop has learned of its customers' tapes.

    The hours are those of all tapes together, which a box's habits make long or short together; the
    charges are sums of what each tape by itself would cost. WrongInput for what the catalogue, the media
    or the book do not know.
    """
    made = at_once(inventory, None, book=book, fittings=fittings, load=load, now=now, shop=shop)
    tapes = made.tapes
    promise = _promise(load, tapes, inventory, inventory.rush, shop)
    asked = _Asked(inventory, tapes, made.storage, made.price, promise, book, fittings, load, shop)
    return replace(
        made,
        promise=promise,
        questions=questions.questions(_asked_about(inventory, tapes), _box(_SCENARIOS_TO_ASK, shop)),
        warnings=tuple(dict.fromkeys(_warnings(asked))),
    )


def at_once(
    inventory: Inventory,
    last: Quote | None,
    *,
    book: PriceBook,
    fittings: ShopSettings,
    load: turnaround.Load,
    now: datetime,
    shop: ShopHabits = STARTING,
) -> Quote:
    """What can be said of a box while it is typed: tapes, hours, copies and price are new.

    Day, warnings and the questions that still have a line are those of ``last``, until `quote` follows;
    without a last quote there are none yet, and the promise names neither a day nor a reason.
    """
    tapes = quoted_tapes(inventory, shop)
    minutes = _together(_asked_about(inventory, tapes), shop)
    storage = _storage(minutes, tapes, inventory, book)
    asked = last.questions if last else ()
    return Quote(
        inventory=inventory,
        book=book.name,
        made_at=now,
        valid_until=opening_hours.today(fittings, now) + timedelta(days=book.quote_valid_days),
        tapes=tapes,
        capture_hours=minutes.times(1 / 60),
        price=box_price.price(tapes, storage, book, rush=inventory.rush),
        storage=storage,
        promise=last.promise if last else stated_dates.not_yet(load.made_at),
        questions=tuple(question for question in asked if question.line <= len(inventory.lines)),
        warnings=last.warnings if last else (),
    )


def _promise(
    load: turnaround.Load, tapes: Sequence[QuotedTape], inventory: Inventory, rush: bool, shop: ShopHabits
) -> Promise:
    """The date of the plan, guarded where boxes ran late lately, with the shop it stands on."""
    rests = acclimatisation.hours_to_rest(inventory.cold)
    planned = turnaround.promise(load, tapes, rush, inventory.needed_by, shop, rests)
    safe = late_correction.guarded(planned, load.fittings.expected.overrun, load.calendar.days)
    return replace(safe, footing=promise_basis.of(load))


def _storage(minutes: Range, tapes: Sequence[QuotedTape], inventory: Inventory, book: PriceBook) -> Storage:
    """What the copies take up, with what would be cheaper among its notes."""
    each = [tape.minutes for tape in tapes]
    found = copy_sizes.storage(minutes, each, inventory.deliver)
    return replace(found, notes=found.notes + savings.cheaper(minutes, each, inventory.deliver, book))


def quoted_tapes(inventory: Inventory, shop: ShopHabits = STARTING) -> tuple[QuotedTape, ...]:
    """Every cassette of the box with its believed minutes and its verdict."""
    count = sum(line.count for line in inventory.lines)
    if count > MOST_TAPES:
        raise WrongInput(
            "tapes", count, f"up to {MOST_TAPES} tapes are accepted in one job; book several jobs"
        )
    numbered = enumerate(inventory.lines, 1)
    return tuple(tape for n, line in numbered for tape in _tapes_of(n, line, inventory.tv_of(line), shop))


@dataclass(frozen=True, slots=True, eq=False)
class _Asked:
    """What warnings are made from."""

    inventory: Inventory
    tapes: tuple[QuotedTape, ...]
    storage: Storage
    price: Price
    promise: Promise
    book: PriceBook
    fittings: ShopSettings
    load: turnaround.Load
    shop: ShopHabits


@lru_cache(maxsize=2048)
def _tapes_of(position: int, line: TapeLine, tv: TvSystem | None, shop: ShopHabits) -> tuple[QuotedTape, ...]:
    verdict = condition.verdict(line.findings, line.format)
    believed = tape_minutes.belief(line, tv, shop).range
    minutes = ZERO if verdict.outcome is Outcome.CANNOT else believed
    draft = replace(line, tv=tv)  # so that the tape keeps it when it leaves its box
    return tuple(QuotedTape(position, n, draft, minutes, verdict) for n in range(1, line.count + 1))


def _asked_about(inventory: Inventory, tapes: Sequence[QuotedTape]) -> tuple[BoxLine, ...]:
    """The lines that will be played, each with the numbers of its tapes."""
    playing = {tape.line for tape in tapes if tape.verdict.outcome is not Outcome.CANNOT}
    return tuple(
        BoxLine(position, line, inventory.tv_of(line), _keys(position, line.count))
        for position, line in enumerate(inventory.lines, 1)
        if position in playing
    )


def _together(asked: Sequence[BoxLine], shop: ShopHabits) -> Range:
    """Minutes of the whole box."""
    lots = ((each.known, each.keys) for each in asked)
    together = box_habits.minutes_of_box(lots, _box(_SCENARIOS, shop))
    return box_habits.range_of(together, shop.levels)


@lru_cache(maxsize=8)
def _box(scenarios: int, shop: ShopHabits) -> Box:
    return Box(common_random_numbers.key("box"), SEED, scenarios, shop)


@lru_cache(maxsize=2048)
def _keys(position: int, count: int) -> tuple[int, ...]:
    return tuple(common_random_numbers.key(position, n) for n in range(1, count + 1))


def _warnings(asked: _Asked) -> Iterator[str]:
    for tapes in _first_of_each_line(asked.tapes):
        yield from _line_warnings(tapes, asked)
    yield from asked.storage.notes
    if asked.promise.day is None and asked.tapes:
        yield f"No date can be given: {'; '.join(asked.promise.held_by)}."
    yield from _needed_by(asked)
    if asked.inventory.cold:
        hours_of = acclimatisation.hours_to_rest(True)
        yield f"The box came in cold and rests {hours_of:g} hours before it plays, so that no damp is on it."
    ours = asked.fittings.front.currency
    if asked.book.currency != ours:
        yield f"{asked.book.name} is in {asked.book.currency}, the shop keeps its till in {ours}."


def _first_of_each_line(tapes: Sequence[QuotedTape]) -> list[QuotedTape]:
    return [tape for tape in tapes if tape.n == 1]


def _line_warnings(tape: QuotedTape, asked: _Asked) -> Iterator[str]:
    draft = tape.draft
    named = f"{draft.count} × {formats.catalogue().format(draft.format).words}"
    for sentence in tape.verdict.told:
        yield f"{named}: {sentence}"
    if tape.verdict.outcome is Outcome.CANNOT:
        return
    choice = suited(asked.fittings.decks, draft.format, draft.recorded_as, draft.tv, draft.speed)
    if choice.doubt:
        yield f"{named}: {choice.doubt}."
    if choice.decks and turnaround.is_overlong(asked.load, tape):
        yield f"{named}: may play longer than any opening; it would run on after closing."


def _needed_by(asked: _Asked) -> Iterator[str]:
    """What the customer must hear when the date comes after the day the box is needed."""
    wanted, promise = asked.inventory.needed_by, asked.promise
    if wanted is None or (promise.day is not None and promise.day <= wanted):
        return
    chance = chances.words(stated_dates.chance_by(promise, wanted))
    promised = f"promised is {locale_figures.day(promise.day)}" if promise.day else "no date can be promised"
    yield f"Needed by {locale_figures.day(wanted)}, but {promised}; ready by then {chance}."
    if not asked.inventory.rush:
        yield _as_rush(asked)


def _as_rush(asked: _Asked) -> str:
    hurried = _promise(asked.load, asked.tapes, asked.inventory, True, asked.shop)
    if hurried.day is None:
        return "Rush would not give a date either."
    if asked.promise.day is not None and hurried.day >= asked.promise.day:
        return "A rush box would not be ready any earlier."
    dearer = box_price.price(asked.tapes, asked.storage, asked.book, rush=True)
    more = asked.book.spelled(dearer.gross.likely - asked.price.gross.likely)
    return f"As a rush box it would be {locale_figures.day(hurried.day)}, for about {more} more."
