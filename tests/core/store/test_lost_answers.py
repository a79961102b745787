"""A server whose answers do not come any more: the call ends by itself, and a step is stored once."""

from __future__ import annotations

from collections.abc import Iterator
from threading import Event, Thread

import pytest
from sqlalchemy import text

from core.model.errors import Unavailable
from core.services import jobs
from core.services.records_door import Shop
from core.store import engines, silence
from core.store.unit import Unit
from core.wording.messages import say
from tests.support.booked import Clock, command, quoted
from tests.support.faults.lossy_link import LossyLink, lossy_link
from tests.support.patience import PATIENCE_S

pytestmark = pytest.mark.postgres


@pytest.fixture
def link(server_shop: str) -> Iterator[LossyLink]:
    with lossy_link(server_shop) as made:
        yield made


@pytest.fixture
def shop(link: LossyLink) -> Iterator[Shop]:
    with Shop.open(link.url, clock=Clock(), who="Kim", create=False) as opened:
        yield opened


def test_a_step_whose_answer_is_lost_ends_and_is_stored_once(shop: Shop, link: LossyLink) -> None:
    quote, sent = quoted(shop), command()
    shop.database.patience.seconds = 0.3
    link.swallows_after = (b"INSERT INTO jobs", b"COMMIT")
    with pytest.raises(Unavailable) as failed:
        shop.once(sent, jobs.book, quote)
    assert failed.value.sentence == say("records", "no_answer", where=shop.where)
    link.heal()
    assert len(shop.ask(jobs.open_jobs)) == 1
    assert shop.once(sent, jobs.book, quote).answer.number == "000018"
    assert len(shop.ask(jobs.open_jobs)) == 1


def test_who_closes_does_not_wait_as_long(shop: Shop, link: LossyLink) -> None:
    shop.ask(_now)
    link.swallows_answers = True
    failures: list[Unavailable] = []

    def ask() -> None:
        try:
            shop.ask(_now)
        except Unavailable as failure:
            failures.append(failure)

    shop.database.patience.seconds = 1000.0
    asking = Thread(target=ask)
    asking.start()
    shop.hurry()
    assert shop.database.patience.seconds == silence.CLOSING_SECONDS < 6
    shop.database.patience.seconds = 0.2
    asking.join(PATIENCE_S)
    assert len(failures) == 1


def test_what_goes_on_answering_is_not_given_up(shop: Shop) -> None:
    shop.database.patience.seconds = 0.4
    assert shop.ask(_slow_rows) == 8


def test_a_till_that_was_cut_off_does_not_keep_the_others_from_writing(
    server_shop: str, link: LossyLink, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It had begun a step, and the server was not told that it is gone."""
    monkeypatch.setattr(engines, "IDLE_SECONDS", 1)
    began, go_on = Event(), Event()

    def stay(unit: Unit) -> None:
        unit.session.execute(text("SELECT 1"))
        began.set()
        go_on.wait(PATIENCE_S)

    with (
        Shop.open(link.url, clock=Clock(), create=False) as cut_off,
        Shop.open(server_shop, clock=Clock(), create=False) as other,
    ):
        quote = quoted(other)
        cut_off.database.patience.seconds = 0.3
        till = Thread(target=_ends_unavailable, args=(cut_off, stay))
        till.start()
        assert began.wait(PATIENCE_S)
        link.swallows_answers = True
        assert other.run(jobs.book, quote).number == "000018"
        go_on.set()
        till.join(PATIENCE_S)


def _ends_unavailable(shop: Shop, step: object) -> None:
    with pytest.raises(Unavailable):
        shop.run(step)  # type: ignore[arg-type]


def _now(unit: Unit) -> object:
    return unit.session.execute(text("SELECT now()")).scalar()


def _slow_rows(unit: Unit) -> int:
    """Something every tenth of a second, 0.8 s in all; the server sends when it has gathered 8 kB."""
    asked = text("SELECT repeat('x', 20000), pg_sleep(0.1) FROM generate_series(1, 8)")
    return len(unit.session.execute(asked).all())
