"""Ids that orders, pickups and calls bore before commands had a table of their own: they stay used."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.model.errors import Refused
from core.model.handover_records import ToldHow, ToldResult
from core.model.names import CommandId
from core.model.stations import Station
from core.services import jobs, pickups
from core.services.after_ready import telling
from core.services.records_door import Shop
from tests.support.booked import Desk, line, quoted
from tests.support.older import as_kept_before


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path: Path) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


def test_an_id_from_before_is_refused_and_swallows_nothing(desk: Desk, older: str) -> None:
    """An order and a pickup could bear the same id then."""
    same, told = CommandId("K1"), CommandId("T1")
    job = desk.shop.once(same, jobs.book, quoted(desk.shop, line(count=2))).answer
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY)
    desk.shop.once(told, telling.tell, job.number, ToldHow.PHONE, ToldResult.REACHED)
    desk.hand_back(job, [job.tapes[0].code])
    as_kept_before(desk, older, "0012")
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        for sent in (same, told):
            with pytest.raises(Refused, match="before the program was updated"):
                shop.once(sent, jobs.book, quoted(shop))
        assert [each.number for each in shop.ask(jobs.open_jobs)] == [job.number]
        assert len(shop.ask(pickups.of_job, job.number)) == 1
        assert shop.once(CommandId("K2"), jobs.book, quoted(shop)).answer.number == "000026"
