"""An order agreed at a flat sum owes that sum, whatever its tapes play; what is more needs a yes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from core.model import serialization
from core.model.agreement_records import Consent
from core.model.job_records import Job
from core.model.names import Finding
from core.model.price_ways import PriceWay
from core.model.quote_records import Quote
from core.model.stations import Station
from core.services import jobs, shop_snapshot, tapes
from core.services.agreement import agreements
from core.services.own_shop import price_books, shop_document
from core.store.audits import audit
from tests.support.booked import Desk, inventory, line


def enter(desk: Desk, **tables: Any) -> None:
    content = dict(desk.shop.ask(shop_document.view).prices)
    desk.shop.run(price_books.enter, {**content, **tables, "valid_from": desk.clock().date()})


def quoted(desk: Desk, *lines: Any, way: PriceWay = PriceWay.FLAT) -> Quote:
    box = replace(inventory(*lines), way=way)
    return desk.shop.ask(shop_snapshot.read).quote(box, desk.clock())


def booked(desk: Desk, *lines: Any) -> tuple[Job, int]:
    job = desk.shop.run(jobs.book, quoted(desk, *lines))
    assert job.quote.flat_minor is not None
    return job, job.quote.flat_minor


def owed(desk: Desk, job: Job) -> int:
    return desk.shop.ask(jobs.reprice, job.number).due.likely


@pytest.mark.parametrize("minutes", [3, 61, 370])
def test_what_is_owed_is_the_sum_however_long_the_tapes_play(desk: Desk, minutes: int) -> None:
    job, agreed = booked(desk, line(count=2, speed=None))
    assert job.ceiling_minor == owed(desk, job) == agreed
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY, minutes=minutes)
    handed = desk.hand_back(job, paid_minor=agreed)
    assert (handed.final.due.likely, handed.due_minor) == (agreed, 0)
    assert sum(charge.amount.likely for charge in handed.final.charges) == handed.final.net.likely
    assert desk.shop.ask(audit.verify) == ()


def test_the_share_of_a_tape_that_is_not_copied_comes_off_and_its_fee_comes_on(desk: Desk) -> None:
    enter(desk, minimum={"price": "0.00"})
    job, agreed = booked(desk, line(count=4))
    desk.shop.run(tapes.move, job.tapes[0].code, Station.LOOKED_OVER)
    desk.shop.run(tapes.move, job.tapes[0].code, Station.CANNOT_BE_PLAYED)
    less = owed(desk, job)
    assert 0 < less < agreed
    desk.clock.go_on(minutes=1)
    enter(desk, minimum={"price": "0.00"}, inspection_fee={"price": "1.00"})
    again, agreed_again = booked(desk, line(count=4))
    assert agreed_again == agreed
    desk.shop.run(tapes.move, again.tapes[0].code, Station.LOOKED_OVER)
    desk.shop.run(tapes.move, again.tapes[0].code, Station.CANNOT_BE_PLAYED)
    assert owed(desk, again) == less + 108  # 1.00 and 8.25 % tax


def test_a_repair_found_later_is_owed_only_with_a_yes(desk: Desk) -> None:
    job, agreed = booked(desk, line(count=2))
    desk.shop.run(tapes.move, job.tapes[0].code, Station.LOOKED_OVER, findings=[Finding.SNAPPED])
    assert owed(desk, job) == agreed
    desk.shop.run(
        agreements.agree, job.number, "the splice too", Consent("Ada"), ceiling_minor=agreed + 10_000
    )
    assert owed(desk, job) == agreed + 1949  # 18.00 and 8.25 % tax
    desk.shop.run(agreements.agree, job.number, "up to ten more", Consent("Ada"), ceiling_minor=agreed + 1000)
    assert owed(desk, job) == agreed + 1000


def test_a_certificate_that_comes_later_takes_the_tax_off_a_flat_sum(desk: Desk) -> None:
    job, agreed = booked(desk, line(count=3))
    desk.shop.run(
        agreements.agree, job.number, "certificate shown", Consent("Ada"), tax_exempt="certificate 12-345"
    )
    now = desk.shop.ask(jobs.reprice, job.number)
    assert now.tax.high == 0
    assert now.due.likely == pytest.approx(agreed / 1.0825, abs=2)


def test_the_other_ways_are_charged_by_what_plays(desk: Desk) -> None:
    enter(desk, inspection_fee={"price": "9.00"})
    boxes = [quoted(desk, line(count=2), way=way) for way in (PriceWay.BY_PLAY, PriceWay.PLAY_FIRST)]
    first, second = (desk.shop.run(jobs.book, box) for box in boxes)
    for job in (first, second):
        desk.bring_to(job.tapes[0], Station.READY, minutes=61)
    assert owed(desk, first) == owed(desk, second)
    assert second.quote.way is PriceWay.PLAY_FIRST


def test_a_quote_from_before_the_choice_is_read_as_agreed_by_what_plays(desk: Desk) -> None:
    plain = serialization.plain(quoted(desk, line(), way=PriceWay.BY_PLAY))
    del plain["ways"], plain["inventory"]["way"]
    older: Quote = serialization.record_of(Quote, plain)
    assert (older.ways, older.way, older.flat_minor) == (None, PriceWay.BY_PLAY, None)
    job = desk.shop.run(jobs.book, older)
    desk.bring_to(job.tapes[0], Station.READY, minutes=61)
    assert desk.hand_back(job).final.due.is_one_figure
