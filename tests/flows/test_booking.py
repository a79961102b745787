"""From an empty shop to a booked box of twelve mixed tapes, by key presses only."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.model.names import FormatName
from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts, jobs
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.toolkit.screen_context import Desk
from gui.toolkit.workers import Work
from tests.support.counting import ALT, CONTROL, clerk_at
from tests.support.screens import Place, press, press_text

TWELVE = (
    {"count": "3", "format": "vhs", "marking": "t120", "label": "Christmas"},
    {"count": "1", "format": "vhs", "marking": "t160", "speed": "ep", "findings": "snapped"},
    {"count": "2", "format": "vhs-c", "marking": "tc30", "label": "Lake house"},
    {"count": "2", "format": "hi8", "marking": "p6120"},
    {"count": "2", "format": "minidv", "marking": "dvm60", "label": "School play"},
    {"count": "1", "format": "beta", "marking": "l750", "findings": "scratched"},
    {"count": "1", "format": "8mm", "label": "nobody knows"},
)


def test_twelve_mixed_tapes_are_booked_and_price_and_day_move_with_every_line(place: Place) -> None:
    beta = (
        '{plays = ["betamax"], tv = ["ntsc"], speeds = []}'  # else that tape is "not here", without a price
    )
    place.work.run(shop_document.set_texts, [("deck.Beta", beta)], changes=frozenset({"shop"}))
    place.settle()
    clerk = clerk_at(place)
    seen = [(clerk.price, clerk.day)]
    chances = []
    for cells in TWELVE:
        clerk.count(**cells)
        assert clerk.counter.quote is not None
        seen.append((clerk.price, clerk.day))
        chances.append(clerk.counter.quote.promise.chances)
    prices = [price for price, _ in seen]
    assert len(set(prices)) == len(prices), "every line has its price"
    assert all(before != after for before, after in pairwise(chances))
    assert len({day for _, day in seen}) > 2, "the day moves as the box fills"
    clerk.say_and_tick()
    clerk.name_the_customer("Ada Fenwick", "607 555 0199")
    clerk.book()
    (job,) = place.records.shop.ask(jobs.open_jobs)
    assert job.quote == clerk.counter.job.quote if clerk.counter.job else False
    assert len(job.tapes) == 12
    assert [tape.format for tape in job.tapes].count(FormatName("vhs")) == 4
    assert job.customer.name == "Ada Fenwick"
    assert (place.desk.papers / f"claim-slip-{job.number}.pdf").read_bytes().startswith(b"%PDF")


def test_a_label_on_every_tape_of_forty_is_typed_without_the_mouse(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.count(count="1", format="vhs", marking="t120", label="Summer 1991")
    for year in range(1992, 1996):
        press(Qt.Key.Key_D, CONTROL)
        table = clerk.counter.parts.table
        table.put_cursor(table.currentIndex().row(), clerk.counter.parts.rows.column_named("label"))
        press_text(f"Summer {year}")
        press(Qt.Key.Key_Return)
    assert [row[7] for row in clerk.cell_texts[:5]] == [f"Summer {year}" for year in range(1991, 1996)]
    assert {row[1] for row in clerk.cell_texts[:5]} == {"VHS"}


def test_after_a_power_cut_the_box_is_back_as_it_was(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.name_the_customer("Ada Fenwick", "607 555 0199")
    clerk.counter.take_focus()
    clerk.count(count="6", format="vhs", marking="t120", label="Birthdays")
    clerk.count(count="1", format="hi8", marking="T-999", findings="snapped")
    before = clerk.counter.draft.box
    place.qtbot.waitUntil(lambda: kept(place) is not None)
    place.settle()
    # The cut: this window never gets to say anything; another one is opened on the same file.
    again = another_window(place)
    restored = again.draft.box
    assert (restored.name, restored.phone) == (before.name, before.phone)
    assert [row for row in restored.rows if not row.is_empty] == [
        row for row in before.rows if not row.is_empty
    ]


NONSENSE = {
    "count": "4-5?",
    "format": "reel to reel",
    "marking": "E-?",
    "recorded_as": "8 mil",
    "speed": "slow??",
    "tv": "SECAM 60",
    "findings": "snapped, hums",
    "label": 'two  "spaces" #&',
}


def test_after_a_power_cut_not_one_typed_letter_is_missing(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.name_the_customer(" Ada ", "call after six")
    for wish in ("dual", "wax cylinders", "the day before"):
        press(Qt.Key.Key_Return)
        press_text(wish)
    clerk.counter.take_focus()
    clerk.count(**NONSENSE)
    clerk.count(format="VHS", label="readable")
    clerk.count(**{**NONSENSE, "format": "Hi8"})
    press_text("1/2?")  # and the cell is still open
    before = clerk.counter.draft.shown
    assert before.rows[0] == TypedRow(**NONSENSE)
    assert (before.tv, before.copies, before.needed_by) == ("dual", "wax cylinders", "the day before")
    assert before.rows[-1].count == "1/2?"
    place.qtbot.waitUntil(lambda: place.records.shop.ask(drafts.kept, "counter 1") == before)
    place.settle()
    assert another_window(place).draft.box == before


def test_a_wish_that_is_still_being_typed_outlives_a_power_cut(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.name_the_customer("Ada Fenwick")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Return)
    press_text("files on pap")
    place.qtbot.waitUntil(
        lambda: getattr(place.records.shop.ask(drafts.kept, "counter 1"), "copies", "") == "files on pap",
    )
    place.settle()


def test_the_deposit_and_what_the_customer_was_told_outlive_a_power_cut(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.count(count="2", format="vh", marking="t120", findings="scratched")
    clerk.name_the_customer("Ada Fenwick")
    clerk.say_and_tick()
    press(Qt.Key.Key_D, ALT)
    clerk.field("deposit").selectAll()
    press_text("12.5")
    before = clerk.counter.draft.box
    place.qtbot.waitUntil(lambda: place.records.shop.ask(drafts.kept, "counter 1") == before)
    place.settle()
    again = another_window(place)
    assert again.draft.box == before
    assert again.parts.booking_bar.deposit.text() == "12.5"
    assert again.parts.telling.is_settled
    assert again.parts.telling.told.isChecked()


def test_a_deposit_typed_by_mistake_is_undone_and_asked_as_the_quote_asks(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.count(count="2", format="vh", marking="t120")
    asked = clerk.field("deposit").text()
    press(Qt.Key.Key_D, ALT)
    clerk.field("deposit").selectAll()
    press_text("7")
    assert clerk.field("deposit").text() == "7"
    clerk.counter.tray.undo()
    assert clerk.field("deposit").text() == asked


def test_a_booked_box_does_not_come_back_after_a_power_cut(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.count(format="vhs")
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    place.settle()
    assert another_window(place).draft.box.is_empty


@pytest.mark.parametrize("by", ["questions", "rush"])
def test_the_customer_changes_their_mind_and_so_does_the_slip(place: Place, by: str) -> None:
    clerk = clerk_at(place)
    clerk.count(count="20", format="hi8", marking="p6120")
    clerk.wait_for_the_day()
    before = (clerk.price, clerk.counter.quote)
    press(Qt.Key.Key_1 if by == "questions" else Qt.Key.Key_H, ALT)
    assert (clerk.price, clerk.counter.quote) != before
    clerk.counter.take_focus()
    press(Qt.Key.Key_Z, CONTROL)
    assert clerk.price == before[0]


def kept(place: Place) -> object:
    box = place.records.shop.ask(drafts.kept, "counter 1")
    return box if isinstance(box, TypedBox) and sum(not row.is_empty for row in box.rows) == 2 else None


def another_window(place: Place) -> CounterScreen:
    window = Window()
    place.others.append(window)
    place.qtbot.addWidget(window)
    clock = place.records.clock
    work = Work(lambda: Shop.open(place.records.where, clock=clock, who="Kim"), window)
    work.broke.connect(place.bugs.append)
    work.open()
    place.qtbot.waitUntil(lambda: work.is_idle)
    desk = Desk(work, clock, "Kim", place.desk.papers, place.shown_files.append)
    counter = CounterScreen(desk)
    window.add_screens(desk, "The Tape Table", {"counter": counter})
    window.show()
    for _ in range(2):
        place.qtbot.waitUntil(lambda: work.is_idle)
        QApplication.processEvents()
    QTest.qWait(0)
    return counter
