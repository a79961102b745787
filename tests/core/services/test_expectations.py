"""What the shop states of failures, rush boxes and closures: bounds, history, and what follows from it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Expected
from core.services import expectations
from core.store import current_settings, history
from tests.support.booked import Desk, events, line, quoted

WARY = Expected(300.0, 48.0, 2.0, 5.0, 0.02)


def test_what_is_stated_is_kept_with_what_was_stated_before(desk: Desk) -> None:
    before = desk.shop.ask(current_settings.read).expected
    assert desk.shop.run(expectations.expect, WARY).expected == WARY
    assert desk.shop.ask(current_settings.read).expected == WARY
    (told,) = events(desk.shop, "expects")
    assert "a breakdown every 300 hours of play" in told.words
    assert "2% of opening days lost" in told.words
    assert str(before.hours_to_repair) in told.payload
    assert desk.shop.verify() == ()


def test_the_same_again_is_no_step(desk: Desk) -> None:
    desk.shop.run(expectations.expect, WARY)
    lines = desk.shop.ask(history.latest)
    desk.shop.run(expectations.expect, WARY)
    assert desk.shop.ask(history.latest) == lines


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        (replace(WARY, hours_to_repair=0.0), "hours until a deck is back"),
        (replace(WARY, tapes_in_a_rush_box=0.5), "tapes in a rush order"),
        (replace(WARY, unplanned_closures=0.6), "unplanned_closures"),
        (replace(WARY, hours_between_failures=-1.0), "hours_between_failures"),
        (replace(WARY, rush_boxes_a_week=1e6), "rush_boxes_a_week"),
    ],
)
def test_what_cannot_be_is_refused_by_name(desk: Desk, wrong: Expected, named: str) -> None:
    before = desk.shop.ask(current_settings.read)
    with pytest.raises(WrongInput, match=named):
        desk.shop.run(expectations.expect, wrong)
    assert desk.shop.ask(current_settings.read) == before


def test_a_shop_that_expects_the_worst_names_later_days(desk: Desk) -> None:
    desk.shop.run(expectations.expect, Expected())
    before = quoted(desk.shop, line(count=40)).promise.day
    desk.shop.run(expectations.expect, Expected(20.0, 100.0, 8.0, 6.0, 0.2))
    after = quoted(desk.shop, line(count=40)).promise.day
    assert before is not None
    assert after is not None
    assert after > before
