"""The records of the tapes to load, and when each will end."""

from __future__ import annotations

from datetime import timedelta

from core.model.stations import Station
from core.scheduling.plan_records import estimate
from core.services import deck_queue, decks_to_load
from core.wording.messages import say
from tests.support.booked import Desk, line


def test_the_records_and_the_end_are_told_in_the_order_of_the_fittings(desk: Desk) -> None:
    job = desk.book(line("vhs", 2), line("minidv", marking="DVM60"))
    for tape in job.tapes[:2]:
        desk.bring_to(tape, Station.CLEARED_TO_PLAY)
    found = desk.shop.ask(decks_to_load.read)
    assert [each.deck for each in found[:2]] == ["VHS 1", "VHS 2"]
    assert {each.tape and each.tape.code for each in found[:2]} == {tape.code for tape in job.tapes[:2]}
    planned = 3 + estimate(desk.shop.ask(deck_queue.waiting)[0].minutes)  # three minutes to load it
    assert [each.ends for each in found[:2]] == [desk.clock() + timedelta(minutes=planned)] * 2
    assert {(each.tape, each.why) for each in found[2:]} == {(None, say("bench", "none_cleared"))}
