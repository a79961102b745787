"""The whole quote of a box at one moment: play times, verdicts, price, date, questions and warnings.

Pure and quick enough to run at every key: what belongs to one frozen line is remembered, and the
queue comes already worked through.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from functools import lru_cache

from core.catalogue import acclimatisation, condition, formats
from core.model import common_random_numbers
from core.model.errors import WrongInput
from core.model.inventory import MOST_TAPES, Inventory, TapeLine
from core.model.names import TvSystem
from core.model.own_shop.settings_records import Deck, Partner, ShopSettings
from core.model.promise_records import Promise
from core.model.quote_records import Answer, Question, Quote, QuotedTape, Storage
from core.model.ranges import ZERO, Range
from core.playtime import (
    box_habits,
    doubted_systems,
    length_doubts,
    possibilities,
    questions,
    tape_minutes,
)
from core.playtime.box_habits import Box
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.questions import BoxLine
from core.pricing import (
    bitrates,
    charges,
    copy_minutes,
    copy_sizes,
    recorded_minutes,
    savings,
    ways_to_agree,
)
from core.pricing.drawn_box import AlikeTapes
from core.pricing.price_book import PriceBook
from core.pricing.ways_to_agree import PricedBox
from core.promise import chances, promise_basis, stated_dates, turnaround
from core.scheduling import box_scenarios, opening_hours, partner_choice
from core.scheduling.deck_choice import suited
from core.wording import locale_figures
from core.wording.messages import say, worded_cache

_SCENARIOS_TO_ASK = 256
"""Enough to tell which question takes off more."""


@dataclass(frozen=True, slots=True, eq=False)
class ShopSnapshot:
    """The shop at one moment: what a quote is made against, read once and asked at every key."""

    settings: ShopSettings
    book: PriceBook
    load: turnaround.Load
    """The queue, already worked through."""
    now: datetime
    """When it was read, as the clock on the shop's wall shows it."""
    habits: ShopHabits = STARTING
    """What the shop has learned of its customers' tapes."""

    @property
    def today(self) -> date:
        return opening_hours.today(self.settings, self.now)

    def quote(self, inventory: Inventory, now: datetime) -> Quote:
        """`quote` of a box at ``now``."""
        return quote(inventory, replace(self, now=now.astimezone(self.now.tzinfo)))

    def at_once(self, inventory: Inventory, last: Quote | None, now: datetime) -> Quote:
        """`at_once` of a box at ``now``."""
        return at_once(inventory, last, replace(self, now=now.astimezone(self.now.tzinfo)))


def quote(inventory: Inventory, shop: ShopSnapshot) -> Quote:
    """The quote of a box; stores nothing.

    Hours and price are those of all tapes together, which a box's habits make long or short together; the
    charge of a line is the sum of what each of its tapes by itself would cost. WrongInput for what the
    catalogue, the media or the book do not know.
    """
    made = at_once(inventory, None, shop)
    made = replace(made, promise=_promise(shop, made, inventory.rush))
    if inventory.rush:
        made = replace(made, without_rush=_promise(shop, made, rush=False).day)
    return replace(
        made,
        questions=tuple(_with_prices(asked(inventory, made.tapes, shop.habits), inventory, shop)),
        warnings=tuple(dict.fromkeys(_warnings(made, shop))),
    )


def at_once(inventory: Inventory, last: Quote | None, shop: ShopSnapshot) -> Quote:
    """What can be said of a box while it is typed: tapes, hours, copies and price are new.

    Day, warnings, the flat sum where it was not chosen and the questions that still have a line are those of
    ``last``, until `quote` follows; without a last quote the promise names neither a day nor a reason.
    """
    tapes = quoted_tapes(inventory, shop.habits, shop.settings, shop.book)
    playing = _box_lines(inventory, tapes)
    minutes = _together(playing, shop.habits)
    storage = _storage(minutes, tapes, inventory, shop.book)
    box = _priced_box(inventory, tapes, storage, shop.habits, playing)
    price, ways = ways_to_agree.priced(box, shop.book, inventory.way, last.ways if last else None)
    open_questions = last.questions if last else ()
    return Quote(
        inventory=inventory,
        book=shop.book.name,
        made_at=shop.now,
        valid_until=shop.today + timedelta(days=shop.book.quote_valid_days),
        tapes=tapes,
        capture_hours=minutes.times(1 / 60),
        price=price,
        storage=storage,
        promise=last.promise if last else stated_dates.not_yet(shop.load.made_at),
        questions=tuple(question for question in open_questions if question.line <= len(inventory.lines)),
        warnings=last.warnings if last else (),
        example_prices=shop.book.invented and not shop.settings.front.practice,
        ways=ways,
        own_tapes=shop.habits.captures,
    )


