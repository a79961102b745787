"""The price as it stands against what was agreed: asked before it is crossed, answered, and never billed
without."""

from __future__ import annotations

import pytest

from core.model.agreement_records import AgreedHow, AgreementKind, CeilingChoice, Consent
from core.model.deck_showing import Shown
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import Finding, FormatName, Join, Speed
from core.model.stations import Station
from core.services import calls, deck_findings, jobs, repair_record, tapes
from core.services.agreement import agreement_versions, agreements, call_cards, ceiling_watch
from tests.support.booked import Desk, line

ADA = Consent("Ada Fenwick")


def _three(desk: Desk) -> Job:
    return desk.book(line(count=3))


def _play(desk: Desk, job: Job, place: int, minutes: float = 366) -> Station:
    tape = desk.bring_to(job.tapes[place], Station.PLAYING)
    return desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=minutes).station


def test_three_tapes_that_run_six_hours_each_alarm_at_the_first_one(desk: Desk) -> None:
    job = _three(desk)
    assert _play(desk, job, 0) is Station.ASKING_THE_CUSTOMER
    tape = desk.shop.ask(tapes.get, job.tapes[0].code)
    assert tape.played_minutes == 366
    standing = desk.shop.ask(ceiling_watch.standing, job.number)
    assert standing.over_minor == standing.stands_minor - job.ceiling_minor > 0
    said = desk.shop.ask(tapes.history, tape.code)[-1].words
    (found,) = desk.shop.ask(calls.status, job.number)
    assert "your answer about the price" in found.spoken
    assert f"{job.ceiling_minor / 100:.2f}" in said
    assert f"{standing.stands_minor / 100:.2f}" in said


def test_no_other_tape_goes_on_a_deck_while_the_answer_is_out(desk: Desk) -> None:
    job = _three(desk)
    _play(desk, job, 0)
    tape = desk.bring_to(job.tapes[1], Station.LOOKED_OVER)
    assert tape.station is Station.LOOKED_OVER
    stopped = desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY)
    assert stopped.station is Station.ASKING_THE_CUSTOMER


def test_a_tape_that_ends_as_it_was_expected_goes_on_meanwhile(desk: Desk) -> None:
    job = _three(desk)
    second = desk.bring_to(job.tapes[1], Station.PLAYING)
    _play(desk, job, 0)
    assert desk.shop.run(tapes.move, second.code, Station.BEING_CHECKED, minutes=100).station is (
        Station.BEING_CHECKED
    )


def test_going_on_raises_the_ceiling_and_sends_the_tape_on(desk: Desk) -> None:
    job = _three(desk)
    _play(desk, job, 0)
    go_on = desk.shop.ask(call_cards.choices, job.number)[0]
    assert go_on.choice is CeilingChoice.GO_ON
    assert go_on.day is not None
    agreed = desk.shop.run(agreements.answer, job.number, CeilingChoice.GO_ON, ADA)
    assert agreed.ceiling_minor == go_on.ceiling_minor > job.ceiling_minor
    assert agreed.tapes[0].station is Station.BEING_CHECKED
    assert agreed.promise.day == go_on.day
    version = desk.shop.ask(agreement_versions.versions, job.number)[-1]
    assert (version.number, version.kind, version.choice) == (2, AgreementKind.REVISED, CeilingChoice.GO_ON)
    assert (version.agreed_by, version.by) == ("Ada Fenwick", "Kim")
    assert desk.shop.ask(ceiling_watch.standing, job.number).over_minor == 0


def test_a_ceiling_that_does_not_cover_what_was_played_is_no_yes(desk: Desk) -> None:
    job = _three(desk)
    _play(desk, job, 0)
    with pytest.raises(WrongInput, match="go on"):
        desk.shop.run(
            agreements.answer, job.number, CeilingChoice.GO_ON, ADA, ceiling_minor=job.ceiling_minor
        )
    assert desk.shop.ask(jobs.get, job.number).tapes[0].station is Station.ASKING_THE_CUSTOMER


def test_stopping_charges_the_agreed_sum_and_shows_what_is_given_away(desk: Desk) -> None:
    job = desk.book(line(count=2))
    _play(desk, job, 0)
    stop = desk.shop.ask(call_cards.choices, job.number)[1]
    stopped = desk.shop.run(agreements.answer, job.number, CeilingChoice.STOP, ADA)
    assert stopped.ceiling_minor == job.ceiling_minor == stop.price_minor
    assert [each.station for each in stopped.tapes] == [Station.BEING_CHECKED, Station.READY]
    assert set(stop.leaves) == {each.code for each in stopped.tapes[1:]}
    price = desk.shop.ask(jobs.reprice, job.number)
    given = [charge for charge in price.charges if charge.code == "ceiling"]
    assert len(given) == 1
    assert given[0].amount.likely < 0
    assert price.gross.likely == job.ceiling_minor
    assert desk.shop.run(tapes.move, stopped.tapes[0].code, Station.READY).station is Station.READY
    handed = desk.hand_back(stopped)
    assert handed.final.gross.likely == job.ceiling_minor


def test_a_tape_that_is_left_is_neither_charged_nor_held_up(desk: Desk) -> None:
    job = _three(desk)
    _play(desk, job, 0)
    left = desk.shop.run(agreements.answer, job.number, CeilingChoice.LEAVE, ADA)
    assert left.tapes[0].station is Station.READY
    assert left.tapes[0].left_out_in == 2
    assert left.ceiling_minor == job.ceiling_minor
    assert _play(desk, job, 1, 118) is Station.BEING_CHECKED
    assert _play(desk, job, 2, 118) is Station.BEING_CHECKED
    with pytest.raises(Refused, match="only waits to be picked up"):
        desk.shop.run(tapes.move, left.tapes[0].code, Station.BEING_CHECKED)


