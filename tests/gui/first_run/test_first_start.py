"""The first start: two ways, nothing stored before one is taken, and pages that are kept one by one."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import ClassVar

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services import decks, invented_shop, jobs
from core.services.invented_shop import InventedShop
from core.services.own_shop import readiness
from core.services.own_shop.shop_document import SettingsView
from core.services.records_door import Shop
from gui.app import composition
from gui.app.composition import CompositionRoot, compose
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.first_run.first_question import FirstQuestion
from gui.first_run.set_up_screen import SetUpScreen
from gui.settings import settings_page
from gui.settings.settings_page import SettingsPage
from gui.toolkit import theme
from gui.widgets.instant_buttons import InstantButton
from tests.support.demonstration import AFTERNOON, copied
from tests.support.screens import press, press_text

NOW = AFTERNOON.astimezone(UTC)
CONTROL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
CONTROL_SHIFT = CONTROL | Qt.KeyboardModifier.ShiftModifier


class NamePage(SettingsPage):
    """A stand-in for the first page: the name of the shop."""

    page: ClassVar[SetupPage] = SetupPage.FRONT

    def __init__(self) -> None:
        super().__init__()
        self.name = QLineEdit()
        self.name.textEdited.connect(self.changed)
        self.column.addWidget(self.name)

    def show_settings(self, view: SettingsView) -> None:
        self.name.setText(view.settings.front.name)
        self.name.selectAll()

    def settings(self, before: ShopSettings) -> ShopSettings:
        if not self.name.text().strip():
            self.focus_first()
            raise WrongInput("name", "", "a name is accepted")
        return replace(before, front=replace(before.front, name=self.name.text()))

    def focus_first(self) -> None:
        self.name.setFocus()


class PlainPage(SettingsPage):
    """A stand-in for a page with nothing to type."""

    page: ClassVar[SetupPage] = SetupPage.HOURS

    def __init__(self) -> None:
        super().__init__()
        self.told = QLineEdit()
        self.told.setReadOnly(True)
        self.column.addWidget(self.told)

    def show_settings(self, view: SettingsView) -> None:
        self.told.setText(str(view.number))

    def settings(self, before: ShopSettings) -> ShopSettings:
        return before

    def focus_first(self) -> None:
        self.told.setFocus()


class DecksPage(PlainPage):
    page = SetupPage.DECKS


class PricesPage(PlainPage):
    page = SetupPage.PRICES


class PapersPage(PlainPage):
    page = SetupPage.PAPERS


STAND_INS = (NamePage, PlainPage, DecksPage, PricesPage, PapersPage)
Opened = Callable[[], tuple[Window, CompositionRoot]]


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """Where the shop of one's own would be."""
    return tmp_path / "data" / "shop.sqlite"


@pytest.fixture
def opened(qtbot: QtBot, tmp_path: Path, own: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Opened]:
    """Starts the program at a place without a shop."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.apply(app)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(composition, "_log_to_file", lambda: tmp_path / "log" / "tapewright.log")
    monkeypatch.setattr(settings_page, "found", lambda: STAND_INS)
    windows: list[Window] = []

    def start() -> tuple[Window, CompositionRoot]:
        window = Window()
        qtbot.addWidget(window)
        window.show()
        qtbot.waitExposed(window)
        window.activateWindow()
        windows.append(window)
        root = compose(window, str(own), "Kim", lambda: NOW, own.parent / "papers", tmp_path / "practice")
        settle(qtbot, root)
        return window, root

    yield start
    for window in windows:
        window.close()


@pytest.fixture
def practice_made(demonstration: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Shops to practice in are copies of the invented one of this run, seen at the moment it was made for;
    the names of their folders, as they are made. `test_invented_shop` makes them as the program does."""
    made: list[str] = []

    def make(folder: Path, now: datetime, language: str) -> InventedShop:
        assert (now, language) == (NOW, "en")
        place = invented_shop._free(folder)
        made.append(place.name)
        return copied(demonstration, place)

    monkeypatch.setattr(invented_shop, "make", make)
    return made


def settle(qtbot: QtBot, root: CompositionRoot) -> None:
    """Until nothing is under way any more."""
    for _ in range(4):
        qtbot.waitUntil(lambda: root.desk.work.is_idle)
        QApplication.processEvents()


def question(window: Window) -> FirstQuestion:
    (found,) = window.findChildren(FirstQuestion)
    assert found.isVisible()
    return found


def set_up(window: Window) -> SetUpScreen:
    screen = window.screen_on_show()
    assert isinstance(screen, SetUpScreen)
    return screen


@contextmanager
def records(own: Path) -> Iterator[Shop]:
    with Shop.open(own, clock=lambda: NOW, create=False) as shop:
        yield shop


def begin(qtbot: QtBot, opened: Opened) -> tuple[Window, CompositionRoot]:
    window, root = opened()
    press(Qt.Key.Key_Return)
    settle(qtbot, root)
    return window, root


def go_on(qtbot: QtBot, root: CompositionRoot) -> None:
    press(Qt.Key.Key_Return, CONTROL)
    settle(qtbot, root)


# --- the question ------------------------------------------------------------------------


def test_nothing_is_stored_before_one_of_the_two_ways_is_taken(
    opened: Opened, own: Path, tmp_path: Path
) -> None:
    before = set(tmp_path.rglob("*"))
    window, _ = opened()
    asked = question(window)
    assert set(tmp_path.rglob("*")) == before
    assert QApplication.focusWidget() is asked.own
    assert str(own) in " ".join(label.text() for label in asked.findChildren(QLabel))