def priced_box(
    inventory: Inventory, tapes: Sequence[QuotedTape], storage: Storage, habits: ShopHabits
) -> PricedBox:
    """The box as the ways to agree on its price are worked out from it."""
    return _priced_box(inventory, tapes, storage, habits, _box_lines(inventory, tapes))


def _priced_box(
    inventory: Inventory,
    tapes: Sequence[QuotedTape],
    storage: Storage,
    habits: ShopHabits,
    playing: Sequence[BoxLine],
) -> PricedBox:
    first = {tape.line: tape for tape in tapes if tape.n == 1}
    lots = (AlikeTapes(first[each.position], each.known, each.keys) for each in playing)
    return PricedBox(
        tuple(tapes), tuple(lots), storage, draws_of(habits), inventory.rush, inventory.tax_exempt
    )


def _promise(shop: ShopSnapshot, made: Quote, rush: bool) -> Promise:
    """The date of the plan, moved as promises turned out, with what it was made against."""
    inventory, tapes = made.inventory, made.tapes
    load, rests = shop.load, acclimatisation.hours_to_rest(inventory.cold)
    away = [tape.verdict.elsewhere for tape in tapes]
    if tapes and all(away):
        whys = dict.fromkeys(each.why.rstrip(".") for each in away if each)
        return replace(stated_dates.not_yet(load.made_at), held_by=tuple(whys))
    copying = copy_minutes.of_order(load.settings.copying, inventory.deliver, made.storage)
    planned = turnaround.promise(load, tapes, rush, inventory.needed_by, shop.habits, rests, copying)
    return replace(planned, basis=promise_basis.of(load.settings, load.tapes_waiting))


def asked(inventory: Inventory, tapes: Sequence[QuotedTape], habits: ShopHabits) -> tuple[Question, ...]:
    """What to ask about a box of these tapes, the question that takes off most first."""
    return questions.questions(_box_lines(inventory, tapes), box_scenarios.of(habits, _SCENARIOS_TO_ASK))


def _with_prices(found: Sequence[Question], box: Inventory, shop: ShopSnapshot) -> Iterator[Question]:
    """The questions; where marking and box tell two TV systems, each answer with what the box then costs."""
    for question in found:
        if doubted_systems.asks(question, box):
            answers = tuple(_with_price(answer, question.line, box, shop) for answer in question.answers)
            yield replace(question, answers=answers)
        else:
            yield question


def _with_price(answer: Answer, position: int, box: Inventory, shop: ShopSnapshot) -> Answer:
    lines = (*box.lines[: position - 1], answer.draft, *box.lines[position:])
    due = at_once(replace(box, lines=lines), None, shop).price.due
    return doubted_systems.priced(answer, shop.book.spelled(due.likely))


def draws_of(habits: ShopHabits) -> Box:
    """What the hours and the flat sum of a box on the counter are drawn from."""
    return box_scenarios.of(habits)


def _storage(minutes: Range, tapes: Sequence[QuotedTape], inventory: Inventory, book: PriceBook) -> Storage:
    """What the copies take up, with what would be cheaper among its notes."""
    minutes, each = recorded_minutes.of_box(minutes, tapes)
    tv = bitrates.tv_of(tape.draft.tv for tape in tapes)
    found = copy_sizes.storage(minutes, each, inventory.deliver, tv)
    return replace(found, notes=found.notes + savings.cheaper(minutes, each, inventory.deliver, book, tv))


