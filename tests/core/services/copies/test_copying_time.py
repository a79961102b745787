"""The time for the copies is a person's time in the date: of a quote, and of an order in the queue."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.inventory import Delivery
from core.model.own_shop.copying_minutes import CopyingMinutes
from core.model.quote_records import Copy, Storage
from core.model.ranges import ZERO, exactly
from core.model.stations import Station
from core.pricing import copy_minutes
from core.promise import turnaround
from core.services import deck_queue, promises
from core.services.copies import copy_making
from core.services.own_shop import shop_document
from core.store import current_settings
from tests.support.booked import Desk, line, quoted

DVD = Delivery("dvd")
TIMES = CopyingMinutes(stick=7, disc=11, drive=13, download=3)


@pytest.mark.parametrize(
    ("code", "pieces", "minutes"),
    [("usb-64", 1, 7), ("dvd-r", 6, 66), ("bd-r", 2, 22), ("disk-2000", 1, 13), ("own-drive", 1, 13)],
)
def test_each_kind_takes_its_own_time(code: str, pieces: float, minutes: float) -> None:
    made = Storage(exactly(10), ZERO, (Copy(code, "a copy", exactly(pieces)),))
    assert copy_minutes.of_order(TIMES, (), made) == minutes


def test_a_download_takes_time_though_it_is_no_piece() -> None:
    download = Delivery("files", "h264", "download")
    assert copy_minutes.of_order(TIMES, (download,), Storage(exactly(10), ZERO, ())) == 3
    assert copy_minutes.of_order(TIMES, (download,), Storage(ZERO, ZERO, ())) == 0


def test_an_order_in_the_queue_brings_the_time_for_its_copies_until_they_are_begun(file_desk: Desk) -> None:
    desk = replace(file_desk, writes_copies=False)
    job = desk.book(line(count=3), deliver=(DVD, DVD))
    waiting = desk.shop.ask(deck_queue.waiting)
    assert [each.copying_minutes for each in waiting] == [0, 0, 60]
    desk.shop.run(shop_document.set_texts, [("copying.disc", "4")])
    assert desk.shop.ask(current_settings.read).copying == CopyingMinutes(disc=4)
    assert [each.copying_minutes for each in desk.shop.ask(deck_queue.waiting)] == [0, 0, 24]
    desk.bring_to(job.tapes[0], Station.READY, minutes=60)
    desk.shop.run(copy_making.made, job.number, job.copies[0].id)
    assert [each.copying_minutes for each in desk.shop.ask(deck_queue.waiting)] == [0, 12]


def test_a_quote_and_the_order_booked_on_it_have_the_same_day(file_desk: Desk) -> None:
    """Ninety minutes of work on discs count, and count alike before and after booking."""
    file_desk.shop.run(shop_document.set_texts, [("copying.disc", "90"), ("work.people", "1")])
    plain, discs = (quoted(file_desk.shop, line(count=4), deliver=each) for each in ((), (DVD, DVD)))
    assert plain.promise.p90 is not None
    assert discs.promise.p90 is not None
    assert discs.promise.p90 > plain.promise.p90
    job = file_desk.book(line(count=4), deliver=(DVD, DVD))
    now = turnaround.standing(file_desk.shop.ask(promises.load), job.number)
    assert now is not None
    assert now.day == discs.promise.day
