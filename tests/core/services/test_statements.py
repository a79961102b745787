"""A step asks the database as often in a large order as in a small one."""

from __future__ import annotations

import pytest
from sqlalchemy import event

from core.model.names import Finding
from core.model.stations import Station
from core.services import repair_record, tapes
from tests.support.booked import Desk, line


@pytest.mark.parametrize("step", ["moved", "found"])
def test_a_step_of_one_tape_does_not_ask_for_the_others_one_by_one(file_desk: Desk, step: str) -> None:
    small, large = file_desk.book(line(count=2)), file_desk.book(line(count=9))
    asked: list[str] = []
    event.listen(
        file_desk.shop.database.writing, "before_cursor_execute", lambda *told: asked.append(told[2])
    )
    counts = []
    for job in (small, large):
        asked.clear()
        if step == "moved":
            file_desk.shop.run(tapes.move, job.tapes[0].code, Station.LOOKED_OVER)
        else:
            file_desk.shop.run(repair_record.find, job.tapes[0].code, [Finding.CREASED])
        counts.append(len(asked))
    assert counts[0] == counts[1], counts
