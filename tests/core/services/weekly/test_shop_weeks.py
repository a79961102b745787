"""The last weeks as the records tell them; a line that keeps growing is told wherever a date is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.cli import json_answers, plain_answers
from core.model.names import FormatName
from core.model.own_shop.settings_records import ShopSettings
from core.model.stations import Station
from core.promise.backlogs import ShopWeek
from core.services import decks, promises, shop_overview, shop_snapshot
from core.services.weekly import shop_weeks
from core.store import current_settings
from core.store.unit import Unit
from tests.support.beginnings import begun_file, begun_server
from tests.support.booked import Desk, inventory, line

WEEKS = 5
TAPES = 12
"""Of some 75 minutes each, a week: one deck plays nine hours, on the one day on which the shop is open."""


def _one_deck_one_day(unit: Unit) -> ShopSettings:
    fitted = current_settings.read(unit)
    first = next(deck for deck in fitted.decks if FormatName("vhs") in deck.plays)
    return decks.refit(unit, replace(fitted, decks=(first,), openings=fitted.openings[:1]))


def _five_weeks(desk: Desk) -> None:
    desk.shop.run(_one_deck_one_day)
    job = desk.book(line(count=TAPES))
    desk.clock.go_on(days=7)
    for _ in range(WEEKS - 1):
        job = desk.book(line(count=TAPES))
        desk.clock.go_on(days=7)
    desk.writes_copies = False
    desk.bring_to(job.tapes[0], Station.BEING_CHECKED, minutes=100.0)


begun_file = begun_file(_five_weeks)
begun_server = begun_server(_five_weeks)


def read(unit: Unit) -> tuple[ShopWeek, ...]:
    return shop_weeks.read(unit, promises.reckoned(unit))


@pytest.fixture(autouse=True)
def _later(desk: Desk) -> None:
    desk.clock.go_on(days=7 * WEEKS)


def test_each_week_is_counted_with_what_came_in_and_what_was_played(desk: Desk) -> None:
    weeks = desk.shop.ask(read)
    assert len(weeks) == WEEKS
    assert all(12 * 60 < week.all_that_came < 18 * 60 for week in weeks)
    assert [week.played for week in weeks] == [100.0, 0, 0, 0, 0]


def test_the_line_is_told_at_the_counter_to_the_owner_and_on_the_command_line(desk: Desk) -> None:
    looked = desk.shop.ask(promises.load)
    backlog = looked.backlog
    assert backlog is not None
    assert (backlog.by, backlog.decks) == ("decks", 1)
    quote = desk.shop.ask(shop_snapshot.read).quote(inventory(line()), desk.clock())
    assert quote.promise.held_by[0] == backlog.sentence
    assert desk.shop.ask(shop_overview.read).backlog == backlog
    kept = desk.shop.ask(promises.under_review, looked)
    told = json_answers.promises(kept, backlog)["backlog"]
    assert isinstance(told, dict)
    assert (told["short_of"], told["weeks"], told["sentence"]) == ("decks", WEEKS, backlog.sentence)
    assert backlog.sentence in plain_answers.promises(kept, backlog)


def test_weeks_beyond_the_last_eight_are_not_looked_at(desk: Desk) -> None:
    desk.clock.go_on(days=7 * 9)
    assert all(week.all_that_came == 0 for week in desk.shop.ask(read))
    assert desk.shop.ask(promises.load).backlog is None
