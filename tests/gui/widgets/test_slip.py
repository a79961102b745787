"""The slip and its dots, drawn from records."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.catalogue import formats
from core.model.money import MoneyRange, flat, total
from core.model.price_terms import TaxAmount
from core.model.promise_records import Chance, Promise
from gui.toolkit import text, theme
from gui.toolkit.text import say
from gui.widgets import slip_lines
from gui.widgets.cassette_drawing import largest_shell, paint_cassette, shell
from gui.widgets.not_for_reuse_strip import NotForReuseStrip, band_size, paint_band
from gui.widgets.slip import Slip
from gui.widgets.slip_roll import SlipRoll
from gui.widgets.twenty_dots import columns, in_words, twenty
from tests.support.booked import Desk, line, quoted

MADE = datetime(2026, 3, 3, 14, 0, tzinfo=UTC)


@pytest.fixture(autouse=True)
def dressed(qapp: QApplication) -> None:
    theme.apply(qapp)


def promise(*by: float, day: int | None = 2, stated: float = 0.9) -> Promise:
    """A curve that begins on 3 March; ``day`` counts from there."""
    days = [MADE.date() + timedelta(days=n) for n in range(len(by))]
    promised = None if day is None else MADE.date() + timedelta(days=day)
    chances = tuple(Chance(each, share) for each, share in zip(days, by, strict=True))
    return Promise(promised, stated, None, None, ("a deck",), chances, MADE)


# --- dots --------------------------------------------------------------------------------


def test_each_dot_is_one_chance_in_twenty() -> None:
    dots = twenty(promise(0.0, 0.5, 0.9, 1.0))
    march = [date(2026, 3, day) for day in (3, 4, 5, 6)]
    assert [dots.count(day) for day in march] == [0, 10, 8, 2]


def test_dots_beyond_the_curve_are_later_and_missed() -> None:
    shown = columns(promise(0.5, 0.8, day=1, stated=0.8))
    assert [(column.day, column.count, column.kept) for column in shown][-1] == (None, 4, False)


def test_dots_after_the_promised_day_are_missed() -> None:
    shown = columns(promise(0.0, 0.5, 0.9, 1.0))
    assert [column.kept for column in shown] == [True, True, True, False]
    assert sum(column.count for column in shown if column.kept) == 18


def test_the_axis_is_every_day_and_never_longer_than_four_weeks() -> None:
    far = promise(*([0.0] * 60), 0.95, 1.0, day=60)
    shown = columns(far)
    assert len(shown) <= 28
    days = [column.day for column in shown if column.day is not None]
    assert days == [days[0] + timedelta(days=n) for n in range(len(days))]


def test_no_promise_no_dots() -> None:
    assert columns(promise(day=None)) == ()
    assert in_words(promise(day=None)) == "No day can be shown yet."


def test_the_dots_are_said_in_words() -> None:
    said = in_words(promise(0.0, 0.5, 0.9, 1.0))
    assert "10 on Wed, Mar 4" in said
    assert "Promised: Thursday, March 5" in said


# --- the slip ----------------------------------------------------------------------------


def test_every_charge_stands_on_the_slip_with_its_reason(file_desk: Desk) -> None:
    quote = quoted(file_desk.shop, line(count=6), line("hi8", marking="P6-120"))
    lines = slip_lines.charge_lines(quote)
    assert [(each.words, each.because) for each in lines] == [
        (charge.text, charge.because) for charge in quote.price.charges
    ]
    assert total(charge.amount for charge in quote.price.charges) == quote.price.net


def test_the_sums_name_net_tax_price_ceiling_and_deposit(file_desk: Desk) -> None:
    quote = quoted(file_desk.shop, line(count=6))
    words = " ".join(f"{each.words} {each.amount} {each.because}" for each in slip_lines.sum_lines(quote))
    for minor in (quote.price.ceiling_minor, quote.price.deposit_minor, quote.price.gross.high):
        assert text.money(minor, quote.price.currency) in words


def test_the_slip_tells_each_tax_and_the_rounding_and_its_price_is_what_is_owed(file_desk: Desk) -> None:
    quote = quoted(file_desk.shop, line(count=6))
    price = replace(
        quote.price,
        taxes=(
            TaxAmount("state tax 6%, added", "6", quote.price.net, MoneyRange(100, 200, 300)),
            TaxAmount("city tax 2%, added", "2", quote.price.net, MoneyRange(10, 20, 30)),
        ),
        rounding=MoneyRange(2, 0, -1),
    )
    told = [(each.words, each.amount) for each in slip_lines.sum_lines(replace(quote, price=price))]
    assert [words for words, _ in told[:5]] == [
        *(say("slip", "net"), "State tax 6%, added", "City tax 2%, added"),
        *(say("slip", "total"), say("slip", "rounding")),
    ]
    assert told[4][1] == text.money_range(MoneyRange(-1, 0, 2), price.currency)
    assert told[5] == (say("slip", "price_likely"), text.money(price.due.likely, price.currency))


def test_what_is_most_likely_is_large_and_the_range_lies_beneath(file_desk: Desk) -> None:
    quote = quoted(file_desk.shop, line(count=6))
    due, currency = quote.price.due, quote.price.currency
    (price,) = [each for each in slip_lines.sum_lines(quote) if each.kind == "price"]
    low, high = text.money(due.low, currency), text.money(due.high, currency)
    assert (price.amount, price.because) == (
        text.money(due.likely, currency),
        say("slip", "between", low=low, high=high),
    )
    sure = replace(quote, price=replace(quote.price, gross=flat(due.high), rounding=flat(0)))
    (price,) = [each for each in slip_lines.sum_lines(sure) if each.kind == "price"]
    assert (price.words, price.amount, price.because) == (say("slip", "price"), high, "")


def test_a_price_without_tax_is_the_total_alone(file_desk: Desk) -> None:
    quote = quoted(file_desk.shop, line(count=6))
    price = replace(quote.price, tax=flat(0), gross=quote.price.net, tax_words="", taxes=())
    lines = slip_lines.sum_lines(replace(quote, price=price))
    assert [each.words for each in lines if each.kind != "note"] == [say("slip", "price_likely")]


def test_the_day_and_its_chance_stand_on_the_stub(qtbot: QtBot, file_desk: Desk) -> None:
    slip = Slip()
    qtbot.addWidget(slip)
    quote = quoted(file_desk.shop, line(count=6))
    assert quote.promise.day is not None
    slip.show_quote(quote)
    assert slip.day_words == text.day(quote.promise.day)


def test_no_day_is_said_with_the_reason(qtbot: QtBot, file_desk: Desk) -> None:
    slip = Slip(inside=False)
    qtbot.addWidget(slip)
    quote = quoted(file_desk.shop, line(count=1))
    undated = replace(
        quote, promise=replace(quote.promise, day=None, chances=(), held_by=("no deck plays it",))
    )
    slip.show_quote(undated)
    assert slip.day_words == ""
    assert "no deck plays it" in slip.held_words


def test_many_charges_are_shortened_before_they_roll(qtbot: QtBot, file_desk: Desk) -> None:
    slip = Slip()
    qtbot.addWidget(slip)
    slip.resize(416, 660)
    slip.show()
    quote = quoted(file_desk.shop, *[line(count=n) for n in range(1, 5)])
    few = replace(quote.price, charges=quote.price.charges[:1])
    slip.show_quote(replace(quote, price=few))
    assert slip.rolls is False
    many = replace(quote.price, charges=(quote.price.charges * 3)[:14])
    slip.show_quote(replace(quote, price=many))
    QApplication.processEvents()
    assert slip.rolls is False
    slip.show_quote(replace(quote, price=replace(many, charges=many.charges * 4)))
    qtbot.waitUntil(lambda: slip.rolls)


def test_what_rolls_shows_whole_lines_and_counts_the_rest(qtbot: QtBot, file_desk: Desk) -> None:
    """Seen red without the lines that `SlipRoll` stands on: half of one lay at the lower edge."""
    slip = Slip()
    qtbot.addWidget(slip)
    slip.resize(416, 620)
    slip.show()
    quote = quoted(file_desk.shop, *[line(count=n) for n in range(1, 5)])
    many = replace(quote.price, charges=quote.price.charges * 12)
    slip.show_quote(replace(quote, price=many))
    qtbot.waitUntil(lambda: slip.rolls)
    roll = slip.findChild(SlipRoll)
    assert isinstance(roll, SlipRoll)
    charges = len(slip_lines.charge_lines(replace(quote, price=many)))
    bar, shown = roll.verticalScrollBar(), charges - roll.more
    assert 0 < shown < charges
    pitch = roll.viewport().height() / shown
    assert pitch == int(pitch)
    for value in (0, 7, bar.maximum() // 2, bar.maximum()):
        bar.setValue(value)
        assert bar.value() % pitch == 0
    assert roll.more == 0


# --- shells and the band -----------------------------------------------------------------


def drawn_size(name: str) -> tuple[int, int]:
    """Width and height of what is drawn, in pixels, at two pixels a millimetre."""
    wide, deep = largest_shell()
    image = QImage(round(2 * wide), round(2 * deep), QImage.Format.Format_ARGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    paint_cassette(painter, QRectF(image.rect()), formats.catalogue().format(name).name)
    painter.end()
    inked = [
        (x, y)
        for y in range(image.height())
        for x in range(image.width())
        if image.pixelColor(x, y) != QColor("white")
    ]
    xs, ys = [x for x, _ in inked], [y for _, y in inked]
    return max(xs) - min(xs) + 1, max(ys) - min(ys) + 1


@pytest.mark.parametrize("name", ["vhs", "vhs-c", "hi8", "minidv"])
def test_shells_are_drawn_to_one_scale(name: str) -> None:
    width, depth = shell(formats.catalogue().format(name).name)
    drawn = drawn_size(name)
    assert drawn == (pytest.approx(2 * width, rel=0.02), pytest.approx(2 * depth, rel=0.03))


def test_the_band_keeps_its_words_with_it(qtbot: QtBot) -> None:
    band = NotForReuseStrip()
    qtbot.addWidget(band)
    assert band.accessibleName() == "Not for reuse"
    assert band_size("Not for reuse").width() < band_size("Not for reuse — not again").width()


def test_the_band_is_striped_with_its_two_colours() -> None:
    image = QImage(200, 24, QImage.Format.Format_ARGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    paint_band(painter, QRectF(0, 0, 200, 24))
    painter.end()
    tokens = theme.current_tokens()
    edge = {image.pixelColor(x, 12).name().upper() for x in range(30)}
    assert {tokens.band_dark.upper(), tokens.band_light.upper()} <= edge
