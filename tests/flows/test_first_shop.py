"""A new owner: from nothing on disk to a signed receipt on paper of one's own; and a year later new prices.

Everything is done by keys, on the pages that the program has. The seconds of a practised hand are printed.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.model.own_shop.setup_pages import SetupPage
from core.services import decks, jobs, pickups
from core.services.own_shop import readiness
from core.services.records_door import Shop
from core.wording import locale_figures
from gui.app import composition
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.first_run.set_up_screen import SetUpScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import theme
from tests.flows.test_counter_to_receipt import Clerk, check_off_copies, find_at_pickup, hand_back
from tests.support import klm
from tests.support.booked import Clock
from tests.support.pdf import words as words_of_paper
from tests.support.screens import press, press_text

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
NAME, STREET, PHONE = "Reel to Reel", "12 Hill Street", "(303) 555-0142"
MOST_SECONDS = 180.0
"""The target for a shop of two VHS decks, one for 8 mm and one for MiniDV, default prices accepted."""


@dataclass
class Owner(Clerk):
    """Somebody who starts the program for the first time."""

    file: Path
    clock: Clock

    def settle(self) -> None:
        for _ in range(3):
            self.qtbot.waitUntil(lambda: self.shop.desk.work.is_idle)
            QApplication.processEvents()

    @property
    def page(self) -> SetupPage:
        screen = self.window.screen_on_show()
        assert isinstance(screen, SetUpScreen)
        assert screen.page is not None
        return screen.page.page


@pytest.fixture
def owner(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Owner]:
    """The window at a place where there is nothing."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.apply(app)
    opened: list[Path] = []
    monkeypatch.setattr(composition, "show_file", opened.append)
    monkeypatch.setattr(composition, "_log_to_file", lambda: tmp_path / "log" / "tapewright.log")
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    clock, file = Clock(), tmp_path / "home" / "shop.sqlite"
    window = Window()
    qtbot.addWidget(window)
    window.show()
    qtbot.waitExposed(window)
    root = composition.compose(window, str(file), "Kim", clock, tmp_path / "papers", tmp_path / "practice")
    window.activateWindow()
    with Shop.open(tmp_path / "unused.sqlite", clock=clock, who="Kim") as books:
        at_desk = Owner(window, root, books, qtbot, opened, file, clock)
        at_desk.settle()
        yield at_desk
        at_desk.settle()
        window.close()
        if at_desk.books is not books:
            at_desk.books.close()


def set_up(owner: Owner) -> int:
    """Through every page, defaults accepted; answers how often somebody had to think."""
    press(Qt.Key.Key_Return)
    owner.settle()
    fill_in: dict[SetupPage, Callable[[], object]] = {
        SetupPage.FRONT: say_who_we_are,
        SetupPage.DECKS: sort_decks,
    }
    pages: list[SetupPage] = []
    while isinstance(owner.window.screen_on_show(), SetUpScreen):
        pages.append(owner.page)
        assert len(pages) == len(set(pages)), f"{pages[-1]} is not left: {owner.told}"
        fill_in.get(owner.page, lambda: None)()
        press(Qt.Key.Key_Return, CTRL)
        owner.settle()
    return 1 + 2 * len(pages)  # what a page says, and that it is right


def say_who_we_are() -> None:
    press_text(NAME)
    press(Qt.Key.Key_Tab)
    press_text(STREET)
    tab_to("front-phone")
    press_text(PHONE)


def tab_to(name: str) -> None:
    """Tab until the field has the keyboard."""
    for _ in range(20):
        press(Qt.Key.Key_Tab)
        focus = QApplication.focusWidget()
        if focus is not None and focus.objectName() == name:
            return
    pytest.fail(f"{name} cannot be reached by Tab")


def sort_decks() -> None:
    """A new shop starts with two VHS decks, S-VHS, 8 mm and MiniDV: the third goes."""
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Delete)


def take_in(owner: Owner, name: str) -> None:
    """Two VHS tapes of one customer, counted and booked."""
    owner.tab_back_to("customer-name")
    press_text(name)
    press(Qt.Key.Key_Return)
    press_text(PHONE)
    owner.to_counter()
    press(Qt.Key.Key_Home)
    for cell in ("2", "vhs", "t-120", "", "sp", "", "", "Christmas"):
        press_text(cell)
        press(Qt.Key.Key_Return)
    owner.settle()
    press(Qt.Key.Key_Return, CTRL)
    owner.settle()


