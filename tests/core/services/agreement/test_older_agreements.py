"""Orders of every older shop: version 1 from the quote, what was agreed after it in the same story."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from core.model.agreement_records import AgreementKind, Consent
from core.model.stations import Station
from core.pricing.amendment_records import Amendment
from core.services import jobs, tapes
from core.services.agreement import agreement_versions, agreements, amendments
from core.services.records_door import Shop
from core.store import schema
from tests.support.behind import behind
from tests.support.booked import Desk, inventory, line
from tests.support.older import as_kept_before

BEFORE = sorted(
    path.name[:4]
    for path in Path(schema.__file__).with_name("migrations").joinpath("versions").glob("0*.py")
    if path.name[:4] < "0012"
)
ADA = Consent("Ada Fenwick")


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path: Path) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


@pytest.mark.parametrize("revision", BEFORE)
def test_every_booked_order_gets_its_versions(desk: Desk, older: str, revision: str) -> None:
    plain, agreed = desk.book(line(count=2)), desk.book(line(count=3))
    desk.clock.go_on(hours=1)
    desk.shop.run(agreements.agree, agreed.number, "all in full", ADA, ceiling_minor=30_000)
    desk.clock.go_on(hours=1)
    assert agreed.promise.day is not None
    later = replace(agreed.promise, day=agreed.promise.day + timedelta(days=7))
    desk.shop.run(agreements.agree, agreed.number, "a week later", Consent("Bo"), promise=later)
    as_kept_before(desk, older, revision)

    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        (only,) = shop.ask(agreement_versions.versions, plain.number)
        assert (only.number, only.kind, only.agreed_by) == (1, AgreementKind.QUOTED, None)
        assert (only.quote, only.ceiling_minor) == (plain.quote, plain.ceiling_minor)
        assert (only.at, only.by, only.promise) == (plain.booked_at, plain.booked_by, plain.promise)
        found = shop.ask(agreement_versions.versions, agreed.number)
        assert [each.number for each in found] == [1, 2, 3]
        assert [each.ceiling_minor for each in found] == [agreed.ceiling_minor, 30_000, 30_000]
        assert [each.agreed_by for each in found] == [None, "Ada Fenwick", "Bo"]
        assert [each.reason for each in found] == ["", "all in full", "a week later"]
        assert found[-1].promise.day == later.day
        assert shop.ask(jobs.get, agreed.number).ceiling_minor == 30_000
        assert shop.verify() == ()
        _goes_on(Desk(shop, desk.clock, older, desk.kind), plain.number)
        with pytest.raises(Exception, match="append-only"), shop.database.writing.begin() as connection:
            connection.execute(behind("UPDATE agreement_versions SET reason = 'none'"))
        assert shop.verify() == ()


def _goes_on(desk: Desk, number: str) -> None:
    """An old order is amended and watched as a new one."""
    job = desk.shop.ask(jobs.get, number)  # type: ignore[arg-type]  # as typed
    wanted = Amendment(inventory(line(count=3)))
    amended = desk.shop.run(amendments.amend, job.number, wanted, reason="one more", consent=ADA)
    assert (amended.version.number, len(amended.job.tapes)) == (2, 3)
    tape = desk.bring_to(amended.job.tapes[0], Station.PLAYING)
    asked = desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=370)
    assert asked.station is Station.ASKING_THE_CUSTOMER
