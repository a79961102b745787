"""The ways to agree on a price, side by side: chosen by keys, kept in the draft, agreed with the order."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QRadioButton, QWidget

from core.model.names import JobNumber
from core.model.own_shop.settings_records import Person
from core.model.price_ways import PriceWay
from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts, jobs
from core.services.own_shop import price_books, settings_versions, shop_document
from core.store import current_settings
from core.wording.messages import say
from gui.customer_side.customer_window import CustomerSide
from gui.toolkit.text import money
from tests.support.counting import ALT, Clerk, clerk_at
from tests.support.screens import Place, press


def with_fee(place: Place, **tables: object) -> None:
    """A price book with an inspection fee, so that all three ways are offered."""
    content = dict(place.records.shop.ask(shop_document.view).prices)
    changed = {"inspection_fee": {"price": "12.00", "way": "per-tape"}, **tables}
    today = place.records.clock().date()
    place.records.shop.run(price_books.enter, {**content, **changed, "valid_from": today})


@pytest.fixture
def clerk(place: Place) -> Clerk:
    with_fee(place)
    found = clerk_at(place)
    found.count(count="3", format="vh", marking="t120")
    found.wait_for_the_day()
    return found


def way(clerk: Clerk, which: PriceWay) -> QRadioButton:
    found = clerk.counter.findChild(QRadioButton, f"way-{which.value}")
    assert isinstance(found, QRadioButton)
    return found


def way_of(clerk: Clerk) -> PriceWay:
    return clerk.counter.draft.box.way


def shown(widget: QWidget) -> str:
    return "\n".join(label.text() for label in widget.findChildren(QLabel) if label.isVisible())


def flat_of(clerk: Clerk) -> int:
    quote = clerk.counter.quote
    assert quote is not None
    assert quote.ways is not None
    assert quote.ways.flat is not None
    return quote.ways.flat.minor


def test_the_three_ways_stand_side_by_side_with_what_each_comes_to(clerk: Clerk) -> None:
    quote = clerk.counter.quote
    assert quote is not None
    assert quote.ways is not None
    assert quote.ways.look_first is not None
    flat, fee = (money(minor, "USD") for minor in (flat_of(clerk), quote.ways.look_first.fee_minor))
    assert all(way(clerk, each).isVisible() for each in PriceWay)
    due = quote.price.due
    assert all(money(minor, "USD") in way(clerk, PriceWay.BY_PLAY).text() for minor in (due.low, due.high))
    assert clerk.price == money(due.likely, "USD")
    assert flat in way(clerk, PriceWay.FLAT).text()
    assert fee in way(clerk, PriceWay.PLAY_FIRST).text()
    assert all(way(clerk, each).accessibleName() for each in PriceWay)


@pytest.mark.parametrize("keys", [(Qt.Key.Key_2,), (Qt.Key.Key_3, Qt.Key.Key_Left)])
def test_a_digit_or_the_arrows_choose_and_the_slip_follows(clerk: Clerk, keys: tuple[Qt.Key, ...]) -> None:
    press(Qt.Key.Key_A, ALT)
    assert way(clerk, PriceWay.BY_PLAY).hasFocus()
    for key in keys:
        press(key)
    assert way(clerk, PriceWay.FLAT).hasFocus()
    assert clerk.price == money(flat_of(clerk), "USD")
    assert way_of(clerk) is PriceWay.FLAT
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert way_of(clerk) == PriceWay.BY_PLAY


def test_the_way_chosen_is_booked_and_what_is_owed_is_the_flat_sum(clerk: Clerk, place: Place) -> None:
    agreed = flat_of(clerk)
    press(Qt.Key.Key_A, ALT)
    press(Qt.Key.Key_2)
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    place.settle()
    job = place.records.shop.ask(jobs.get, JobNumber("000018"))
    assert job.quote.way is PriceWay.FLAT
    assert job.ceiling_minor == agreed
    assert place.records.shop.ask(jobs.reprice, job.number).due.likely == agreed
    assert not clerk.counter.parts.ways.isVisible()


def test_the_way_is_kept_with_the_draft(place: Place) -> None:
    box = TypedBox(rows=(TypedRow(count="2", format="VHS", marking="T-120"),), way=PriceWay.FLAT)
    place.records.shop.run(drafts.keep, f"counter {place.desk.counter}", box)
    clerk = clerk_at(place)
    clerk.wait_for_the_day()
    assert way(clerk, PriceWay.FLAT).isChecked()
    assert clerk.price == money(flat_of(clerk), "USD")


def test_the_risk_is_told_at_the_counter_and_never_on_the_customer_side(clerk: Clerk, place: Place) -> None:
    side = CustomerSide(place.window)
    clerk.counter.quote_changed.connect(side.show_quote)
    side.show()
    place.window.activateWindow()
    place.settle()
    press(Qt.Key.Key_A, ALT)
    press(Qt.Key.Key_2)
    place.settle()
    clerk.look()
    risk = clerk.counter.parts.ways.risk
    assert risk.isVisible()
    quote = clerk.counter.quote
    assert quote is not None
    assert quote.ways is not None
    assert quote.ways.flat is not None
    assert quote.ways.flat.risk is not None
    figures = [
        money(abs(round(minor)), "USD")
        for minor in (quote.ways.flat.risk.worst_gain_minor, quote.ways.flat.risk.deviation_minor)
    ]
    on_side = shown(side) + side.slip.accessibleDescription()
    for figure in figures:
        assert figure in risk.text()
        assert figure not in on_side
    assert money(flat_of(clerk), "USD") in on_side
    assert say("slip", "or_all") not in on_side


def test_whoever_may_not_see_reports_sees_no_risk(place: Place) -> None:
    owner = Person("Ada", may=frozenset({"settings", "reports"}))
    shop = place.records.shop
    settings = replace(shop.ask(current_settings.read), staff=(owner, Person(place.desk.who)))
    shop.run(settings_versions.change, settings, needs=None)
    clerk = clerk_at(place)
    clerk.count(count="3", format="vh", marking="t120")
    clerk.wait_for_the_day()
    assert way(clerk, PriceWay.FLAT).isVisible()
    assert not clerk.counter.parts.ways.risk.isVisible()


def test_a_flat_price_that_is_not_offered_any_more_leads_back(clerk: Clerk, place: Place) -> None:
    press(Qt.Key.Key_A, ALT)
    press(Qt.Key.Key_2)
    place.records.clock.go_on(minutes=1)
    with_fee(place, flat={"offered": False})
    clerk.counter.refresh()
    place.settle()
    place.settle()
    assert clerk.price == ""
    assert way(clerk, PriceWay.BY_PLAY).isVisible()
    press(Qt.Key.Key_A, ALT)
    press(Qt.Key.Key_1)
    clerk.wait_for_the_day()
    assert clerk.price
    QApplication.processEvents()


def test_one_way_alone_is_no_choice(place: Place) -> None:
    with_fee(place, flat={"offered": False}, inspection_fee={"price": "0.00"})
    clerk = clerk_at(place)
    clerk.count(count="3", format="vh", marking="t120")
    clerk.wait_for_the_day()
    assert not clerk.counter.parts.ways.isVisible()
