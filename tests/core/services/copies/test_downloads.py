"""Downloads: the link hands the copy over, and the files are deleted after their last day."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from core.model import box_standing
from core.model.copies.copy_records import CopyState
from core.model.errors import Refused, WrongInput
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.stations import Station
from core.services import jobs
from core.services.agreement import agreement_versions
from core.services.copies import copy_making, downloads
from tests.support.booked import MORNING, Desk, command, line

TODAY = MORNING.date()
LINK = "https://files.example/abc"


@pytest.fixture
def working(desk: Desk) -> Desk:
    return replace(desk, writes_copies=False)


def _made(desk: Desk, *more: Delivery) -> Job:
    job = desk.book(line(count=1), deliver=(Delivery("files", "h264", "download"), *more))
    desk.bring_to(job.tapes[0], Station.READY, minutes=60)
    return desk.shop.run(copy_making.made, job.number, job.copies[0].id)


def test_a_download_is_an_item_that_costs_no_piece(working: Desk) -> None:
    job = _made(working)
    assert [(copy.code, copy.state) for copy in job.copies] == [("download", CopyState.MADE)]
    price = working.shop.ask(jobs.reprice, job.number)
    assert not any("download" in each.code for each in price.charges)


def test_the_link_is_given_once_the_files_are_checked(working: Desk) -> None:
    job = _made(working)
    until = TODAY + timedelta(days=14)
    with pytest.raises(Refused, match="nobody has checked it"):
        working.shop.run(downloads.give, job.number, None, LINK, until)
    checked = working.shop.run(copy_making.checked, job.number, job.copies[0].id)
    assert not box_standing.may_be_collected(checked)
    for wrong, day in (("", until), ("a b", until), (LINK, TODAY - timedelta(days=1))):
        with pytest.raises(WrongInput):
            working.shop.run(downloads.give, job.number, None, wrong, day)
    with pytest.raises(Refused, match="not handed over at the counter"):
        working.hand_back(job, copies=[job.copies[0].id])
    given = working.shop.run(downloads.give, job.number, None, LINK, until)
    assert given.copies[0].download is not None
    assert (given.copies[0].download.link, given.copies[0].download.until) == (LINK, until)
    assert given.copies[0].state is CopyState.HANDED_OVER
    assert box_standing.may_be_collected(given)
    working.hand_back(given)
    assert working.shop.ask(agreement_versions.versions, job.number)[-1].kind.value == "settled"


def test_what_is_past_its_last_day_is_due_until_somebody_says_it_is_deleted(working: Desk) -> None:
    job = _made(working)
    working.shop.run(copy_making.checked, job.number, job.copies[0].id)
    with pytest.raises(Refused, match="nothing to delete"):
        working.shop.run(downloads.delete, job.number, None)
    working.shop.run(downloads.give, job.number, None, LINK, TODAY + timedelta(days=14))
    assert [each.is_due for each in working.shop.ask(downloads.standing)] == [False]
    assert working.shop.ask(downloads.standing, due=True) == ()
    working.clock.go_on(days=15)
    (due,) = working.shop.ask(downloads.standing, due=True)
    assert (due.job.number, due.link.link) == (job.number, LINK)
    once = command()
    deleted = working.shop.once(once, downloads.delete, job.number, None).answer
    assert working.shop.once(once, downloads.delete, job.number, None).answer == deleted
    gone = deleted.copies[0].deleted
    assert gone is not None
    assert (gone.at, gone.by) == (working.clock(), "Kim")
    assert working.shop.ask(downloads.standing) == ()
    with pytest.raises(Refused, match="was deleted on"):
        working.shop.run(downloads.delete, job.number, None)
    with pytest.raises(Refused, match="done with"):
        working.shop.run(copy_making.strike, job.number, job.copies[0].id, because="wrong")
    assert working.shop.verify() == ()


def test_a_wrong_link_is_taken_back(working: Desk) -> None:
    job = _made(working)
    item = job.copies[0].id
    working.shop.run(copy_making.checked, job.number, item)
    working.shop.run(downloads.give, job.number, item, LINK, TODAY)
    back = working.shop.run(copy_making.strike, job.number, item, because="another order's link")
    assert back.copies[0].state is CopyState.CHECKED
    assert back.copies[0].download is None


def test_an_order_without_one_download_says_so(working: Desk) -> None:
    job = working.book(line(count=1))
    with pytest.raises(Refused, match="has no download"):
        working.shop.run(downloads.give, job.number, None, LINK, TODAY)
