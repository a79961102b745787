"""Two people at two tills change one record: what both did is kept, or the second hears of both."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest

from core.model.errors import Conflict
from core.model.inventory import CustomerDraft
from core.model.job_records import Customer
from core.model.own_shop.settings_records import Expected
from core.services import expectations, jobs
from core.services.records_door import Shop
from core.store import current_settings, merged_fields
from core.store.merged_fields import FieldClash
from tests.support.booked import Desk, command

HOW_OFTEN = 10


@pytest.fixture
def other(desk: Desk) -> Iterator[Shop]:
    """A second till, with connections of its own."""
    with Shop.open(desk.where, clock=desk.clock, who="Robin", create=False) as shop:
        yield shop


def test_a_name_and_a_phone_corrected_at_once_are_both_kept(desk: Desk, other: Shop) -> None:
    """Both forms were opened before either was saved: each holds the old value of the other's field."""
    job = desk.book(name="Aad Fenwick")
    seen = job.customer
    desk.shop.run(
        jobs.correct_customer, job.number, CustomerDraft("Ada Fenwick", "(303) 555-0142"), seen=seen
    )
    both = other.run(
        jobs.correct_customer, job.number, CustomerDraft("Aad Fenwick", "303 555 0177"), seen=seen
    )
    assert both.customer == Customer("Ada Fenwick", "+13035550177", None)
    assert desk.shop.verify() == ()


def test_two_who_correct_the_same_are_told_of_both(desk: Desk, other: Shop) -> None:
    job = desk.book(name="Aad Fenwick")
    seen = job.customer
    desk.shop.run(jobs.correct_customer, job.number, CustomerDraft("Ada Fenwick", seen.phone), seen=seen)
    with pytest.raises(Conflict, match="name: now Ada Fenwick, yours Adah Fenwick"):
        other.run(jobs.correct_customer, job.number, CustomerDraft("Adah Fenwick", seen.phone), seen=seen)
    same = other.run(
        jobs.correct_customer, job.number, CustomerDraft("Ada Fenwick", "303 555 0177"), seen=seen
    )
    assert same.customer == Customer("Ada Fenwick", "+13035550177", None), "the same wish is no conflict"


def test_fields_typed_at_two_tills_at_once_are_all_kept(desk: Desk, other: Shop) -> None:
    """As from the command line: what is not named is read inside the transaction that writes."""
    numbers = [desk.book(name=f"Aad {n}").number for n in range(HOW_OFTEN)]

    def name(number: str) -> None:
        desk.shop.once(command(), jobs.correct_fields, number, name=f"Ada {number}")

    def phone(number: str) -> None:
        other.once(command(), jobs.correct_fields, number, phone=f"303 555 {number[-4:]}")

    with ThreadPoolExecutor(2) as tills:
        done = [tills.submit(deed, number) for number in numbers for deed in (name, phone)]
        for each in done:
            each.result(timeout=60)
    for number in numbers:
        who = desk.shop.ask(jobs.get, number).customer
        assert (who.name, (who.phone or "")[-4:]) == (f"Ada {number}", number[-4:])


def test_two_figures_expected_at_once_are_both_kept(desk: Desk, other: Shop) -> None:
    for n in range(HOW_OFTEN):
        hours, rush = 50.0 + n, 1.0 + n
        with ThreadPoolExecutor(2) as tills:
            done = [
                tills.submit(desk.shop.run, expectations.expect_figures, {"hours_to_repair": hours}),
                tills.submit(other.run, expectations.expect_figures, {"rush_boxes_a_week": rush}),
            ]
            for each in done:
                each.result(timeout=60)
        stated = desk.shop.ask(current_settings.read).expected
        assert (stated.hours_to_repair, stated.rush_boxes_a_week) == (hours, rush)


def test_figures_typed_into_two_windows_are_merged_or_told(desk: Desk, other: Shop) -> None:
    seen = desk.shop.ask(current_settings.read).expected
    desk.shop.run(expectations.expect, replace(seen, hours_to_repair=30.0), seen=seen)
    both = other.run(expectations.expect, replace(seen, rush_boxes_a_week=9.0), seen=seen).expected
    assert (both.hours_to_repair, both.rush_boxes_a_week) == (30.0, 9.0)
    with pytest.raises(Conflict, match="now 30, yours 40"):
        other.run(expectations.expect, replace(seen, hours_to_repair=40.0), seen=seen)
    assert desk.shop.ask(current_settings.read).expected == both


def test_a_merge_says_what_was_seen_is_and_was_wanted() -> None:
    seen, now = Expected(), replace(Expected(), hours_to_repair=1.0, rush_boxes_a_week=2.0)
    wanted = replace(seen, hours_to_repair=3.0, unplanned_closures=0.1)
    merged, clashes = merged_fields.merge(seen, wanted, now)
    assert clashes == (FieldClash("hours_to_repair", seen.hours_to_repair, 1.0, 3.0),)
    assert (merged.rush_boxes_a_week, merged.unplanned_closures) == (2.0, 0.1)
