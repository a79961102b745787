"""Each free deck is told its tape, and no tape goes to two decks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from core.model.ranges import exactly
from core.model.settings_records import Outage
from core.model.stations import Station
from core.scheduling.plan import estimate
from core.services import decks, decks_to_load
from core.services.decks_to_load import dealt, free_decks
from tests.support.booked import Desk, line
from tests.support.shops import TUESDAY, deck, fittings, queued

SHOP = fittings(deck("S-VHS", "vhs", "s-vhs"), deck("VHS", "vhs"), deck("MiniDV", "minidv"))
TODAY = TUESDAY.date()


def names(*playing: str | None, **changes: object) -> list[str]:
    queue = [
        replace(queued(n, station=Station.PLAYING), deck=name) for n, name in enumerate(playing, start=1)
    ]
    return [each.name for each in free_decks(replace(SHOP, **changes), queue, TODAY)]  # type: ignore[arg-type]


def test_a_deck_is_free_with_no_tape_in_it_and_in_service() -> None:
    assert names() == ["VHS", "MiniDV", "S-VHS"]
    assert names("VHS") == ["MiniDV", "S-VHS"]
    assert names(decks=(deck("VHS", "vhs", in_service=False), deck("MiniDV", "minidv"))) == ["MiniDV"]


def test_a_tape_that_plays_nobody_said_where_takes_a_deck_all_the_same() -> None:
    assert names(None) == ["MiniDV", "S-VHS"]
    assert names(None, "VHS") == ["MiniDV"]


def test_a_deck_out_by_plan_is_free_again_the_day_after() -> None:
    until_yesterday = Outage("VHS", date(2026, 3, 1), date(2026, 3, 2))
    assert "VHS" not in names(outages=(replace(until_yesterday, ends=TODAY),))
    assert "VHS" in names(outages=(until_yesterday,))


def test_no_tape_goes_to_two_decks_and_the_least_flexible_chooses_first() -> None:
    long, short = queued(1, minutes=exactly(90)), queued(2, minutes=exactly(60))
    found = dealt(SHOP, [short, long], TUESDAY)
    assert "MiniDV" not in found
    assert {name: each.tape for name, each in found.items()} == {"VHS": long, "S-VHS": short}


def test_the_records_and_the_end_are_told_in_the_order_of_the_fittings(desk: Desk) -> None:
    job = desk.book(line("vhs", 2), line("minidv", marking="DVM60"))
    for tape in job.tapes[:2]:
        desk.bring_to(tape, Station.CLEARED_TO_PLAY)
    found = desk.shop.ask(decks_to_load.read)
    assert [each.deck for each in found[:2]] == ["VHS 1", "VHS 2"]
    assert {each.tape and each.tape.code for each in found[:2]} == {tape.code for tape in job.tapes[:2]}
    planned = 3 + estimate(desk.shop.ask(decks.queue)[0].minutes)  # three minutes to load it
    assert [each.ends for each in found[:2]] == [desk.clock() + timedelta(minutes=planned)] * 2
    assert {(each.tape, each.why) for each in found[2:]} == {
        (None, "The next tapes are not cleared to play yet.")
    }