def test_everything_goes_back_when_the_customer_says_so(desk: Desk) -> None:
    job = _three(desk)
    _play(desk, job, 0)
    back = desk.shop.run(agreements.answer, job.number, CeilingChoice.RETURN_ALL, ADA)
    assert {each.station for each in back.tapes} == {Station.READY}
    assert back.copies == ()
    assert desk.shop.ask(jobs.reprice, job.number).gross.likely == 0
    assert desk.shop.ask(agreement_versions.versions, job.number)[-1].kind is AgreementKind.CANCELLED
    assert len(desk.hand_back(back).handed_back) == 3


def test_a_plain_new_ceiling_lets_the_tape_go_on_as_well(desk: Desk) -> None:
    job = _three(desk)
    _play(desk, job, 0)
    now = desk.shop.run(agreements.agree, job.number, "up to 400", ADA, ceiling_minor=40_000)
    assert now.tapes[0].station is Station.BEING_CHECKED


def test_nobody_answers_what_nobody_asked(desk: Desk) -> None:
    job = _three(desk)
    with pytest.raises(Refused, match="waiting for an answer"):
        desk.shop.run(agreements.answer, job.number, CeilingChoice.GO_ON, ADA)
    assert desk.shop.ask(call_cards.choices, job.number) == ()


def test_a_finding_that_costs_a_repair_asks_too(desk: Desk) -> None:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.LOOKED_OVER)
    asked = desk.shop.run(tapes.move, job.tapes[0].code, Station.AT_THE_BENCH, findings=[Finding.SNAPPED])
    assert asked.station is Station.ASKING_THE_CUSTOMER
    desk.shop.run(agreements.answer, job.number, CeilingChoice.GO_ON, ADA)
    assert desk.shop.ask(tapes.get, asked.code).station is Station.AT_THE_BENCH


# --- what a deck shows -------------------------------------------------------------------


def test_a_slow_speed_is_told_when_it_is_seen(desk: Desk) -> None:
    job = desk.book(line(count=3))
    tape = desk.bring_to(job.tapes[0], Station.PLAYING)
    seen = desk.shop.run(deck_findings.see, tape.code, Shown(Speed.EP))
    assert seen.station is Station.ASKING_THE_CUSTOMER
    assert seen.minutes.likely > 2 * tape.minutes.likely
    assert seen.played_minutes is None
    desk.shop.run(agreements.answer, job.number, CeilingChoice.GO_ON, ADA)
    again = desk.shop.ask(tapes.get, tape.code)
    assert again.station is Station.CLEARED_TO_PLAY


def test_digital8_in_a_hi8_shell_leaves_a_deck_that_does_not_play_it(desk: Desk) -> None:
    job = desk.book(line("hi8", marking="P6-120", speed=None))
    tape = desk.bring_to(job.tapes[0], Station.PLAYING)
    seen = desk.shop.run(deck_findings.see, tape.code, Shown(recorded_as=FormatName("digital8")))
    assert seen.shown == Shown(recorded_as=FormatName("digital8"))
    assert "the deck shows digital8" in "".join(
        each.words for each in desk.shop.ask(tapes.history, tape.code)
    )


def test_what_a_deck_shows_is_entered_while_it_plays(desk: Desk) -> None:
    job = desk.book(line())
    with pytest.raises(Refused, match="not on a deck"):
        desk.shop.run(deck_findings.see, job.tapes[0].code, Shown(Speed.EP))
    tape = desk.bring_to(job.tapes[0], Station.PLAYING)
    with pytest.raises(WrongInput, match="a speed, a recording or a TV system"):
        desk.shop.run(deck_findings.see, tape.code, Shown())


# --- whom to call first ------------------------------------------------------------------


def test_whom_to_call_first_is_what_most_waits_for(desk: Desk) -> None:
    small, large = desk.book(line(count=2)), desk.book(line(count=5))
    _play(desk, small, 0)
    _play(desk, large, 0, 370)
    waiting = desk.shop.ask(ceiling_watch.to_call)
    assert [each.number for each in waiting] == [large.number, small.number]
    assert [len(each.asking) for each in waiting] == [1, 1]
    assert all(each.standing.over_minor > 0 for each in waiting)


def test_the_answer_is_kept_with_who_and_how(desk: Desk) -> None:
    job = _three(desk)
    _play(desk, job, 0)
    signed = Consent("Ada Fenwick", AgreedHow.SIGNATURE, (((0.1, 0.1), (0.5, 0.5)),))
    desk.shop.run(agreements.answer, job.number, CeilingChoice.STOP, signed, words="stop, please")
    version = desk.shop.ask(agreement_versions.versions, job.number)[-1]
    assert version.consent == signed
    assert version.reason == "stop, please"
    assert desk.shop.verify() == ()


def test_an_entry_taken_back_asks_nobody_any_more(desk: Desk) -> None:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY, minutes=118)
    code = job.tapes[0].code
    asked = desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    assert asked.station is Station.ASKING_THE_CUSTOMER
    again = desk.shop.run(repair_record.undo_splice, code, because="it was the other tape")
    assert again.station is Station.READY
    assert "within what we agreed on again" in desk.shop.ask(tapes.history, code)[-1].words
    assert desk.shop.verify() == ()
