"""A caller is answered in one breath, about their own tapes and nobody else's."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import combinations_with_replacement

import pytest

from core.model.dispositions import Disposition
from core.model.inventory import CustomerDraft
from core.model.job_records import CallerMatch
from core.model.names import Finding
from core.model.stations import Station
from core.services import calls, jobs, spoken_answer, tape_dispositions, tapes
from core.wording.messages import knows, say
from tests.support import invented_job
from tests.support.booked import KINDS, Desk, line, new_desk, quoted


def _say(desk: Desk, text: str) -> list[str]:
    return [found.spoken for found in desk.shop.ask(calls.status, text)]


def _matched(desk: Desk, text: str) -> list[tuple[str, str]]:
    return [(found.job.customer.name, found.matched) for found in desk.shop.ask(calls.status, text)]


def test_the_whole_answer_comes_in_one_breath(desk: Desk) -> None:
    job = desk.book(line(count=11), line(findings=[Finding.MOULD]), name="Maria López")
    for tape in job.tapes[:8]:
        desk.bring_to(tape, Station.READY)
    for tape in job.tapes[8:11]:
        desk.bring_to(tape, Station.PLAYING)
    desk.shop.run(tapes.move, job.tapes[11].code, Station.ASKING_THE_CUSTOMER)
    (found,) = desk.shop.ask(calls.status, "maria")
    assert found.spoken == (
        "Maria's twelve tapes: eight are ready, three are playing now, one is waiting for your answer "
        "about mold. Everything else by Tuesday, March 3, 19 chances in 20. "
        "As it stands, about $306.13 is left to pay. We are open now, until 6:00\xa0PM."
    )


def test_the_answer_is_the_same_whoever_asks(desk: Desk) -> None:
    job = desk.book()
    first = _say(desk, job.number)
    desk.shop.who = "Robin"
    assert _say(desk, job.tapes[0].code) == _say(desk, "0142") == first


def test_the_chance_is_that_of_this_moment(desk: Desk) -> None:
    job = desk.book(line(count=4))
    (before,) = desk.shop.ask(calls.status, job.number)
    assert before.job.promise.day == job.promise.day
    desk.clock.go_on(days=30)
    (late,) = desk.shop.ask(calls.status, job.number)
    assert late.job.promise.day == job.promise.day
    assert late.job.promise.stated == 0
    assert "are late; we will call you" in late.spoken


def test_a_promise_that_has_become_doubtful_is_not_repeated(desk: Desk) -> None:
    job = desk.book()
    day = job.promise.day
    assert day is not None
    assert "may be later" in spoken_answer.answer(job, day, 0.4)
    assert "19 chances in 20" in spoken_answer.answer(job, day, 0.95)
    undated = replace(job, promise=replace(job.promise, day=None))
    assert "no date for it yet" in spoken_answer.answer(undated, day, None)


@pytest.mark.parametrize(
    ("stations", "said"),
    [
        ([Station.READY], "Ada's tape is ready. Everything can be picked up whenever we are open."),
        ([Station.READY, Station.READY], "Ada's two tapes are both ready. Everything can be"),
        ([Station.PLAYING] * 3, "Ada's three tapes are all playing now. Everything by"),
        ([Station.READY, Station.CANNOT_BE_PLAYED], "one is ready, one cannot be played. Everything can be"),
    ],
)
def test_short_answers_read_well(desk: Desk, stations: list[Station], said: str) -> None:
    job = desk.book(line(count=len(stations)))
    for tape, station in zip(job.tapes, stations, strict=True):
        if station is Station.CANNOT_BE_PLAYED:
            desk.shop.run(tapes.move, tape.code, station)
        else:
            desk.bring_to(tape, station)
    desk.write_copies(job.number)
    assert said in _say(desk, job.number)[0]


@pytest.mark.parametrize("aside", [Station.KEPT_APART, Station.ASKING_THE_CUSTOMER])
def test_a_box_that_only_waits_for_its_owner_is_told_no_day(desk: Desk, aside: Station) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY)
    desk.shop.run(tapes.move, job.tapes[1].code, aside)
    for days in (0, 119):
        desk.clock.go_on(days=days)
        (said,) = _say(desk, job.number)
        assert "chances in 20" not in said
        assert "we will call you" not in said
        assert say("spoken", "pick-up-else") in said


def test_a_note_for_the_customer_about_a_settled_tape_is_told(desk: Desk) -> None:
    job = desk.book(line(count=3))
    _, blank, ours = (tape.code for tape in job.tapes)
    desk.bring_to(job.tapes[0], Station.READY)
    note = "blank to the end; the other side as well"
    desk.shop.run(tape_dispositions.settle, blank, Disposition.NOTHING_ON_IT, note=note, tell=True)
    desk.shop.run(tape_dispositions.settle, ours, Disposition.NOT_WANTED, note="she was cross")
    desk.write_copies(job.number)
    (said,) = _say(desk, job.number)
    assert f"About “VHS T-120”: {note}. Everything can be picked up" in said
    assert "cross" not in said
    desk.hand_back(job, [blank])
    assert note not in _say(desk, job.number)[0], "it is home, and the receipt says so"


def test_what_waits_says_why(desk: Desk) -> None:
    """A question about the price is told although the tape has findings; so is a note beside them."""
    job = desk.book(line(findings=[Finding.MOULD]), line())
    tape = job.tapes[0].code
    desk.shop.run(tapes.move, tape, Station.ASKING_THE_CUSTOMER, note="a specialist’s price", tell=True)
    assert "about mold and a specialist’s price" in _say(desk, job.number)[0]


def test_a_tape_that_came_in_cold_is_warming_up(desk: Desk) -> None:
    quote = quoted(desk.shop, line(count=2))
    cold = replace(quote, inventory=replace(quote.inventory, cold=True))
    job = desk.shop.run(jobs.book, cold)
    assert "both warming up before they play" in _say(desk, job.number)[0]
    desk.clock.go_on(days=2)
    assert "waiting for their turn" in _say(desk, job.number)[0]


def test_a_tape_no_deck_here_plays_does_not_wait_for_its_turn(desk: Desk) -> None:
    job = desk.book(line(), line("u-matic", marking=None, speed=None))
    assert job.tapes[1].verdict.elsewhere is not None
    (said,) = _say(desk, job.number)
    assert "one is waiting for its turn, one cannot be copied here. Everything else by" in said


_WAYS = {
    "ready": (Station.READY, False, False),
    "labeled": (Station.READY, True, True),
    "unlabeled": (Station.READY, True, False),
    "cannot": (Station.CANNOT_BE_PLAYED, False, False),
    "cannot-unlabeled": (Station.CANNOT_BE_PLAYED, True, False),
    "apart": (Station.KEPT_APART, False, False),
    "asking": (Station.ASKING_THE_CUSTOMER, False, False),
    "playing": (Station.PLAYING, False, False),
    "home": (Station.HANDED_BACK, True, True),
}
"""Station, whether not for reuse, whether labeled."""


@pytest.mark.parametrize("ways", list(combinations_with_replacement(_WAYS, 3)), ids="-".join)
def test_all_is_ready_only_when_every_tape_may_leave(ways: Sequence[str]) -> None:
    """All combinations: never while a label is missing, a tape is set aside or at work."""
    booked = invented_job.job(3)
    standing = [_WAYS[way] for way in ways]
    now = [
        replace(tape, station=station, not_for_reuse=spliced, marked_at=booked.booked_at if on else None)
        for tape, (station, spliced, on) in zip(booked.tapes, standing, strict=True)
    ]
    said = spoken_answer.answer(replace(booked, tapes=tuple(now)), date(2026, 7, 9), 0.97)
    stops = {"unlabeled", "cannot-unlabeled", "apart", "asking", "playing"} & set(ways)
    is_open = set(ways) != {"home"}
    assert (say("spoken", "pick-up") in said) is (is_open and not stops)
    assert ("all ready" in said) is (set(ways) <= {"ready", "labeled"})
    assert ("late" in said) is ("playing" in ways)
    assert "chances in 20" not in said
    may_leave = {"ready", "labeled", "cannot"} & set(ways)
    only_owner = bool(stops) and "playing" not in ways and bool(may_leave)
    assert (say("spoken", "pick-up-else") in said) is only_owner


def test_tapes_that_went_home_are_said_to_have_gone(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.hand_back(job, [desk.bring_to(job.tapes[0], Station.READY).code])
    assert _say(desk, job.number)[0].startswith(
        "Ada's two tapes: one is waiting for its turn, one went home already."
    )
    due = desk.shop.ask(calls.status, job.number)[0].job
    desk.bring_to(job.tapes[1], Station.READY)
    owed = desk.shop.ask(jobs.reprice, job.number).due.likely - due.paid_minor
    desk.hand_back(job, [job.tapes[1].code], paid_minor=owed)
    assert _say(desk, job.number) == ["Ada's two tapes both went home already."]


def test_a_question_for_the_customer_is_what_the_caller_hears(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.shop.run(tapes.move, job.tapes[0].code, Station.ASKING_THE_CUSTOMER, note="the wedding", tell=True)
    assert "one is waiting for your answer about the wedding" in _say(desk, job.number)[0]


def test_a_note_for_us_is_never_said(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.shop.run(tapes.move, job.tapes[0].code, Station.ASKING_THE_CUSTOMER, note="he argues about prices")
    assert "one is waiting for your answer." in _say(desk, job.number)[0]
    assert "prices" not in _say(desk, job.number)[0]


@pytest.mark.parametrize("finding", list(Finding))
def test_a_caller_is_asked_about_a_thing_and_not_about_a_word(desk: Desk, finding: Finding) -> None:
    job = desk.book(line(count=2))
    desk.shop.run(tapes.move, job.tapes[0].code, Station.ASKING_THE_CUSTOMER, findings=[finding])
    said = _say(desk, job.number)[0]
    things = r"(an? [a-z ]+|mold|missing sound|the rights to a commercial recording)"
    assert re.search(rf"one is waiting for your answer about {things}\. Everything else", said), said


def test_three_things_to_ask_about_are_listed(desk: Desk) -> None:
    job = desk.book(line())
    found = [Finding.MOULD, Finding.SCRATCHED, Finding.CREASED]
    desk.shop.run(tapes.move, job.tapes[0].code, Station.ASKING_THE_CUSTOMER, findings=found)
    assert "is waiting for your answer about mold, a scratch, and a crease." in _say(desk, job.number)[0]


# --- who is calling ----------------------------------------------------------------------


PEOPLE = (
    ("Łucja Núñez", "+48 601 123 456"),
    ("Ada Fenwick", "(303) 555-0142"),
    ("Adam Fenn", "(303) 555-0199"),
    ("Jörg Müller-Weiß", None),
    ("O'Brien, Pat", "020 7946 0018"),
)


@pytest.fixture(scope="module", params=KINDS)
def town(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """A shop with a job of each of them, made once: who only asks leaves it as it was."""
    with new_desk(request, request.param, tmp_path_factory.mktemp("town")) as made:
        yield _settled(made)


def _settled(desk: Desk) -> Desk:
    for name, phone in PEOPLE:
        desk.book(name=name, phone=phone)
    return desk


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("000018", [("Łucja Núñez", "number")]),
        ("18", [("Łucja Núñez", "number")]),
        ("0000260014", [("Ada Fenwick", "tape-code")]),
        ("601 123", [("Łucja Núñez", "phone")]),
        ("0601", [("Łucja Núñez", "phone")]),
        ("555-0142", [("Ada Fenwick", "phone")]),
        ("5550", [("Adam Fenn", "phone"), ("Ada Fenwick", "phone")]),
        ("Ada", [("Ada Fenwick", "name"), ("Adam Fenn", "name")]),
        ("ada f", [("Ada Fenwick", "name"), ("Adam Fenn", "name")]),
        ("fenw", [("Ada Fenwick", "name")]),
        ("fenwick ada", [("Ada Fenwick", "name")]),
        ("LUCJA", [("Łucja Núñez", "name")]),
        ("núñez", [("Łucja Núñez", "name")]),
        ("weiss", [("Jörg Müller-Weiß", "name")]),
        ("brien", [("O'Brien, Pat", "name")]),
        ("j", [("Jörg Müller-Weiß", "name")]),
        ("fenwik", [("Ada Fenwick", "similar-name")]),
        ("ada fenwich", [("Ada Fenwick", "similar-name")]),
        ("nunes", [("Łucja Núñez", "similar-name")]),
        ("zebra", []),
        ("", []),
        ("  ", []),
        ("%", []),
        ("_ _ _", []),
        ("';--", []),
        ("12", []),
        ("999999", []),
    ],
)
def test_a_caller_is_found_by_what_they_say(town: Desk, text: str, found: list[tuple[str, str]]) -> None:
    assert _matched(town, text) == found


def test_a_name_put_right_is_found_by_its_new_spelling_only(desk: Desk) -> None:
    town = _settled(desk)
    assert _matched(town, "fenwik") == [("Ada Fenwick", "similar-name")]
    number = town.shop.ask(calls.status, "fenwick")[0].job.number
    town.shop.run(jobs.correct_customer, number, CustomerDraft("Ada Greenhalgh"))
    assert _matched(town, "fenwik") == []
    assert _matched(town, "grenhalgh") == [("Ada Greenhalgh", "similar-name")]
    town.book(name="Ida Grunhalg")
    assert [name for name, _ in _matched(town, "grinhalgh")] == ["Ada Greenhalgh", "Ida Grunhalg"]


def test_nobody_hears_of_somebody_elses_tapes(town: Desk) -> None:
    for found in town.shop.ask(calls.status, "ada"):
        others = {"Fenwick", "Fenn"} - set(found.job.customer.name.split())
        assert not any(other in found.spoken for other in others)
        assert not any(code in found.spoken for code in ("000026", "000034"))


def test_one_person_is_kept_once_and_all_open_jobs_are_told(desk: Desk) -> None:
    first, second, third = desk.book(), desk.book(), desk.book()
    desk.hand_back(second, [desk.bring_to(tape, Station.READY).code for tape in second.tapes])
    assert [found.job.number for found in desk.shop.ask(calls.status, "fenwick")] == [
        first.number,
        third.number,
    ]


def test_with_no_open_job_the_last_one_is_told(desk: Desk) -> None:
    for _ in range(2):
        job = desk.book(line())
        desk.hand_back(job, [desk.bring_to(job.tapes[0], Station.READY).code])
    found: tuple[CallerMatch, ...] = desk.shop.ask(calls.status, "0142")
    assert [each.job.number for each in found] == [job.number]


def test_the_same_name_with_another_phone_is_somebody_else(desk: Desk) -> None:
    one, other = desk.book(), desk.book(phone="(303) 555-0177")
    assert [found.job.number for found in desk.shop.ask(calls.status, "0177")] == [other.number]
    assert [found.job.number for found in desk.shop.ask(calls.status, "0142")] == [one.number]
    assert len(desk.shop.ask(jobs.open_jobs)) == 2


@pytest.mark.parametrize(
    ("dispositions_of", "said"),
    [
        ([Disposition.NOTHING_ON_IT, None], "Ada's two tapes: one is ready, one is blank. Everything can be"),
        ([Disposition.NOTHING_ON_IT] * 2, "Ada's two tapes are both blank; there is nothing on them. Every"),
        ([Disposition.NOT_WANTED], "Ada's tape was not copied, as you wished. Everything can be"),
        (
            [Disposition.REPAIR_DECLINED, None],
            "one is ready, one was left as it is, not repaired and not copied. Every",
        ),
        ([Disposition.COPIED_IN_PART, None], "one is ready, one is ready, copied in part. Everything"),
        ([Disposition.SENT_ELSEWHERE], "Ada's tape is back from the shop we sent it to. Everything can"),
        ([Disposition.LOST, None], "one is ready, one we would like to talk to you about. Everything else"),
        ([Disposition.DAMAGED], "We would like to talk to you about Ada's tape."),
    ],
)
def test_a_caller_hears_what_became_of_each_tape(
    desk: Desk, dispositions_of: list[Disposition | None], said: str
) -> None:
    job = desk.book(line(count=len(dispositions_of)))
    for tape, disposition in zip(job.tapes, dispositions_of, strict=True):
        if disposition is None or disposition.is_copied:
            desk.bring_to(tape, Station.READY, minutes=30)
        if disposition is not None:
            tell = disposition.needs_incident  # what is told of the others is said
            desk.shop.run(tape_dispositions.settle, tape.code, disposition, note="deck 2 ate it", tell=tell)
    found = _say(desk, job.number)[0]
    assert said in found
    assert "deck 2" not in found


def test_no_disposition_is_told_as_another() -> None:
    told = [each for _, dispositions_of in spoken_answer._SETTLED for each in dispositions_of]
    assert sorted([*told, Disposition.COPIED], key=str) == sorted(Disposition, key=str)
    assert all(knows("spoken", f"{how}-{name}") for how in ("all", "some") for name in spoken_answer._ORDER)