def test_practice_is_marked_on_the_window_and_begun_afresh_by_one_key(
    qtbot: QtBot, opened: Opened, own: Path, tmp_path: Path, practice_made: list[str]
) -> None:
    window, root = opened()
    press(Qt.Key.Key_P, ALT)
    qtbot.waitUntil(lambda: window.screen_on_show() is not None)
    settle(qtbot, root)
    assert isinstance(window.screen_on_show(), CounterScreen)
    assert window.practice.isVisible()
    assert window.windowTitle().startswith(window.practice.words.split(" ")[0])
    for name in ("phone", "bench", "pickup", "shop"):
        window.go(name)
        settle(qtbot, root)
        assert window.practice.isVisible()
    window.go("counter")
    root.customer_side.show()
    assert root.customer_side.practice.isVisible()
    root.customer_side.hide()
    window.activateWindow()
    press(Qt.Key.Key_N, CONTROL_SHIFT)
    qtbot.waitUntil(lambda: window.screen_on_show() is not None)
    settle(qtbot, root)
    assert {each.name for each in tmp_path.glob("practice*")} == {"practice", "practice-2"}
    assert practice_made == ["practice", "practice-2"]
    assert not own.exists()
    press(Qt.Key.Key_Q, CONTROL_SHIFT)
    settle(qtbot, root)
    assert question(window)
    assert not window.practice.isVisible()


# --- the walk ----------------------------------------------------------------------------


def test_every_page_is_stored_as_it_is_left_and_orders_are_taken_after_the_last(
    qtbot: QtBot, opened: Opened, own: Path
) -> None:
    window, root = begin(qtbot, opened)
    assert set_up(window).page is not None
    press_text("The Tape Table")
    for _ in STAND_INS:
        go_on(qtbot, root)
    assert isinstance(window.screen_on_show(), CounterScreen)
    with records(own) as shop:
        assert shop.ask(readiness.read).is_ready
        assert shop.ask(decks.settings).front.name == "The Tape Table"


def test_after_a_power_cut_it_goes_on_at_the_first_page_that_is_open(
    qtbot: QtBot, opened: Opened, own: Path
) -> None:
    _window, root = begin(qtbot, opened)
    press_text("The Tape Table")
    go_on(qtbot, root)
    go_on(qtbot, root)
    # The cut: this window never gets to say anything; another one is opened on the same file.
    again, other = opened()
    screen = set_up(again)
    assert screen.page is screen.pages[SetupPage.DECKS]
    go_on(qtbot, other)
    assert screen.page is screen.pages[SetupPage.PRICES]


def test_a_page_that_does_not_fit_says_so_and_stays(qtbot: QtBot, opened: Opened, own: Path) -> None:
    window, root = begin(qtbot, opened)
    screen = set_up(window)
    press(Qt.Key.Key_Delete)
    press_text(" ")
    go_on(qtbot, root)
    assert "a name is accepted" in window.banner.sentence
    assert screen.page is screen.pages[SetupPage.FRONT]
    with records(own) as shop:
        assert SetupPage.FRONT in shop.ask(readiness.read).needed


def test_a_page_left_for_later_stays_on_the_list(qtbot: QtBot, opened: Opened, own: Path) -> None:
    window, root = begin(qtbot, opened)
    for _ in STAND_INS:
        press(Qt.Key.Key_Right, ALT)
        settle(qtbot, root)
    assert isinstance(window.screen_on_show(), CounterScreen)
    with records(own) as shop:
        assert shop.ask(readiness.read).needed[0] is SetupPage.FRONT
    window.go("shop")
    settle(qtbot, root)
    way = window.screen_named("shop").findChild(InstantButton, "fill-in-decks")
    assert isinstance(way, InstantButton)
    assert way.isVisible()
    way.setFocus()
    press(Qt.Key.Key_Return)
    settle(qtbot, root)
    screen = set_up(window)
    assert screen.page is screen.pages[SetupPage.DECKS]


def test_what_was_typed_is_kept_when_somebody_goes_back_or_to_another_moment(
    qtbot: QtBot, opened: Opened, own: Path
) -> None:
    _window, root = begin(qtbot, opened)
    press_text("The Tape Table")
    press(Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier)
    settle(qtbot, root)
    with records(own) as shop:
        assert shop.ask(decks.settings).front.name == "The Tape Table"


def test_a_refused_order_leads_to_the_page_to_fill_in_and_quotes_say_that_prices_are_examples(
    qtbot: QtBot, opened: Opened, own: Path
) -> None:
    window, root = begin(qtbot, opened)
    press(Qt.Key.Key_Escape)
    settle(qtbot, root)
    counter = window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    press(Qt.Key.Key_N, ALT)
    press_text("Ada")
    counter.take_focus()
    for cell in ("2", "vhs", "t-120"):
        press_text(cell)
        press(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: counter.has_its_day and counter.slip_is_written)
    assert counter.parts.slip.mark_words
    root.customer_side.show()
    assert root.customer_side.slip.mark_words == counter.parts.slip.mark_words
    root.customer_side.hide()
    window.activateWindow()
    press(Qt.Key.Key_Return, CONTROL)
    settle(qtbot, root)
    assert "No order can be taken in yet" in window.banner.sentence
    with records(own) as shop:
        assert shop.ask(jobs.open_jobs) == ()
    press(Qt.Key.Key_G, CONTROL)
    settle(qtbot, root)
    screen = set_up(window)
    assert screen.page is screen.pages[SetupPage.FRONT]
