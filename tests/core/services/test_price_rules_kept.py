"""The rules of the price book reach the order: exempt customers, what is owed, tapes only looked over."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from core.model.agreement_records import Consent
from core.model.errors import WrongInput
from core.model.job_records import Job
from core.model.quote_records import Quote
from core.model.stations import Station
from core.services import jobs, shop_snapshot, tapes
from core.services.agreement import agreements
from core.services.own_shop import price_books, shop_document
from core.services.records_door import Shop
from core.store.audits import audit
from tests.support.behind import behind
from tests.support.booked import Desk, inventory, line
from tests.support.older import as_kept_before


def enter(desk: Desk, **tables: Any) -> None:
    """A price book from today on, with these tables instead of those in force."""
    content = dict(desk.shop.ask(shop_document.view).prices)
    desk.shop.run(price_books.enter, {**content, **tables, "valid_from": desk.clock().date()})


def quoted(desk: Desk, *lines: Any, exempt: str = "") -> Quote:
    box = replace(inventory(*lines), tax_exempt=exempt)
    return desk.shop.ask(shop_snapshot.read).quote(box, desk.clock())


def booked(desk: Desk, *lines: Any, exempt: str = "") -> Job:
    return desk.shop.run(jobs.book, quoted(desk, *lines, exempt=exempt))


def test_an_exempt_customer_pays_no_tax_at_booking_or_at_pickup(desk: Desk) -> None:
    taxed, job = quoted(desk, line()), booked(desk, line(), exempt="certificate 12-345")
    assert job.quote.price.gross == taxed.price.net
    assert job.quote.inventory.tax_exempt == job.quote.price.exempt == "certificate 12-345"
    desk.bring_to(job.tapes[0], Station.READY, minutes=61)
    pickup = desk.hand_back(job)
    assert (pickup.final.tax.high, pickup.final.exempt) == (0, "certificate 12-345")
    assert pickup.due_minor == pickup.final.net.likely > 0
    assert desk.shop.ask(audit.verify) == ()


def test_what_is_owed_at_pickup_is_rounded_and_nothing_beyond_it_is_taken(desk: Desk) -> None:
    enter(desk, rounding={"step": "0.50", "mode": "nearest"})
    job = booked(desk, line())
    assert job.quote.price.due.likely % 50 == job.quote.price.deposit_minor % 50 == 0
    desk.bring_to(job.tapes[0], Station.READY, minutes=61)
    owed = desk.shop.ask(jobs.reprice, job.number)
    assert owed.rounding.likely == owed.due.likely - owed.gross.likely != 0
    with pytest.raises(WrongInput, match="paid"):
        desk.hand_back(job, paid_minor=owed.due.likely + 1)
    pickup = desk.hand_back(job, paid_minor=owed.due.likely)
    assert (pickup.due_minor, pickup.job.paid_minor) == (0, owed.due.likely)


@pytest.mark.parametrize("aside", [Station.CANNOT_BE_PLAYED, Station.KEPT_APART])
def test_a_tape_that_turns_out_unplayable_costs_its_inspection_instead_of_its_copy(
    desk: Desk, aside: Station
) -> None:
    enter(desk, inspection_fee={"price": "12.00"}, minimum={"price": "0.00"})
    job = booked(desk, line(count=2))
    assert "inspection" not in [charge.code for charge in job.quote.price.charges]
    desk.bring_to(job.tapes[0], Station.READY, minutes=61)
    desk.shop.run(tapes.move, job.tapes[1].code, Station.LOOKED_OVER)
    desk.shop.run(tapes.move, job.tapes[1].code, aside)
    pickup = desk.hand_back(job)
    fees = [charge for charge in pickup.final.charges if charge.code == "inspection"]
    assert [(fee.quantity, fee.amount.likely) for fee in fees] == [("1", 1200)]


def test_an_order_keeps_the_rules_of_its_own_book(desk: Desk) -> None:
    job = booked(desk, line())
    before = desk.shop.ask(jobs.reprice, job.number)
    desk.clock.go_on(minutes=1)
    enter(
        desk,
        rounding={"step": "1.00", "mode": "down"},
        further_tax=[{"words": "city tax", "percent": "3"}],
        storage_fee={"price": "1.00", "per": "day", "after_days": 10},
    )
    assert desk.shop.ask(jobs.reprice, job.number) == before
    assert quoted(desk, line()).price.storage_fee is not None
    assert len(quoted(desk, line()).price.taxes) == 2


# --- exemption that is told after booking ------------------------------------------------


def test_a_certificate_that_comes_later_takes_the_tax_off_from_then_on(desk: Desk) -> None:
    job = booked(desk, line())
    taxed = desk.shop.ask(jobs.reprice, job.number)
    told = desk.shop.run(
        agreements.agree, job.number, "certificate shown", Consent("Ada"), tax_exempt=" certificate 12-345 "
    )
    assert told.tax_exempt == told.agreements[-1].tax_exempt == "certificate 12-345"
    assert told.ceiling_minor == job.ceiling_minor
    now = desk.shop.ask(jobs.reprice, job.number)
    assert (taxed.tax.likely > 0, now.tax.likely, now.gross) == (True, 0, taxed.net)
    desk.shop.run(agreements.agree, job.number, "go ahead", Consent("Ada"), ceiling_minor=90_000)
    assert desk.shop.ask(jobs.reprice, job.number).exempt == "certificate 12-345"
    desk.shop.run(agreements.agree, job.number, "certificate ran out", Consent("Ada"), tax_exempt="")
    assert desk.shop.ask(jobs.reprice, job.number).tax == taxed.tax
    assert desk.shop.ask(audit.verify) == ()


@pytest.mark.parametrize("why", ["x" * 121, "two\nlines"])
def test_a_reason_no_paper_could_show_is_refused(desk: Desk, why: str) -> None:
    job = booked(desk, line())
    with pytest.raises(WrongInput, match="why no tax is charged"):
        desk.shop.run(agreements.agree, job.number, "certificate shown", Consent("Ada"), tax_exempt=why)
    assert desk.shop.ask(jobs.get, job.number) == job


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path_factory.mktemp("old") / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


def test_a_shop_from_before_keeps_its_agreements_and_takes_new_ones(desk: Desk, older: str) -> None:
    job = booked(desk, line())
    before = desk.shop.run(agreements.agree, job.number, "go ahead", Consent("Ada"), ceiling_minor=90_000)
    price = desk.shop.ask(jobs.reprice, job.number)
    as_kept_before(desk, older, "0008")
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        kept = shop.ask(jobs.get, job.number)
        assert [each.code for each in kept.copies] == [each.code for each in before.copies]
        assert replace(kept, copies=before.copies) == before, "of a copy its order says what it is made of"
        assert shop.ask(jobs.reprice, job.number) == price
        assert shop.verify() == ()
        told = shop.run(
            agreements.agree, job.number, "certificate shown", Consent("Ada"), tax_exempt="certificate 12-345"
        )
        assert [each.tax_exempt for each in told.agreements] == [None, "certificate 12-345"]
        assert shop.ask(jobs.reprice, job.number).tax.high == 0
        assert shop.verify() == ()
        with pytest.raises(Exception, match="append-only"), shop.database.writing.begin() as connection:
            connection.execute(behind("UPDATE agreement_versions SET tax_exempt = 'none'"))