def open_books(owner: Owner) -> Shop:
    """The shop that was just made, to look the truth up in."""
    owner.books = Shop.open(owner.file, clock=owner.clock, who="Kim", create=False)
    return owner.books


def work_through(owner: Owner, number: str) -> None:
    """Every tape of a job to ready, by keys at the bench."""
    owner.go(Qt.Key.Key_F3)
    for tape in owner.books.ask(jobs.get, number).tapes:  # type: ignore[arg-type]
        owner.scan(tape.code)
        owner.move_on()
        press(Qt.Key.Key_C, ALT)
        owner.settle()
        owner.scan(tape.code)
        owner.move_on()
        owner.scan(tape.code)
        press_text("96")
        owner.move_on()
        owner.move_on()


def test_the_first_real_customer_leaves_with_a_receipt_of_the_owners_own(owner: Owner) -> None:
    assert not owner.file.exists()
    thoughts: list[int] = []
    keys = klm.counted(lambda: thoughts.append(set_up(owner)))
    effort = klm.Effort(keys, thoughts[0], answers=len(SetupPage))
    print(f"set-up: {keys} keys, {thoughts[0]} thoughts, {effort.seconds:.0f} s by the keystroke-level model")
    assert effort.seconds <= MOST_SECONDS
    books = open_books(owner)
    assert books.ask(readiness.read).is_ready
    assert [deck.name for deck in books.ask(decks.settings).decks] == ["VHS 1", "VHS 2", "8 mm", "MiniDV"]
    counter = owner.window.screen_on_show()
    assert isinstance(counter, CounterScreen)

    take_in(owner, "Ada Fenwick")
    job = owner.job()
    assert not job.quote.example_prices
    assert counter.parts.slip.mark_words == ""
    work_through(owner, job.number)
    screen = find_at_pickup(owner)
    assert isinstance(screen, PickupScreen)
    for tape in job.tapes:
        owner.scan(tape.code)
    check_off_copies(owner, screen)
    press(Qt.Key.Key_S, ALT)
    hand_back(owner)
    handed = books.ask(pickups.latest, job.number)
    assert handed is not None
    receipt = next(path for path in owner.opened if path.name.startswith("receipt"))
    said = words_of_paper(receipt.read_bytes())
    for words in (NAME, STREET, PHONE, "Ada Fenwick"):
        assert words in said


def raise_prices(owner: Owner, percent: str, step: str) -> None:
    """In Shop, on the chapter of the prices: all of them by so much, and saved."""
    owner.go(Qt.Key.Key_F5)
    screen = owner.window.screen_on_show()
    assert isinstance(screen, ShopScreen)
    for _ in screen.chapters.pieces:
        if screen.chapters.current != "prices":
            owner.go(Qt.Key.Key_Down)
    tab_to("prices-percent")
    press_text(percent)
    press(Qt.Key.Key_Tab)
    press_text(step)
    press(Qt.Key.Key_Return)
    owner.go(Qt.Key.Key_F6)
    assert owner.told.startswith("Done")


def reprinted_quote(owner: Owner, name: str) -> Path:
    """At Pickup, the quote of a customer's order written once more."""
    owner.go(Qt.Key.Key_F4)
    press_text(name)
    press(Qt.Key.Key_Return)
    owner.settle()
    owner.opened.clear()
    owner.go(Qt.Key.Key_F10)
    (path,) = owner.opened
    return path


def test_prices_change_in_midyear_and_no_old_paper_does(owner: Owner) -> None:
    set_up(owner)
    open_books(owner)
    take_in(owner, "Ada Fenwick")
    before = owner.job()
    papers = owner.shop.desk.papers
    old = (papers / f"quote-{before.number}.pdf").read_bytes()
    owner.clock.go_on(days=150)
    raise_prices(owner, "10", "0.50")

    again = reprinted_quote(owner, "fenwick")
    assert again.read_bytes() == old
    assert owner.job().quote.price == before.quote.price
    owner.to_counter()
    press(Qt.Key.Key_N, CTRL)
    owner.settle()
    take_in(owner, "Grace Hollow")
    (after,) = [job for job in owner.books.ask(jobs.open_jobs) if job.customer.name == "Grace Hollow"]
    assert after.quote.price.gross.likely > before.quote.price.gross.likely
    assert after.quote.book != before.quote.book
    new = words_of_paper((papers / f"quote-{after.number}.pdf").read_bytes())
    assert locale_figures.money(after.quote.price.gross.likely, "USD") in new