def tapes_and_copies(inventory: Inventory, habits: ShopHabits) -> tuple[tuple[QuotedTape, ...], Storage]:
    """The tapes of a box and what its copies take up: all that a price is made from besides the book."""
    tapes = quoted_tapes(inventory, habits)
    minutes = _together(_box_lines(inventory, tapes), habits)
    tv = bitrates.tv_of(tape.draft.tv for tape in tapes)
    return tapes, copy_sizes.storage(*recorded_minutes.of_box(minutes, tapes), inventory.deliver, tv)


def quoted_tapes(
    inventory: Inventory,
    shop: ShopHabits = STARTING,
    settings: ShopSettings | None = None,
    book: PriceBook | None = None,
) -> tuple[QuotedTape, ...]:
    """Every cassette of the box with its believed minutes and its verdict.

    What no deck of ``settings`` can play, or ``book`` has no price for, is not for this shop; None: nobody
    asks for them.
    """
    count = sum(line.count for line in inventory.lines)
    if count > MOST_TAPES:
        raise WrongInput(say("quotes", "tapes"), count, say("quotes", "most_tapes", most=MOST_TAPES))
    numbered = enumerate(inventory.lines, 1)
    decks, partners = (settings.decks, settings.partners) if settings else ((), ())
    return tuple(
        tape
        for n, line in numbered
        for tape in _tapes_of(
            n,
            line,
            inventory.tv_of(line),
            shop,
            decks,
            partners,
            book is None or charges.is_priced(line, book),
        )
    )


@worded_cache(maxsize=2048)
def _tapes_of(
    position: int,
    line: TapeLine,
    tv: TvSystem | None,
    shop: ShopHabits,
    decks: tuple[Deck, ...],
    partners: tuple[Partner, ...],
    is_priced: bool,
) -> tuple[QuotedTape, ...]:
    draft = possibilities.out_of_box(line, tv)
    elsewhere = partner_choice.elsewhere(decks, partners, draft, is_priced=is_priced)
    verdict = condition.verdict(line.findings, line.format, elsewhere)
    believed = tape_minutes.belief(line, tv, shop).range
    minutes = believed if verdict.is_worked_on else ZERO
    return tuple(QuotedTape(position, n, draft, minutes, verdict) for n in range(1, line.count + 1))


def _box_lines(inventory: Inventory, tapes: Sequence[QuotedTape]) -> tuple[BoxLine, ...]:
    """The lines that will be played, each with the numbers of its tapes."""
    playing = {tape.line for tape in tapes if tape.verdict.is_worked_on}
    return tuple(
        BoxLine(position, line, inventory.tv_of(line), _keys(position, line.count))
        for position, line in enumerate(inventory.lines, 1)
        if position in playing
    )


def _together(lines: Sequence[BoxLine], shop: ShopHabits) -> Range:
    """Minutes of the whole box."""
    lots = ((each.known, each.keys) for each in lines)
    together = box_habits.minutes_of_box(lots, box_scenarios.of(shop))
    return box_habits.range_of(together, shop.levels)


@lru_cache(maxsize=2048)
def _keys(position: int, count: int) -> tuple[int, ...]:
    return tuple(common_random_numbers.key(position, n) for n in range(1, count + 1))


def _warnings(made: Quote, shop: ShopSnapshot) -> Iterator[str]:
    for tape in made.tapes:
        if tape.n == 1:
            yield from _line_warnings(tape, made.inventory, shop)
    yield from made.storage.notes
    if made.promise.day is None and made.tapes:
        yield say("quotes", "no_date", reasons="; ".join(made.promise.held_by))
    yield from _needed_by(made, shop)
    yield from _rush_needed(made, shop)
    if made.inventory.cold:
        yield say("quotes", "came_in_cold", hours=acclimatisation.hours_to_rest(True))
    ours, theirs = shop.settings.front.currency, shop.book.currency
    if theirs != ours:
        yield say("quotes", "other_currency", book=shop.book.name, theirs=theirs, ours=ours)


