"""The Shop screen is read once: nothing costly is asked of the records twice."""

from __future__ import annotations

from datetime import timedelta

import pytest

from core.model.promise_records import AS_PLANNED
from core.services import closed_days, promises, shop_overview
from tests.support.booked import Desk, line


def test_the_record_of_promises_is_read_once(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.book(line())
    read = []
    judged = promises.judged

    def counting(unit: object) -> object:
        read.append(unit)
        return judged(unit)  # type: ignore[arg-type]  # as it was handed over

    monkeypatch.setattr(promises, "judged", counting)
    view = desk.shop.ask(shop_overview.read)
    assert len(read) == 1
    assert view.learned.recalibration == AS_PLANNED
    assert view.planned == (0.0,) * 10


def test_a_day_off_is_told_with_its_reason(desk: Desk) -> None:
    day = desk.clock().date() + timedelta(days=1)
    desk.shop.run(closed_days.plan, day, day, "a wedding")
    view = desk.shop.ask(shop_overview.read)
    assert view.shut[0] == (day, "a wedding")
    assert view.days_off[0].days == (day,)
