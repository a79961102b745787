"""How often a deck is due at the pace of this shop, told where decks go in and out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.catalogue import hazards
from core.catalogue.deck_service import SERVICES
from core.scheduling.event_rates import Counted, RushMonth
from core.services.shop_overview import ShopView
from gui.shop.deck_care import DeckCare
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place, written


@pytest.fixture
def view(place: Place) -> ShopView:
    place.records.book(line())
    found = place.turn_to(ShopScreen).view
    assert found is not None
    return found


def told(place: Place, view: ShopView, weeks: float) -> str:
    """What deck care says when the five decks played 900 hours in so many weeks."""
    counted = Counted(play_hours=900, rush=(RushMonth(3, 0, 0, weeks),))
    care = DeckCare(replace(view, counted=counted))
    place.qtbot.addWidget(care)
    return written(care)


def test_each_service_says_how_often_it_comes_at_this_pace_and_who_says_so(
    place: Place, view: ShopView
) -> None:
    said = told(place, view, 12)
    assert "A deck plays 2.1 hours a day here" in said
    assert "every 500 hours of play, about every 8 months" in said
    assert "every 1,000 hours, about every 15 months" in said
    assert "after 2,000 hours, about every 3 years" in said
    for service in SERVICES:
        assert service.source in said


def test_too_few_weeks_tell_no_pace(place: Place, view: ShopView) -> None:
    assert "hours a day here" not in told(place, view, 3)


def test_whoever_opens_a_deck_is_told_what_can_hurt(place: Place, view: ShopView) -> None:
    """Seen red: the page told what to clean and not what to be careful of."""
    said = told(place, view, 12)
    for caution in hazards.in_a_deck():
        assert caution in said
