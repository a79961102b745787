"""What one counter stores is known to the others by numbers in the records, whatever notice was lost."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from time import monotonic

import pytest

from core.model.errors import Refused, Unreachable
from core.services import decks, drafts, jobs
from core.services.records_door import Shop
from core.store import change_watch, changes
from core.store.change_watch import ChangeWatch
from core.store.tables import JobRow, StoredTable
from core.store.unit import Unit
from tests.support.booked import Clock, Desk, inventory, quoted
from tests.support.faults.lossy_link import lossy_link


def _no_pause(_: float) -> None:
    """Look at once."""


@contextmanager
def watching(where: str) -> Iterator[tuple[Shop, ChangeWatch]]:
    """Another counter in the same shop, that has read everything up to now."""
    with Shop.open(where, clock=Clock(), who="Lee", create=False) as shop:
        shop.note_changes()
        watch = shop.watch()
        try:
            yield shop, watch
        finally:
            watch.close()


def heard(watch: ChangeWatch, *, within: float = 1.0) -> frozenset[str]:
    """What is found first; within a second, which is promised (on a machine that is not overloaded)."""
    begun = monotonic()
    while monotonic() - begun < 20 * within:
        if found := watch.next(_no_pause):
            return found
    return frozenset()


def test_every_table_says_what_it_shows() -> None:
    assert set(StoredTable.metadata.tables) <= set(changes.OF_TABLE)


def test_the_step_of_another_counter_is_found(desk: Desk) -> None:
    with watching(desk.where) as (_, watch):
        assert watch.next(_no_pause) == frozenset()
        desk.book()
        assert heard(watch) >= {"jobs", "tapes"}
        assert watch.next(_no_pause) == frozenset()


def test_ones_own_step_is_not_found_but_one_that_came_before_it_is(desk: Desk) -> None:
    with watching(desk.where) as (shop, watch):
        watch.next(_no_pause)
        shop.run(jobs.book, quoted(shop))
        assert _look_for_a_second(watch) == frozenset()
        desk.book()
        shop.run(jobs.book, quoted(shop))
        assert heard(watch) >= {"jobs", "tapes"}


def test_a_draft_concerns_its_own_counter_alone(desk: Desk) -> None:
    with watching(desk.where) as (_, watch):
        watch.next(_no_pause)
        desk.shop.run(drafts.keep, "counter Kim", inventory())
        assert heard(watch) == {"drafts"}


def test_a_deck_out_of_service_concerns_the_shop(desk: Desk) -> None:
    deck = desk.shop.ask(decks.settings).decks[0].name
    with watching(desk.where) as (_, watch):
        desk.shop.run(decks.broke_down, deck, "belt")
        assert "shop" in heard(watch)


def test_what_is_taken_back_counts_for_nothing(desk: Desk) -> None:
    def refuse(unit: Unit) -> None:
        jobs.book(unit, quote)
        raise Refused("not today")

    quote = quoted(desk.shop)
    before = desk.shop.ask(_numbers)
    with pytest.raises(Refused):
        desk.shop.run(refuse)
    desk.shop.rehearse(jobs.book, quote)
    assert desk.shop.ask(_numbers) == before
    desk.book()
    after = desk.shop.ask(_numbers)
    assert after["jobs"] == max(before.values()) + 1


def test_a_question_writes_nothing(desk: Desk) -> None:
    before = desk.shop.ask(_numbers)
    desk.shop.ask(jobs.open_jobs)
    assert desk.shop.ask(_numbers) == before


def _numbers(unit: Unit) -> dict[str, int]:
    return changes.read(unit.session)


def _look_for_a_second(watch: ChangeWatch) -> frozenset[str]:
    end = monotonic() + change_watch.READ_SECONDS + 0.3
    found: frozenset[str] = frozenset()
    while monotonic() < end:
        found |= watch.next(_no_pause)
    return found


@pytest.mark.postgres
def test_what_happened_while_the_link_was_lost_is_found_once_it_is_back(
    server_shop: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The notice was never heard: it is the numbers that tell."""
    monkeypatch.setattr(change_watch, "SILENT_SECONDS", 0.3)
    with (
        lossy_link(server_shop) as link,
        Shop.open(server_shop, clock=Clock(), create=False) as there,
        watching(link.url) as (_, watch),
    ):
        watch.next(_no_pause)
        link.swallows_answers = True
        there.run(jobs.book, quoted(there))
        with pytest.raises(Unreachable):
            _look_for_a_second(watch)
        link.heal()
        assert heard(watch) >= {"jobs", "tapes"}


@pytest.mark.postgres
def test_ones_own_step_whose_answer_was_lost_is_found(server_shop: str) -> None:
    """Nobody here was told that it is stored, so whoever shows it has to hear of it."""
    with lossy_link(server_shop) as link, watching(link.url) as (shop, watch):
        watch.next(_no_pause)
        quote = quoted(shop)
        shop.database.patience.seconds = 0.3
        link.swallows_after = (b"INSERT INTO jobs", b"COMMIT")
        with pytest.raises(Unreachable):
            shop.run(jobs.book, quote)
        link.heal()
        watch.close()
        assert heard(watch) >= {"jobs", "tapes"}
        assert shop.ask(lambda unit: unit.session.query(JobRow).count()) == 1