def _line_warnings(tape: QuotedTape, box: Inventory, shop: ShopSnapshot) -> Iterator[str]:
    """What must be known of one line of the box, told for its first tape."""
    draft, told = tape.draft, list(tape.verdict.told)
    if tape.verdict.is_worked_on:
        choice = suited(shop.settings.decks, draft.format, draft.recorded_as, draft.tv, draft.speed)
        told += [f"{choice.doubt}."] if choice.doubt else []
        told += _read_by_rule(draft)
        told += doubted_systems.warnings(draft, box.tv)
        told += [doubt.words] if (doubt := length_doubts.of_fill(draft)) else []
        if choice.decks and turnaround.is_overlong(shop.load, tape):
            told.append(say("quotes", "overlong"))
    words = formats.catalogue().format(draft.format).words
    for sentence in told:
        yield say("quotes", "about_tapes", count=draft.count, format=words, sentence=sentence)


def _read_by_rule(draft: TapeLine) -> Iterator[str]:
    """That the catalogue does not list the marking, and what was read from it."""
    marking = formats.catalogue().format(draft.format).marking(draft.marking, draft.tv)
    if marking is None or marking.rule is None or marking.unit is not None:
        return
    speed, system = marking.nominal_speed.words, formats.catalogue().format(marking.nominal_system).words
    minutes, metres = round(marking.minutes), round(marking.metres.value)
    key = "told_minutes" if marking.is_told else "read_by_rule"
    yield say("quotes", key, marking=marking.name, minutes=minutes, metres=metres, speed=speed, system=system)


def _needed_by(made: Quote, shop: ShopSnapshot) -> Iterator[str]:
    """What the customer must hear when the date comes after the day the box is needed."""
    wanted, promise = made.inventory.needed_by, made.promise
    if wanted is None or (promise.day is not None and promise.day <= wanted):
        return
    chance, by = chances.words(stated_dates.chance_by(promise, wanted)), locale_figures.day(wanted)
    if promise.day is None:
        yield say("quotes", "needed_no_date", wanted=by, chance=chance)
    else:
        day = locale_figures.day(promise.day)
        yield say("quotes", "needed_earlier", wanted=by, promised=day, chance=chance)
    if not made.inventory.rush:
        yield _as_rush(made, shop)


def _rush_needed(made: Quote, shop: ShopSnapshot) -> Iterator[str]:
    """Whether the rush that is asked for is needed at all, and when the box would be ready without it."""
    plain, day = made.without_rush, made.promise.day
    if plain is None or day is None:
        return
    cheaper = _priced_at(made, shop, rush=False)
    agreed = made.price.due.likely if made.ways is None else made.ways.by_play.likely
    less = shop.book.spelled(agreed - cheaper)
    words = locale_figures.day(plain)
    if made.needs_rush:
        yield say("quotes", "rush_gains", day=words, days=(plain - day).days, less=less)
    elif day < plain:
        yield say("quotes", "rush_not_needed_yet", day=words, less=less)
    else:
        yield say("quotes", "rush_not_needed", day=words, less=less)


def _as_rush(made: Quote, shop: ShopSnapshot) -> str:
    hurried = _promise(shop, made, True)
    if hurried.day is None:
        return say("quotes", "rush_no_date")
    if made.promise.day is not None and hurried.day >= made.promise.day:
        return say("quotes", "rush_no_earlier")
    dearer = _priced_at(made, shop, rush=True)
    plain = made.price.due.likely if made.ways is None else made.ways.by_play.likely
    more = shop.book.spelled(dearer - plain)
    return say("quotes", "rush_earlier", day=locale_figures.day(hurried.day), more=more)


def _priced_at(made: Quote, shop: ShopSnapshot, *, rush: bool) -> int:
    """What the box is likely to come to by what it plays, with rush or without."""
    box = priced_box(made.inventory, made.tapes, made.storage, shop.habits)
    return ways_to_agree.price_by_play(replace(box, rush=rush), shop.book).due.likely
