"""What a customer wishes for the handover, who may collect, and what a caller is asked first."""

from __future__ import annotations

import pytest

from core.model.errors import WrongInput
from core.model.handover_records import ToldHow
from core.model.job_records import Job
from core.model.signatures import Signature
from core.model.stations import Station
from core.services import calls, pickups
from core.services.after_ready import caller_check, handover_wishes, noted_calls, telling
from core.services.own_shop import shop_document
from tests.support.booked import Desk, events, line


def ready(desk: Desk) -> Job:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY)
    return job


def test_the_newest_wish_holds_and_an_empty_one_takes_it_back(desk: Desk) -> None:
    job = ready(desk)
    desk.shop.run(handover_wishes.wish, job.number, how=ToldHow.EMAIL, collector="her sister Bea Fenwick")
    desk.clock.go_on(hours=1)
    desk.shop.run(handover_wishes.wish, job.number, how=ToldHow.MESSAGE)
    wishes = desk.shop.ask(handover_wishes.of_job, job.number)
    assert wishes.how is ToldHow.MESSAGE
    assert wishes.collector is not None
    assert (wishes.collector.words, wishes.collector.said_by) == ("her sister Bea Fenwick", "Ada Fenwick")
    assert (wishes.collector.by, wishes.collector.at) == ("Kim", desk.clock.now.replace(hour=14))
    assert desk.shop.ask(telling.one, job.number).how is ToldHow.MESSAGE
    desk.shop.run(handover_wishes.wish, job.number, collector="")
    assert desk.shop.ask(handover_wishes.of_job, job.number).collector is None
    assert desk.shop.verify() == ()


def test_a_pass_phrase_is_kept_as_a_hash_and_nowhere_else(desk: Desk) -> None:
    job = ready(desk)
    kept = desk.shop.run(handover_wishes.wish, job.number, pass_phrase="Blue Heron")
    assert kept.pass_phrase.startswith("$argon2id$")
    assert all(
        "heron" not in (each.words + each.payload).lower() for each in events(desk.shop, "handover-wish")
    )
    assert handover_wishes.fits(kept.pass_phrase, "blue heron")
    assert not handover_wishes.fits(kept.pass_phrase, "blue herring")
    with pytest.raises(WrongInput) as refused:
        desk.shop.run(handover_wishes.wish, job.number, pass_phrase="abc")
    assert "abc" not in refused.value.sentence


@pytest.mark.parametrize(
    ("signer", "named", "shown", "is_kept"),
    [
        ("Ada Fenwick", "", "", True),
        ("ada fenwick", "", "", True),
        ("Bea Fenwick", "", "", False),
        ("Bea Fenwick", "", "a note signed by Ada", True),
        ("Bea Fenwick", "her sister Bea Fenwick", "", True),
        ("Cy Fenwick", "her sister Bea Fenwick", "", False),
    ],
)
def test_somebody_else_is_named_beforehand_or_shows_something(
    desk: Desk, signer: str, named: str, shown: str, is_kept: bool
) -> None:
    job = ready(desk)
    desk.shop.run(handover_wishes.wish, job.number, collector=named)
    asked = {"shown": shown, "signature": Signature(signer)}
    if not is_kept:
        with pytest.raises(WrongInput, match=signer):
            desk.hand_back(job, **asked)
        assert desk.shop.ask(pickups.latest, job.number) is None
        return
    kept = desk.hand_back(job, **asked)
    assert kept.shown == shown
    assert (kept.named.words if kept.named else "") == (named if signer == "Bea Fenwick" and named else "")
    assert desk.shop.ask(pickups.latest, job.number) == kept
    assert desk.shop.verify() == ()


def test_where_nobody_asks_nothing_has_to_be_shown(desk: Desk) -> None:
    assert desk.hand_back(ready(desk), signature=Signature("Bea Fenwick")).shown == ""


@pytest.mark.parametrize(
    ("rule", "phrase", "asked"),
    [
        ("no", "", "no"),
        ("digits", "", "digits"),
        ("digits", "blue heron", "digits"),
        ("pass-phrase", "", "digits"),
        ("pass-phrase", "blue heron", "pass-phrase"),
    ],
)
def test_what_a_caller_is_asked_is_the_owners_choice(desk: Desk, rule: str, phrase: str, asked: str) -> None:
    job = ready(desk)
    desk.shop.run(shop_document.set_texts, [("calls.check", rule)])
    if phrase:
        desk.shop.run(handover_wishes.wish, job.number, pass_phrase=phrase)
    (found,) = desk.shop.ask(calls.status, job.number)
    assert found.asks == asked
    assert found.spoken.startswith("Ada's tape is ready")
    right = phrase if asked == "pass-phrase" else "0142"
    assert desk.shop.run(caller_check.fits, job.number, asked, right)
    assert events(desk.shop, "caller-unsure") == []
    assert not desk.shop.run(caller_check.fits, job.number, asked, "9999")
    assert len(events(desk.shop, "caller-unsure")) == 1


def test_an_order_without_a_phone_number_is_asked_for_by_name(desk: Desk) -> None:
    desk.shop.run(shop_document.set_texts, [("calls.check", "digits")])
    job = desk.book(line(), phone=None)
    assert desk.shop.ask(calls.status, job.number)[0].asks == "name"
    assert not desk.shop.run(caller_check.fits, job.number, "digits", "")


def test_the_next_clerk_sees_who_called_and_when(desk: Desk) -> None:
    job = ready(desk)
    desk.clock.go_on(hours=7)
    said = desk.shop.ask(calls.status, job.number)[0].spoken
    desk.shop.run(noted_calls.note, job.number, said)
    desk.clock.go_on(days=1)
    call = desk.shop.ask(calls.status, job.number)[0].last_call
    assert call is not None
    assert call.said == said
    assert (
        desk.shop.ask(noted_calls.words, call) == "Ada Fenwick called yesterday at 4:00\xa0PM; Kim answered."
    )
    assert desk.shop.verify() == ()
