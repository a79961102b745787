"""A customer who pays no tax: one key and the reason at the Counter, kept through power cut and booking."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from core.model.names import JobNumber
from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts, jobs
from core.wording.messages import say
from gui.counter.typed_box import box_of, read_box
from tests.support.counting import ALT, Clerk, clerk_at
from tests.support.screens import Place, press, press_text

WHY = "certificate 12-345"


@pytest.fixture
def clerk(place: Place) -> Clerk:
    found = clerk_at(place)
    found.count(format="vh", marking="t120")
    place.settle()
    return found


def tax(clerk: Clerk) -> int:
    quote = clerk.counter.quote
    assert quote is not None
    return quote.price.tax.likely


def test_one_key_and_the_reason_take_the_tax_off_and_the_order_keeps_it(clerk: Clerk, place: Place) -> None:
    form = clerk.counter.parts.form
    assert tax(clerk) > 0
    assert not form.fields["tax_exempt"].isVisible()
    press(Qt.Key.Key_X, ALT)
    assert form.fields["tax_exempt"].hasFocus()
    press_text(WHY)
    place.settle()
    assert tax(clerk) == 0
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    place.settle()
    job = place.records.shop.ask(jobs.get, JobNumber("000018"))
    assert job.quote.inventory.tax_exempt == job.quote.price.exempt == WHY
    assert place.records.shop.ask(jobs.reprice, job.number).tax.high == 0
    assert not form.exempt.isChecked()


def test_a_tick_without_a_reason_takes_no_tax_off_and_is_not_booked(clerk: Clerk, place: Place) -> None:
    press(Qt.Key.Key_X, ALT)
    place.settle()
    assert tax(clerk) > 0
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    assert say("counter", "tax_exempt_accepted") in place.told
    assert clerk.counter.parts.form.fields["tax_exempt"].hasFocus()
    press_text(WHY)
    press(Qt.Key.Key_X, ALT)
    place.settle()
    assert tax(clerk) > 0
    assert clerk.counter.draft.box.tax_exempt is None


def test_a_power_cut_and_an_undo_keep_the_reason(clerk: Clerk, place: Place) -> None:
    press(Qt.Key.Key_X, ALT)
    press_text(WHY)
    clerk.counter.autosave.save_now()
    place.settle()
    kept = place.records.shop.ask(drafts.kept, "counter 1")
    assert isinstance(kept, TypedBox)
    assert kept.tax_exempt == WHY
    clerk.counter.tray.undo()
    assert clerk.counter.draft.box.tax_exempt is None
    assert not clerk.counter.parts.form.exempt.isChecked()


def test_an_inventory_of_an_exempt_customer_comes_back_as_one(clerk: Clerk) -> None:
    box = TypedBox(rows=(TypedRow("1", "VHS", "T-120"),), name="Ada", tax_exempt=WHY)
    reading = read_box(box, clerk.counter.desk.clock().date())
    assert reading.inventory.tax_exempt == WHY
    assert box_of(reading.inventory) == box
