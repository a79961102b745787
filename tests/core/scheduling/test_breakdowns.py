"""A deck that broke comes back, though nobody can say when."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from core.model.own_shop.settings_records import Expected, ShopSettings
from core.model.promise_records import Promise
from core.model.ranges import exactly
from core.promise import promise_basis
from core.promise.turnaround import load, promise
from core.promise.what_ifs import changes
from core.scheduling.breakdowns import awaiting, back_after
from core.services import decks, promises
from core.store import current_settings
from core.wording.messages import say
from tests.support.booked import Desk, line
from tests.support.shops import TUESDAY, deck, fittings, quoted

OUT = (deck("VHS 1", "vhs", in_service=False), deck("VHS 2", "vhs"))


def shop(hours: float, *names: str) -> ShopSettings:
    return awaiting(fittings(*OUT, expected=Expected(hours_to_repair=hours)), names)


def asked(shop: ShopSettings) -> Promise:
    return promise(load(shop, [], TUESDAY), [quoted(n=n, minutes=exactly(240)) for n in range(1, 21)])


def test_the_longer_a_repair_takes_the_later_is_the_date() -> None:
    whole = fittings(*(replace(each, in_service=True) for each in OUT))
    days = [
        asked(each).day or TUESDAY.date().max
        for each in (whole, shop(90, "VHS 1"), shop(900, "VHS 1"), shop(90))
    ]
    assert days[0] < days[1] < days[2] <= days[3]


def test_a_shop_whose_only_deck_broke_has_a_date_and_says_what_it_waits_for() -> None:
    alone = fittings(OUT[0], expected=Expected(hours_to_repair=18))
    assert asked(alone).day is None
    made = asked(awaiting(alone, ["VHS 1"]))
    assert made.day is not None
    assert "VHS 1 broke down, and we expect it back in about 18 hours" in made.held_by


def test_a_deck_out_of_service_for_another_reason_is_not_waited_for() -> None:
    assert not shop(18).expected.awaited
    assert not shop(18, "VHS 2").expected.awaited
    assert not any("broke down" in each for each in asked(shop(18)).held_by)


def test_repairs_are_as_long_as_they_are_on_average() -> None:
    minutes = back_after("VHS 1", 600.0, 1, 20_000)
    assert minutes.mean() == pytest.approx(600, rel=0.03)
    assert np.quantile(minutes, 0.9) == pytest.approx(600 * np.log(10), rel=0.05)


def test_a_deck_that_broke_is_still_out_of_service_in_what_a_promise_stands_on() -> None:
    assert promise_basis.of(shop(18, "VHS 1"), 0).decks == ("VHS 2",)


def test_having_the_deck_back_now_is_among_what_would_help() -> None:
    words = dict(changes(shop(18, "VHS 1"), [0]))
    assert words[say("dates", "deck_back", deck="VHS 1")].expected.awaited == frozenset()
    assert say("dates", "deck_breaks_down", deck="VHS 1") not in words


def test_the_longer_a_deck_is_out_the_later_it_is_expected(desk: Desk) -> None:
    desk.book(line())
    desk.shop.run(decks.broke_down, "VHS 1", "eats tapes")
    found = []
    for _ in range(2):
        found.append(desk.shop.ask(promises.reckoned).expected)
        desk.clock.go_on(days=10)
    assert [each.awaited for each in found] == [frozenset({"VHS 1"})] * 2
    assert found[1].hours_to_repair == found[0].hours_to_repair + 240
    desk.shop.run(decks.back_in_service, "VHS 1")
    assert desk.shop.ask(promises.reckoned).expected.awaited == frozenset()


def test_a_deck_put_back_with_the_fittings_is_not_being_repaired_any_more(desk: Desk) -> None:
    desk.book(line())
    desk.shop.run(decks.broke_down, "VHS 1")
    fitted = desk.shop.ask(current_settings.read)
    mended = replace(fitted, decks=tuple(replace(each, in_service=True) for each in fitted.decks))
    desk.shop.run(decks.refit, mended)
    before = desk.shop.ask(promises.reckoned).expected
    desk.clock.go_on(days=100)
    after = desk.shop.ask(promises.reckoned).expected
    assert (before.awaited, after.awaited) == (frozenset(), frozenset())
    assert after.hours_to_repair == before.hours_to_repair
