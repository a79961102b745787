"""What a change of the settings would move, told beforehand and without changing anything."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Person, ShopSettings
from core.model.typed_draft import TypedBox
from core.promise import turnaround
from core.services import deck_queue, drafts, promises
from core.services.own_shop import settings_effects, settings_versions, shop_document
from core.services.own_shop.settings_effects import Effects, MovedPromise
from core.store import current_settings
from tests.support import beginnings
from tests.support.booked import Desk, inventory, line

ADA = Person("Ada", may=frozenset({"settings"}))


def _begin(desk: Desk) -> None:
    """Three orders of VHS tapes and one of 8 mm."""
    for name in ("Ada Fenwick", "Bo Marsh", "Cleo Pratt"):
        desk.book(line(count=8), name=name)
    desk.book(line(format="video8", marking="P6-120", count=2), name="Dee Lund")


begun_file, begun_server = beginnings.begun_file(_begin), beginnings.begun_server(_begin)


@pytest.fixture
def busy(desk: Desk) -> Desk:
    """A shop with these orders."""
    return desk


def _settings(desk: Desk) -> ShopSettings:
    return desk.shop.ask(current_settings.read)


def _retired(settings: ShopSettings, *names: str) -> ShopSettings:
    decks = (
        replace(deck, retired=True, in_service=False) if deck.name in names else deck
        for deck in settings.decks
    )
    return replace(settings, decks=tuple(decks))


def _days(desk: Desk) -> dict[str, object]:
    looked = desk.shop.ask(promises.load)
    queue = desk.shop.ask(deck_queue.waiting)
    found = {tape.job: turnaround.standing(looked, tape.job) for tape in queue}
    return {str(number): each.day for number, each in found.items() if each is not None}


def test_what_is_told_beforehand_is_what_comes_to_pass(busy: Desk) -> None:
    """The days told are those the shop finds itself once the change was made: same draws, same plan."""
    changed = _retired(_settings(busy), "VHS 1", "VHS 2")
    before = _days(busy)
    effects = busy.shop.ask(settings_effects.of, changed)
    assert effects.moved
    busy.shop.run(settings_versions.change, changed)
    after = _days(busy)
    assert {each.number: (each.was, each.now) for each in effects.moved} == {
        number: (before[number], after[number]) for number in before if before[number] != after[number]
    }
    assert all(each.now is not None and each.was is not None for each in effects.moved)
    assert all(each.now > each.was for each in effects.moved if each.now and each.was)


def _with(settings: ShopSettings, person: Person) -> ShopSettings:
    return replace(settings, staff=(person,), people=1)


def test_own_hours_move_what_they_will_move(busy: Desk) -> None:
    """Half days of the only person: the days told are those found once they are kept."""
    settings = _with(_settings(busy), ADA)
    busy.shop.run(settings_versions.change, settings)
    before = _days(busy)
    busy.shop.who = ADA.name
    mornings = tuple(OpeningHours(day, 9 * 60, 11 * 60) for day in range(7))
    changed = _with(settings, replace(ADA, hours=mornings))
    effects = busy.shop.ask(settings_effects.of, changed)
    busy.shop.run(settings_versions.change, changed)
    after = _days(busy)
    assert effects.moved
    assert {each.number: (each.was, each.now) for each in effects.moved} == {
        number: (before[number], after[number]) for number in before if before[number] != after[number]
    }


def test_an_order_nobody_can_work_on_has_no_day(busy: Desk) -> None:
    unable = replace(ADA, can=frozenset({"splice", "check"}))
    moved = busy.shop.ask(settings_effects.of, _with(_settings(busy), unable)).moved
    assert [(each.now, each.lack) for each in moved] == [(None, "people")] * 4
    assert "nobody could do the work on 8 of its tapes." in moved[0].words


def test_who_somebody_is_and_what_they_may_moves_nothing(busy: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    busy.shop.run(settings_versions.change, _with(_settings(busy), replace(ADA, can=frozenset({"load"}))))
    other = replace(ADA, name="Eve", may=frozenset({"settings", "refund"}), can=frozenset({"load"}))
    about = busy.shop.ask(settings_effects.about, _with(_settings(busy), other))
    monkeypatch.setattr(turnaround, "load", None)
    assert about.answer() == Effects((), 0)


def test_an_order_nothing_can_play_any_more_has_no_day(busy: Desk) -> None:
    (gone,) = busy.shop.ask(settings_effects.of, _retired(_settings(busy), "8 mm")).moved
    assert (gone.customer, gone.now, gone.stranded) == ("Dee Lund", None, 2)
    assert gone.is_late
    assert "no deck would be left for 2 of its tapes." in gone.words


def test_a_change_no_plan_looks_at_moves_nothing_and_plans_nothing(
    busy: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings = _settings(busy)
    about = busy.shop.ask(
        settings_effects.about, replace(settings, front=replace(settings.front, name="The Second Reel"))
    )
    monkeypatch.setattr(turnaround, "load", None)
    assert about.answer() == Effects((), 0)
    assert about.answer().lines == ("No open promise would move.",)


def test_boxes_being_quoted_are_counted(busy: Desk) -> None:
    busy.shop.run(drafts.keep, "counter Kim", inventory())
    busy.shop.run(drafts.keep, "counter Robin", TypedBox(rows=()))
    effects = busy.shop.ask(settings_effects.of, _settings(busy))
    assert effects.drafts == 2
    assert "2 boxes on the counters are being quoted" in effects.lines[-1]


def test_asking_changes_nothing(busy: Desk) -> None:
    before, days = busy.shop.ask(shop_document.export), _days(busy)
    busy.shop.ask(settings_effects.of, replace(_settings(busy), people=1, openings=()))
    assert (busy.shop.ask(shop_document.export), _days(busy)) == (before, days)


def test_a_rehearsed_step_gives_its_answer_and_stores_nothing(busy: Desk) -> None:
    before = busy.shop.ask(shop_document.export)
    busy.shop.rehearse(shop_document.set_texts, [("work.people", "5")])
    assert busy.shop.ask(shop_document.export) == before
    assert busy.shop.verify() == ()


def test_those_past_their_promise_come_first(desk: Desk) -> None:
    day = desk.clock().date()
    sooner = MovedPromise(desk.book(line()).number, "Ada", day, day, day - timedelta(days=1))
    later = replace(sooner, customer="Bo", now=day + timedelta(days=1))
    within = replace(sooner, customer="Cleo", promised=day + timedelta(days=9), now=day + timedelta(days=1))
    assert (sooner.is_late, later.is_late, within.is_late) == (False, True, False)
    told = Effects((later, sooner), 0).lines
    assert told[0] == "2 open promises would move; 1 of them past the day it was promised for."
    assert "too late" in told[1]
