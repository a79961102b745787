"""What was seen without playing a tape is kept: the look-over in one go, the packs as a line of history."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.errors import Refused, Unconfirmed, WrongInput
from core.model.names import Finding, Speed, TapeCode
from core.model.stations import Station
from core.services import jobs, looks, tapes
from core.store.audits import audit
from tests.support.booked import Desk, command, line, quoted


def last_line(desk: Desk, code: TapeCode) -> str:
    return desk.shop.ask(tapes.history, code)[-1].words


def test_a_look_over_brings_every_finding_and_the_station_in_one_go(desk: Desk) -> None:
    code = desk.allow(desk.book(line())).tapes[0].code

    tape = desk.shop.run(looks.look_over, code, (Finding.SNAPPED, Finding.CREASED), looked=9, of=9)

    assert tape.station is Station.LOOKED_OVER
    assert tape.findings == (Finding.SNAPPED, Finding.CREASED)
    assert "looked over, 9 of 9 steps" in last_line(desk, code)
    assert len(desk.shop.ask(tapes.history, code)) == 2
    assert desk.shop.ask(audit.verify) == ()


def test_a_mouldy_tape_is_looked_over_and_then_only_goes_apart(desk: Desk) -> None:
    code = desk.book(line()).tapes[0].code

    tape = desk.shop.run(looks.look_over, code, (Finding.MOULD,), looked=2, of=9)

    assert tape.station is Station.LOOKED_OVER
    assert "2 of 9" in last_line(desk, code)
    with pytest.raises(Refused, match="mold"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)


def test_looked_over_again_a_tape_stays_where_it_is_and_takes_the_findings(desk: Desk) -> None:
    tape = desk.bring_to(desk.book(line()).tapes[0], Station.CLEARED_TO_PLAY)

    again = desk.shop.run(looks.look_over, tape.code, (Finding.EDGE_DAMAGE,), looked=9, of=9)

    assert again.station is Station.CLEARED_TO_PLAY
    assert again.findings == (Finding.EDGE_DAMAGE,)


def test_looked_over_again_with_nothing_found_is_told_too(desk: Desk) -> None:
    tape = desk.bring_to(desk.book(line()).tapes[0], Station.CLEARED_TO_PLAY)

    desk.shop.run(looks.look_over, tape.code, (), looked=9, of=9, note="warms up for 2 hours")

    assert last_line(desk, tape.code) == "looked over, 9 of 9 steps; warms up for 2 hours"
    assert desk.shop.ask(audit.verify) == ()


def test_packs_read_become_a_line_of_history_and_change_nothing_else(desk: Desk) -> None:
    before = desk.book(line(speed=Speed.SP)).tapes[0]

    after = desk.shop.run(looks.pack_read, before.code, to_come_mm=30.21, run_mm=30.21)

    assert after == before
    words = last_line(desk, before.code)
    assert "still to come 30.21 mm, already played 30.21 mm" in words
    assert "47–53% of the tape played" in words
    assert "min to go" in words
    assert desk.shop.ask(audit.verify) == ()


def test_packs_that_do_not_add_up_say_so_in_the_history(desk: Desk) -> None:
    code = desk.book(line(marking="T-90")).tapes[0].code

    desk.shop.run(looks.pack_read, code, to_come_mm=30.21, run_mm=30.21)

    assert "the packs don't match a T-90" in last_line(desk, code)


def test_one_pack_alone_names_only_the_one_that_was_read(desk: Desk) -> None:
    code = desk.book(line()).tapes[0].code

    desk.shop.run(looks.pack_read, code, to_come_mm=None, run_mm=35)

    assert "packs read: already played 35 mm;" in last_line(desk, code)


def test_a_pack_past_the_edge_of_the_reel_is_asked_about_and_kept(desk: Desk) -> None:
    code = desk.book(line()).tapes[0].code
    with pytest.raises(Unconfirmed, match="past the edge of the reel"):
        desk.shop.run(looks.pack_read, code, to_come_mm=None, run_mm=47)
    assert len(desk.shop.ask(tapes.history, code)) == 1

    desk.shop.run(looks.pack_read, code, to_come_mm=None, run_mm=47, sure=True)
    assert "packs read: already played 47 mm;" in last_line(desk, code)


def test_a_share_far_beyond_all_of_the_tape_is_asked_about_and_kept(desk: Desk) -> None:
    """T-120: 246 to 249 m (SMPTE 32M, 2nd-hand)."""
    with pytest.raises(Unconfirmed, match=r"319\.8 meters is more than we know of"):
        desk.book(replace(line(), fill=1.3))
    longer = desk.book(replace(line(), fill=1.05))
    assert any("258" in each for each in longer.quote.warnings)
    quote = quoted(desk.shop, replace(line(), fill=1.3))
    job = desk.shop.once(command(), jobs.book, quote, sure=True).answer
    assert job.tapes[0].draft.fill == 1.3


def test_an_impossible_pack_changes_nothing(desk: Desk) -> None:
    code = desk.book(line()).tapes[0].code

    with pytest.raises(WrongInput, match="from the hub, 13 mm"):
        desk.shop.run(looks.pack_read, code, to_come_mm=9, run_mm=None)

    assert len(desk.shop.ask(tapes.history, code)) == 1


def test_packs_of_a_shell_of_unknown_hub_are_refused(desk: Desk) -> None:
    code = desk.book(line("hi8", marking="P6-120")).tapes[0].code

    with pytest.raises(Refused, match="Hi8: the hub radius is not known"):
        desk.shop.run(looks.pack_read, code, to_come_mm=12, run_mm=None)


def test_a_tape_that_has_gone_home_is_looked_at_no_more(desk: Desk) -> None:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job)

    with pytest.raises(Refused, match="handed back"):
        desk.shop.run(looks.pack_read, job.tapes[0].code, to_come_mm=30, run_mm=None)
    with pytest.raises(Refused, match="handed back"):
        desk.shop.run(looks.look_over, job.tapes[0].code, (), looked=9, of=9)


def test_a_code_nobody_knows_is_named(desk: Desk) -> None:
    with pytest.raises(WrongInput):
        desk.shop.run(looks.pack_read, TapeCode("0000180015"), to_come_mm=30, run_mm=None)
