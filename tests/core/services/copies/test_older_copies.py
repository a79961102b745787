"""Shops of every older version: copies booked then go as they always did, those ordered now are followed."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.model import box_standing
from core.model.agreement_records import Consent
from core.model.inventory import Delivery
from core.model.stations import Station
from core.pricing.amendment_records import Amendment
from core.services import jobs
from core.services.agreement import amendments
from core.services.copies import copy_making
from core.services.records_door import Shop
from core.store import schema
from tests.support.behind import behind
from tests.support.booked import Desk, inventory, line
from tests.support.older import as_kept_before

ADA = Consent("Ada Fenwick")
BEFORE = sorted(
    path.name[:4]
    for path in Path(schema.__file__).with_name("migrations").joinpath("versions").glob("0*.py")
    if path.name[:4] < "0013"
)


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path: Path) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


@pytest.mark.parametrize("revision", BEFORE)
def test_an_older_order_needs_no_items_until_it_is_amended(desk: Desk, older: str, revision: str) -> None:
    job, other = desk.book(line(count=2)), desk.book(line(count=1))
    as_kept_before(desk, older, revision)
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        here = Desk(shop, desk.clock, older, desk.kind, writes_copies=False)
        (copy,) = shop.ask(jobs.get, job.number).copies
        assert (copy.delivery, copy.pieces, copy.steps) == (None, 1, ())
        for tape in job.tapes:
            here.bring_to(tape, Station.READY, minutes=60)
        assert box_standing.may_be_collected(shop.ask(jobs.get, job.number))
        assert [each.id for each in here.hand_back(job).copies] == [copy.id]
        wanted = Amendment(inventory(line(count=1), deliver=(Delivery("dvd"),)))
        new = shop.run(amendments.amend, other.number, wanted, reason="discs", consent=ADA).job
        assert [(each.code, each.delivery) for each in new.copies] == [("dvd-r", Delivery("dvd"))]
        here.bring_to(new.tapes[0], Station.READY, minutes=60)
        assert not box_standing.may_be_collected(shop.ask(jobs.get, new.number))
        shop.run(copy_making.made, new.number, new.copies[0].id)
        with pytest.raises(Exception, match="append-only"), shop.database.writing.begin() as connection:
            connection.execute(behind("UPDATE copy_steps SET reason = 'none'"))
        assert shop.verify() == ()
