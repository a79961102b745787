"""The chapters of the Shop screen: records turned into slips to read."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from PySide6.QtWidgets import QWidget

from core.catalogue.cassettes import Format, Marking, Sourced
from core.catalogue.formats import catalogue
from core.model.names import FormatName, Speed
from core.model.settings_records import Deck, ShopSettings
from core.model.stations import Station
from core.pricing.price_book import CaptureRate, PriceBook
from core.pricing.price_book_file import Way
from core.services import figure_sources
from core.services.figure_sources import SourcedFigure
from core.services.promises import Kept
from core.services.shop_overview import COMING_DAYS, ShopView
from gui.shop.deck_week_drawing import DeckWeek, legend
from gui.toolkit import text, theme
from gui.toolkit.text import day, money, say, times_in_twenty
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import rule, slip, stacked, words

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_DONE = (Station.READY, Station.HANDED_BACK)
_LOST = 0.05
"""Less than one time in twenty."""
_HEADS = 20 * theme.UNIT


def week(view: ShopView) -> QWidget:
    """The decks this week, days off, what could not be placed, and whom to call about it."""
    both = QWidget()
    column = stacked(both, 2 * theme.UNIT)
    column.addWidget(_decks_week(view))
    if any(kept.is_at_risk for kept in view.promises):
        column.addWidget(promises(view, only_risky=True))
    return both


def _decks_week(view: ShopView) -> QWidget:
    paper, column = slip("chapter-week")
    column.addWidget(words(say("shop", "week"), "heading"))
    picture = DeckWeek()
    picture.show_week(view.week)
    column.addWidget(picture)
    column.addWidget(legend())
    if view.week.unplaced:
        key = "unplaced_one" if view.week.unplaced == 1 else "unplaced"
        column.addWidget(words(say("shop", key, count=view.week.unplaced)))
    for when, why in view.week.shut:
        column.addWidget(words(say("shop", "shut_day", day=day(when), why=why), "small"))
    return paper


def promises(view: ShopView, *, only_risky: bool = False) -> QWidget:
    """Every open promise, those to call about first."""
    paper, column = slip("chapter-promises")
    risky = [kept for kept in view.promises if kept.is_at_risk]
    well = [] if only_risky else [kept for kept in view.promises if not kept.is_at_risk]
    if not view.promises:
        column.addWidget(words(say("shop", "no_promises"), "lead"))
    for head, role, some in (("call_first", "attention", risky), ("kept_well", "field", well)):
        if some:
            column.addWidget(words(say("shop", head), role))
        for kept in some:
            column.addWidget(_promise(kept))
            column.addWidget(rule())
    return paper


def fittings(view: ShopView) -> QWidget:
    """Decks, hours, days off, people."""
    paper, column = slip("chapter-decks")
    fitted = view.fittings
    machines = FactList(_HEADS)
    for deck in fitted.decks:
        machines.add(deck.name, [_deck(deck)])
    column.addWidget(words(say("shop", "machines"), "heading"))
    column.addWidget(machines)
    column.addWidget(rule())
    facts = FactList(_HEADS)
    facts.add(say("shop", "hours"), _hours(fitted))
    shut = [say("shop", "shut_day", day=day(when), why=why) for when, why in view.shut]
    facts.add(say("shop", "shut_coming"), shut or [say("shop", "none_shut", days=COMING_DAYS)])
    facts.add("", [say("shop", "past_closing", minutes=fitted.past_closing_minutes)])
    facts.add(say("shop", "people"), [str(fitted.people)])
    facts.add("", [say("shop", "confidence", times=times_in_twenty(fitted.confidence))])
    front = fitted.front
    facts.add(say("shop", "front"), [front.name, *front.address, front.phone])
    column.addWidget(facts)
    return paper


def prices(view: ShopView) -> QWidget:
    """The price book in force, in full."""
    paper, column = slip("chapter-prices")
    book = view.book
    column.addWidget(words(say("shop", "book", name=book.name, day=day(book.valid_from)), "heading"))
    if book.invented:
        column.addWidget(words(say("shop", "invented"), "attention"))
    column.addWidget(words(book.remark, "small"))
    facts = FactList(_HEADS)
    capture = [f"{_words(name)}: {_rate(rate, book)}" for name, rate in book.capture.items()]
    facts.add(say("shop", "capture"), capture)
    facts.add(say("shop", "repairs"), [f"{r.words}: {_money(r.minor, book)}" for r in book.repairs.values()])
    facts.add(say("shop", "media"), [f"{r.words}: {_money(r.minor, book)}" for r in book.media.values()])
    facts.add(say("shop", "terms"), list(_terms(book)))
    column.addWidget(facts)
    return paper


def grounds(view: ShopView) -> QWidget:
    """Every value of the catalogue with its source and what kind of source it is."""
    paper, column = slip("chapter-grounds")
    for form in catalogue().formats:
        column.addWidget(words(form.words, "heading"))
        column.addWidget(_grounds_of(form))
    others = FactList(_HEADS)
    for head, found in (
        ("packs", figure_sources.of_packs()),
        ("copies_of", figure_sources.of_media()),
        ("bench_times", figure_sources.of_repairs()),
    ):
        others.add(say("shop", head), _facts(found), "small")
    column.addWidget(words(say("shop", "other_grounds"), "heading"))
    column.addWidget(others)
    return paper


def _grounds_of(form: Format) -> FactList:
    facts = FactList(_HEADS)
    width, depth, height = form.shell.value
    source = sourced(form.shell)
    facts.add(
        say("shop", "shell"),
        [say("shop", "shell_words", width=width, depth=depth, height=height, source=source)],
    )
    tape = form.tape_width_mm
    wide = say("shop", "tape_width_words", width=tape.value, source=sourced(tape))
    facts.add(say("shop", "tape_width"), [wide])
    facts.add(say("shop", "speeds"), _speeds(form))
    facts.add("", [_marking(marking) for marking in form.markings], "small")
    facts.add(say("shop", "reels"), _facts(figure_sources.of_format(form)), "small")
    return facts


def _facts(found: Iterable[SourcedFigure]) -> list[str]:
    return [f"{each.what}: {each.figure} — {sourced(each.source)}" for each in found]


def sourced(value: Sourced[Any]) -> str:
    """Where a value comes from; a value without a source says so."""
    mark = value.mark.replace("-", " ")
    if value.source.startswith(f"{mark},"):
        return value.source
    return f"{value.source} ({mark})" if value.source.strip() else f"{say('shop', 'no_source')} ({mark})"


def _promise(kept: Kept) -> QWidget:
    box = QWidget()
    column = stacked(box, 2)
    job = kept.job
    number = job.customer.phone
    phone = say("shop", "phone", phone=text.phone(number)) if number else say("shop", "no_phone")
    column.addWidget(words(f"{job.customer.name} · {job.number} · {phone}"))
    column.addWidget(words(_promised(kept), "attention" if kept.is_at_risk else ""))
    if kept.held_by:
        column.addWidget(words(say("shop", "held_by", reasons="; ".join(kept.held_by)), "small"))
    if kept.changes and kept.is_at_risk:
        column.addWidget(words(say("shop", "changed", changes="; ".join(kept.changes)), "small"))
    return box


def _promised(kept: Kept) -> str:
    if kept.promise.day is None or kept.chance is None:
        return say("shop", "no_day")
    words_of_day = say("shop", "promised_for", day=day(kept.promise.day))
    if all(tape.station in _DONE for tape in kept.job.tapes):
        return f"{words_of_day}: {say('shop', 'ready')}"
    now, before = times_in_twenty(kept.chance), times_in_twenty(kept.promise.stated)
    if kept.chance < _LOST:
        return f"{words_of_day}: {say('shop', 'lost', before=before)}"
    return f"{words_of_day}: {now if now == before else say('shop', 'chance', times=now, before=before)}"


def _words(name: FormatName) -> str:
    return catalogue().format(name).words


def _deck(deck: Deck) -> str:
    """What one deck plays, on one line."""
    speeds = [speed.words for speed in Speed if speed.value in deck.speeds]
    parts = [
        ", ".join(map(_words, sorted(deck.plays))),
        ", ".join(sorted(deck.tv)).upper(),
        ", ".join(speeds),
    ]
    if not deck.in_service:
        parts.append(say("shop", "out_of_service"))
    return " · ".join(part for part in parts if part)


def _hours(fitted: ShopSettings) -> list[str]:
    lines = []
    for number, weekday in enumerate(_WEEKDAYS):
        spans = [f"{_clock(o.start)}–{_clock(o.end)}" for o in fitted.openings if o.weekday == number]
        lines.append(f"{weekday}: {', '.join(spans) or say('shop', 'closed_weekday')}")
    return lines


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _rate(rate: CaptureRate, book: PriceBook) -> str:
    price = _money(rate.minor, book)
    if rate.way is Way.PER_PERIOD:
        return say("shop", "per_period", price=price, minutes=rate.period_minutes)
    return say("shop", "per_tape" if rate.way is Way.PER_TAPE else "per_hour", price=price)


def _money(minor: Decimal | int, book: PriceBook) -> str:
    """Exact rates are shown as they are; most are whole minor units."""
    exact = Decimal(minor)
    if exact == exact.to_integral_value():
        return money(int(exact), book.currency)
    return f"{exact.scaleb(-book.minor_digits)} {book.currency}"


def _terms(book: PriceBook) -> Iterable[str]:
    yield book.tax.words
    yield book.tax.remark
    yield say("shop", "rush", percent=_percent(book.rush_percent))
    for one in book.breaks:
        yield say("shop", "break", tape=_ordinal(one.after + 1), percent=_percent(one.percent))
    yield say("shop", "minimum", price=_money(book.minimum_minor, book))
    yield say("shop", "deposit", percent=_percent(book.deposit_percent))
    yield say("shop", "ceiling", percent=_percent(book.ceiling_percent))
    yield say("shop", "valid", days=book.quote_valid_days)


def _percent(value: Decimal) -> str:
    return f"{value.normalize():f}"


def _ordinal(number: int) -> str:
    ending = "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def _speeds(form: Format) -> Sequence[str]:
    return [
        say(
            "shop",
            "speed_words",
            speed=one.speed.words,
            tv=f" {one.tv.value.upper()}" if one.tv else "",
            mm_s=f"{one.mm_s.value:g}",
            source=sourced(one.mm_s),
        )
        for one in form.tape_speeds
    ]


def _marking(marking: Marking) -> str:
    return say(
        "shop",
        "marking_words",
        name=marking.name,
        minutes=f"{marking.minutes:g}",
        metres=f"{marking.metres.value:g}",
        source=sourced(marking.metres),
    )
