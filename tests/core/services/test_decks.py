"""The shop's fittings, decks that break down and come back, and the queue before them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from core.model.errors import Refused, WrongInput
from core.model.names import Finding
from core.model.own_shop.settings_records import Outage
from core.model.stations import Station
from core.services import deck_queue, decks, event_counts, jobs, promises, shop_overview, tapes
from core.services.own_shop import shop_document, shop_settings
from core.services.records_door import Shop
from core.store import current_settings
from core.wording.locale_figures import tape_code
from tests.support.behind import behind
from tests.support.booked import Desk, events, line, quoted


def test_a_new_shop_has_the_settings_of_its_file(tmp_path: Path) -> None:
    with Shop.open(tmp_path / "shop.sqlite") as shop:
        assert shop.ask(current_settings.read) == shop_settings.new_shop()


def test_changed_fittings_are_kept_exactly(desk: Desk) -> None:
    changed = replace(desk.shop.ask(current_settings.read), people=4, confidence=0.95)
    desk.shop.run(decks.refit, changed)
    kept = desk.shop.ask(current_settings.read)
    assert kept == replace(changed, confirmed=changed.confirmed | {"people"})
    desk.shop.run(decks.refit, replace(changed, people=1))
    assert desk.shop.ask(current_settings.read).people == 1
    assert desk.shop.verify() == ()


def test_fittings_that_cannot_be_are_refused(desk: Desk) -> None:
    before = desk.shop.ask(current_settings.read)
    with pytest.raises(WrongInput, match="people"):
        desk.shop.run(decks.refit, replace(before, people=0))
    assert desk.shop.ask(current_settings.read) == before


def test_a_deck_does_not_go_while_it_plays(desk: Desk) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 1")
    before = desk.shop.ask(current_settings.read)
    fewer = replace(before, decks=tuple(deck for deck in before.decks if deck.name != "VHS 1"))
    with pytest.raises(Refused, match=f"VHS 1 is playing tape {tape_code(tape.code)}"):
        desk.shop.run(decks.refit, fewer)


def test_the_queue_holds_what_is_not_ready_in_the_order_it_came(desk: Desk) -> None:
    first, rush = desk.book(line(count=2), line(findings=[Finding.SNAPPED])), desk.book(line())
    desk.bring_to(first.tapes[0], Station.READY)
    desk.bring_to(first.tapes[1], Station.PLAYING)
    queue = desk.shop.ask(deck_queue.waiting)
    assert [tape.code for tape in queue] == [first.tapes[1].code, first.tapes[2].code, rush.tapes[0].code]
    assert queue[0].station is Station.PLAYING
    assert queue[0].bench_minutes == 0
    assert queue[1].bench_minutes > 0


def test_a_job_that_went_home_is_in_no_queue(desk: Desk) -> None:
    job = desk.book(line())
    desk.hand_back(job, [desk.bring_to(job.tapes[0], Station.READY).code])
    assert desk.shop.ask(deck_queue.waiting) == ()


# --- what nobody planned -----------------------------------------------------------------


def test_a_deck_that_broke_plays_nothing_until_it_is_back(desk: Desk) -> None:
    tape = desk.bring_to(desk.book(line()).tapes[0], Station.CLEARED_TO_PLAY)
    desk.shop.run(decks.broke_down, "VHS 1", "eats tapes")
    with pytest.raises(Refused, match="out of service"):
        desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 1")
    with pytest.raises(Refused, match="already out of service"):
        desk.shop.run(decks.broke_down, "VHS 1")
    desk.clock.go_on(hours=30)
    desk.shop.run(decks.back_in_service, "VHS 1", "new belt")
    with pytest.raises(Refused, match="already in service"):
        desk.shop.run(decks.back_in_service, "VHS 1")
    (gone,) = desk.shop.ask(event_counts.outages)
    assert (gone.deck, gone.words, gone.mended, gone.hours(desk.clock())) == (
        "VHS 1",
        "eats tapes",
        "new belt",
        30,
    )
    assert desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 1").deck == "VHS 1"
    assert desk.shop.verify() == ()


def test_a_deck_may_break_with_a_tape_in_it(desk: Desk) -> None:
    tape = desk.bring_to(desk.book(line()).tapes[0], Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 1")
    desk.shop.run(decks.broke_down, "VHS 1")
    assert desk.shop.ask(tapes.get, tape.code).deck == "VHS 1"
    assert desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY).deck is None


def test_a_deck_nobody_has_cannot_break(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="this shop has VHS 1"):
        desk.shop.run(decks.broke_down, "VHS 99")


def test_what_broke_is_never_changed_afterwards(desk: Desk) -> None:
    desk.shop.run(decks.broke_down, "VHS 1")
    with pytest.raises(Exception, match="append-only"), desk.shop.database.writing.begin() as connection:
        connection.execute(behind("DELETE FROM deck_events"))


def test_a_planned_outage_is_kept_and_taken_back(desk: Desk) -> None:
    today = desk.clock().date()
    service = Outage("VHS 1", today + timedelta(days=3), today + timedelta(days=5))
    assert desk.shop.run(decks.plan_outage, service, "new belts").outages == (service,)
    with pytest.raises(
        Refused, match="already planned to be out of service from Friday, March 6 to Sunday, March 8"
    ):
        desk.shop.run(decks.plan_outage, replace(service, begins=service.ends, ends=service.ends))
    assert desk.shop.run(decks.cancel_outage, service, "the belts are late").outages == ()
    with pytest.raises(Refused, match="somebody has canceled it already"):
        desk.shop.run(decks.cancel_outage, service)
    (told,) = events(desk.shop, "outage-planned")
    assert told.words == "VHS 1 planned out of service from Friday, March 6 to Sunday, March 8: new belts"
    assert desk.shop.verify() == ()


def test_an_outage_that_has_begun_ends_with_yesterday(desk: Desk) -> None:
    today = desk.clock().date()
    service = Outage("VHS 1", today, today + timedelta(days=4))
    desk.shop.run(decks.plan_outage, service)
    desk.clock.go_on(days=2)
    (left,) = desk.shop.run(decks.cancel_outage, service).outages
    assert (left.begins, left.ends) == (today, today + timedelta(days=1))
    with pytest.raises(Refused, match="That is over and stays on record"):
        desk.shop.run(decks.cancel_outage, left)


def test_an_outage_that_cannot_be_is_refused_by_name(desk: Desk) -> None:
    today = desk.clock().date()
    for outage, wrong in (
        (Outage("VHS 99", today, today), "deck"),
        (Outage("VHS 1", today, today - timedelta(days=1)), "not before the first"),
        (Outage("VHS 1", today - timedelta(days=9), today - timedelta(days=8)), "from today on"),
        (Outage("VHS 1", today, today + timedelta(days=5000)), "within 730 days"),
    ):
        with pytest.raises(WrongInput, match=wrong):
            desk.shop.run(decks.plan_outage, outage)
    assert desk.shop.ask(current_settings.read).outages == ()


def test_a_planned_outage_moves_the_date(desk: Desk) -> None:
    before = quoted(desk.shop, line("minidv", marking="DVM60")).promise.day
    today = desk.clock().date()
    desk.shop.run(decks.plan_outage, Outage("MiniDV", today, today + timedelta(days=20)))
    after = quoted(desk.shop, line("minidv", marking="DVM60")).promise.day
    assert before is not None
    assert after is not None
    assert after > today + timedelta(days=20) > before


def test_what_was_counted_becomes_what_is_reckoned_with(desk: Desk) -> None:
    assert desk.shop.ask(event_counts.reckoned) == desk.shop.ask(current_settings.read)
    tape = desk.book(line()).tapes[0]
    desk.bring_to(tape, Station.BEING_CHECKED, minutes=120.0)
    desk.shop.run(decks.broke_down, "VHS 1")
    desk.clock.go_on(hours=10)
    counted = desk.shop.ask(event_counts.counted)
    assert (counted.failures, counted.play_hours, counted.repairs, counted.repair_hours) == (1, 2.0, 0, 10)
    assert desk.shop.ask(event_counts.reckoned).expected.hours_between_failures == (400 + 2) / 2
    assert desk.shop.ask(current_settings.read).expected.hours_between_failures == 400


def test_rush_boxes_are_counted_by_month(desk: Desk) -> None:
    for _ in range(6):
        quote = quoted(desk.shop, line(count=2))
        hurried = replace(quote, inventory=replace(quote.inventory, rush=True))
        desk.shop.run(jobs.book, hurried)
        desk.clock.go_on(days=7)
    counted = desk.shop.ask(event_counts.counted)
    assert [(each.month, each.boxes, each.tapes) for each in counted.rush] == [(3, 5, 10), (4, 1, 2)]
    assert counted.weeks == pytest.approx(6)
    whole = (4 * 1.0 + 6) / (4 + 6)  # what was stated is worth four weeks
    april = (4 * whole + 1) / (4 + 13 / 7)
    assert desk.shop.ask(event_counts.reckoned).expected.rush_boxes_a_week == pytest.approx(april)


def test_the_queue_knows_the_deck_a_tape_plays_on(desk: Desk) -> None:
    tape = desk.bring_to(desk.book(line()).tapes[0], Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 2")
    assert [each.deck for each in desk.shop.ask(deck_queue.waiting)] == ["VHS 2"]


def _change(desk: Desk, *typed: tuple[str, str]) -> None:
    desk.shop.run(shop_document.set_texts, typed)


def test_a_retired_deck_keeps_its_name_and_is_in_no_plan(desk: Desk) -> None:
    _change(desk, ("deck.VHS 2.retired", "true"))
    fitted = desk.shop.ask(current_settings.read)
    gone = next(deck for deck in fitted.decks if deck.name == "VHS 2")
    assert gone.retired
    assert not gone.in_service
    assert gone not in fitted.working_decks
    assert "VHS 2" not in {deck.name for deck in desk.shop.ask(promises.reckoned).decks}
    assert "VHS 2" not in {lane.deck.name for lane in desk.shop.ask(shop_overview.read).week.timelines}
    for step in (decks.broke_down, decks.back_in_service):
        with pytest.raises(Refused, match="VHS 2 is retired"):
            desk.shop.run(step, "VHS 2")
    _change(desk, ("deck.VHS 2.retired", "false"), ("deck.VHS 2.in_service", "true"))
    assert (
        desk.shop.ask(current_settings.read).working_decks
        == fitted.decks[:1] + (replace(gone, retired=False, in_service=True),) + fitted.decks[2:]
    )


@pytest.mark.parametrize("typed", [("deck.VHS 1.retired", "true"), ("deck.VHS 1.name", "VHS A")])
def test_a_deck_that_plays_is_neither_retired_nor_renamed(desk: Desk, typed: tuple[str, str]) -> None:
    tape = desk.book(line()).tapes[0]
    desk.bring_to(tape, Station.PLAYING, deck="VHS 1")
    before = desk.shop.ask(current_settings.read)
    playing = f"Deck VHS 1 is playing tape {tape_code(tape.code)}. Take the tape off"
    with pytest.raises(Refused, match=playing):
        _change(desk, typed)
    assert desk.shop.ask(current_settings.read) == before


def test_a_renamed_deck_keeps_its_outages_and_what_was_counted(desk: Desk) -> None:
    planned = Outage("VHS 1", date(2026, 3, 10), date(2026, 3, 12))
    desk.shop.run(decks.plan_outage, planned)
    desk.shop.run(decks.broke_down, "VHS 1", "eats tapes")
    _change(desk, ("deck.VHS 1.name", "VHS A"))
    assert desk.shop.ask(current_settings.read).outages == (replace(planned, deck="VHS A"),)
    assert [each.deck for each in desk.shop.ask(event_counts.outages)] == ["VHS A"]
    assert desk.shop.ask(promises.reckoned).expected.awaited == {"VHS A"}
    desk.clock.go_on(days=2)
    desk.shop.run(decks.back_in_service, "VHS A", "new belt")
    (mended,) = desk.shop.ask(event_counts.outages)
    assert mended.hours(desk.clock()) == 48
    _change(desk, ("deck.VHS A.name", "VHS 1"))
    assert [each.deck for each in desk.shop.ask(event_counts.outages)] == ["VHS 1"]
