"""Shop: the week of the decks, whom to call first, and a source beside every figure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields as dataclass_fields
from dataclasses import is_dataclass
from datetime import timedelta
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from core.catalogue.formats import catalogue
from core.catalogue.markings import Sourced
from core.model.ranges import Range
from core.model.stations import Station
from core.scheduling import deck_week
from core.services import figure_sources, tapes
from core.wording.messages import say
from gui.shop import sources_chapter
from gui.shop.deck_week_drawing import DeckWeek
from gui.shop.prices.prices_chapter import PriceChapter
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import theme
from tests.support.booked import line
from tests.support.screens import Place, press
from tests.support.shops import TUESDAY, deck, fittings, queued


def page_words(screen: ShopScreen) -> str:
    """Every word of the open chapter."""
    return " ".join(label.text() for label in screen.page.findChildren(QLabel))


@pytest.fixture
def screen(place: Place) -> ShopScreen:
    place.records.book(line(count=3), name="Ada Fenwick")
    return place.turn_to(ShopScreen)


def open_chapter(screen: ShopScreen, key: str) -> str:
    assert screen.chapters.stand_on(key)
    return page_words(screen)


def test_the_keyboard_chooses_among_the_chapters(screen: ShopScreen) -> None:
    assert QApplication.focusWidget() is screen.chapters
    first = page_words(screen)
    press(Qt.Key.Key_Down)
    assert page_words(screen) != first


def test_the_price_book_is_shown_whole_and_says_that_it_is_invented(place: Place, screen: ShopScreen) -> None:
    open_chapter(screen, "prices")
    place.settle()
    chapter = screen.chapter("prices")
    assert isinstance(chapter, PriceChapter)
    assert chapter.page is not None
    lines = chapter.page.table.lines
    told = " ".join(line.shown("words") for line in lines)
    assert screen.view is not None
    book = screen.view.book
    for rate in (*book.repairs.values(), *book.media.values()):
        assert rate.words.casefold() in told.casefold()
    for name in book.capture:
        assert catalogue().format(name).words.casefold() in told.casefold()
    assert chapter.page.mine.isVisible() is book.invented


def test_every_value_of_the_catalogue_has_its_source_beside_it(screen: ShopScreen) -> None:
    told = open_chapter(screen, "grounds")
    for form in catalogue().formats:
        assert sources_chapter.sourced(form.shell) in told
        assert form.tape_width_mm is None or sources_chapter.sourced(form.tape_width_mm) in told
        for speed in () if form.is_counted else form.tape_speeds:
            assert f"{speed.mm_s.value:g} mm/s — {sources_chapter.sourced(speed.mm_s)}" in told
        for marking in () if form.is_counted else form.markings:
            assert f"{marking.metres.value:g} m — {sources_chapter.sourced(marking.metres)}" in told


def test_no_sourced_value_of_the_catalogue_is_kept_from_the_window(screen: ShopScreen) -> None:
    """Found by walking through the records, so that a value of tomorrow cannot be forgotten."""
    told = open_chapter(screen, "grounds")
    values = list(every_sourced(catalogue().formats))

    assert len(values) > 300
    for value in values:
        assert sources_chapter.sourced(value) in told
    for fact in (*figure_sources.of_packs(), *figure_sources.of_media(), *figure_sources.of_repairs()):
        assert f"{fact.what[1:]}: {fact.figure} — {sources_chapter.sourced(fact.source)}" in told
    assert "hare of a stick left after formatting: 0.97 — a file system takes some three parts" in told


def every_sourced(value: object) -> Iterator[Sourced[Any]]:
    """Every sourced value inside a record, however deep."""
    if isinstance(value, Sourced):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from every_sourced(each)
    elif is_dataclass(value):
        for each in dataclass_fields(value):
            yield from every_sourced(getattr(value, each.name))


def test_a_value_without_a_source_says_so() -> None:
    assert sources_chapter.sourced(Sourced(1.0, "from memory, for the drawing only", "from-memory")) == (
        "from memory, for the drawing only"
    )
    assert sources_chapter.sourced(Sourced(1.0, "", "from-memory")) == "no source given (from memory)"
    assert sources_chapter.sourced(Sourced(1.0, "SMPTE 32M", "standard")) == "SMPTE 32M (standard)"


def test_a_promise_is_listed_with_its_day_and_phone(screen: ShopScreen) -> None:
    told = open_chapter(screen, "promises")
    assert "Ada Fenwick" in told
    assert "Promised for " in told
    assert "phone (303) 555-0142" in told
    assert "Call these first" not in told


def test_a_promise_that_slips_is_listed_first_and_counted(place: Place, screen: ShopScreen) -> None:
    place.records.book(line(count=2), name="Safe Enough")
    place.records.clock.go_on(days=40)
    screen.refresh()
    place.settle()
    told = open_chapter(screen, "promises")
    assert "Call these first" in told
    promises = next(piece for piece in screen.chapters.pieces if piece.key == "promises")
    assert promises.place == "2 to call"


def test_a_box_whose_last_tape_cannot_be_played_is_ready(place: Place, screen: ShopScreen) -> None:
    job = place.records.book(line(), name="Bo Ek")
    place.records.shop.run(tapes.move, job.tapes[0].code, Station.CANNOT_BE_PLAYED)
    place.records.clock.go_on(days=60)
    screen.refresh()
    place.settle()
    told = open_chapter(screen, "promises")
    assert say("shop", "ready") in told[told.index("Bo Ek") :]


def test_what_a_pickup_or_move_changes_is_read_again(place: Place, screen: ShopScreen) -> None:
    assert screen.view is not None
    before = screen.view
    place.work.changed.emit(frozenset({"tapes"}))
    place.settle()
    assert screen.view is not before


# --- the picture of the week --------------------------------------------------------------


@pytest.fixture
def picture(qtbot: QtBot) -> DeckWeek:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.apply(app)
    made = DeckWeek()
    qtbot.addWidget(made)
    made.resize(1000, 300)
    return made


def test_hours_have_one_scale_and_closing_comes_before_the_end_of_each_day(picture: DeckWeek) -> None:
    picture.show_week(deck_week.week(fittings(), (), TUESDAY))
    segments = picture.segments()
    assert len(segments) == 5
    widths = [(s.x(s.closes) - s.left) / ((s.closes - s.opens) / timedelta(hours=1)) for s in segments]
    assert max(widths) - min(widths) < 1e-6
    assert all(s.left < s.x(s.closes) < s.left + s.wide for s in segments)
    assert segments[-1].left + segments[-1].wide <= picture.width()


def test_the_bar_is_full_until_the_tape_may_end_and_fades_after(picture: DeckWeek) -> None:
    tape = queued(1, minutes=Range(60, 240, 420), since=TUESDAY)
    picture.show_week(deck_week.week(fittings(), (tape,), TUESDAY))
    picture.show()
    first = picture.segments()[0]
    image = picture.grab().toImage()

    def darkness(hours: float) -> int:
        x = round(first.x(TUESDAY + timedelta(hours=hours)))
        return 255 - QColor(image.pixel(x, 6 * theme.UNIT + 10)).lightness()

    assert abs(darkness(0.6) - darkness(0.9)) < 12
    assert darkness(0.9) > darkness(3.6) + 20 > darkness(6.6) + 40


def test_the_picture_is_told_in_words_as_well(picture: DeckWeek) -> None:
    off = deck("8 mm", "hi8", in_service=False)
    tape = queued(1, station=Station.PLAYING)
    picture.show_week(deck_week.week(fittings(deck("VHS 1", "vhs"), off), (tape,), TUESDAY))
    told = picture.accessibleDescription()
    assert (
        "VHS 1: 000001 001 0 on Tue, Mar 3 from 9:00\u00a0AM, ends between 9:50\u00a0AM and 10:10\u00a0AM"
        in told
    )
    assert "8 mm: out of service" in told
