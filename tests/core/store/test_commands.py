"""A command id belongs to what it asked for: once is once, and nothing else goes by the same id."""

from __future__ import annotations

import time
from datetime import timedelta

import pytest
from sqlalchemy import delete, update
from sqlalchemy.exc import DBAPIError

from core.model.errors import Refused, WrongInput
from core.model.names import CommandId
from core.model.signatures import Signature
from core.model.stations import Station
from core.services import jobs, payments, pickups
from core.services.own_shop import people, shop_document
from core.services.records_door import Shop
from core.store import commands, history, steps
from core.store.tables import CommandAnswerRow, CommandRow, JobRow
from core.store.unit import Unit
from tests.support.behind import behind
from tests.support.booked import Desk, command, line, quoted

USED = "was used for something else"


def count(unit: Unit) -> int:
    return unit.session.query(JobRow).count()


def test_another_box_under_the_same_id_is_refused_and_not_swallowed(desk: Desk) -> None:
    sent = command()
    first = desk.shop.once(sent, jobs.book, quoted(desk.shop, name="Ada Fenwick")).answer
    with pytest.raises(Refused, match=USED):
        desk.shop.once(sent, jobs.book, quoted(desk.shop, name="Bo Marsh"))
    assert desk.shop.ask(jobs.open_jobs) == (first,)
    assert desk.shop.once(command(), jobs.book, quoted(desk.shop, name="Bo Marsh")).answer.number == "000026"


def test_the_same_box_again_is_answered_as_the_first_time(desk: Desk) -> None:
    """Worked out anew, the quote has another moment and another day; what was asked for is the same."""
    sent = command()
    first = desk.shop.once(sent, jobs.book, quoted(desk.shop), deposit_minor=500)
    desk.clock.go_on(minutes=7)
    desk.shop.run(payments.take, first.answer.number, 100)
    again = desk.shop.once(sent, jobs.book, quoted(desk.shop), deposit_minor=500)
    assert again.answer == first.answer
    assert (first.before, again.before) == (None, first.answer.booked_at)
    assert desk.shop.ask(count) == 1


def test_another_pickup_under_the_same_id_is_refused(desk: Desk) -> None:
    job, sent = desk.book(line(count=2)), command()
    one, other = (desk.bring_to(tape, Station.READY).code for tape in job.tapes)
    first = desk.hand_back(job, [one], command=sent)
    assert desk.hand_back(job, [one], command=sent) == first
    with pytest.raises(Refused, match=USED):
        desk.hand_back(job, [other], command=sent)
    with pytest.raises(Refused, match=USED):
        desk.hand_back(job, [one], signature=Signature("Bo Marsh"), command=sent)
    with pytest.raises(Refused, match=USED):
        desk.shop.once(sent, payments.take, job.number, 100)
    assert len(desk.shop.ask(pickups.of_job, job.number)) == 1


def test_how_a_step_is_called_does_not_matter(desk: Desk) -> None:
    job, sent = desk.book(), command()
    desk.shop.once(sent, payments.take, job.number, 100)
    again = desk.shop.once(sent, payments.take, job.number, minor=100, kind="balance", note="")
    assert again.before is not None
    assert desk.shop.ask(jobs.get, job.number).paid_minor == 100


def test_what_was_refused_did_not_use_the_id_up(desk: Desk) -> None:
    job, sent = desk.book(), command()
    with pytest.raises(WrongInput):
        desk.shop.once(sent, payments.take, job.number, -1)
    assert desk.shop.once(sent, payments.take, job.number, 100).before is None


def test_an_answer_is_forgotten_after_a_month_and_its_id_stays_used(desk: Desk) -> None:
    job, sent = desk.book(), command()
    desk.shop.once(sent, payments.take, job.number, 100)
    desk.clock.go_on(days=commands.ANSWERS_KEPT / timedelta(days=1) + 1)
    desk.shop.once(command(), payments.take, job.number, 200)
    with pytest.raises(Refused, match="isn't kept any more"):
        desk.shop.once(sent, payments.take, job.number, 100)
    assert desk.shop.ask(jobs.get, job.number).paid_minor == 300


def test_what_was_asked_for_cannot_be_guessed_once_the_answer_is_gone(desk: Desk) -> None:
    """A name in a correction is soon guessed from a plain digest; the salt goes with the answer."""
    first, again = command(), command()
    number = desk.book().number
    for sent in (first, again):
        desk.shop.once(sent, payments.take, number, 100)

    def contents(unit: Unit) -> set[str | None]:
        rows = unit.session.query(CommandRow).where(CommandRow.command.in_((first, again)))
        return {row.content for row in rows}

    found = desk.shop.ask(contents)
    assert len(found) == 2, "the same asked for twice is not seen to be the same"
    plain = {steps.request(payments.take, (number, 100), {}, sent).content for sent in (first, again)}
    assert len(plain) == 1
    assert not plain & found


def test_an_id_cannot_be_changed_or_deleted(desk: Desk) -> None:
    job, sent = desk.book(), command()
    desk.shop.once(sent, payments.take, job.number, 100)

    def alter(unit: Unit) -> None:
        unit.session.execute(update(CommandRow).values(content="0" * 64))

    def forget(unit: Unit) -> None:
        unit.session.execute(delete(CommandAnswerRow))
        unit.session.execute(delete(CommandRow))

    for attempt in (alter, forget):
        with pytest.raises(DBAPIError, match="append-only"):
            desk.shop.run(attempt)


@pytest.mark.parametrize("wrong", ["", "x" * 81])
def test_an_id_has_a_length(desk: Desk, wrong: str) -> None:
    job = desk.book()
    with pytest.raises(WrongInput, match="an id of 1 to 80 characters"):
        desk.shop.once(CommandId(wrong), payments.take, job.number, 100)


def test_of_a_pin_only_a_slow_hash_counts(desk: Desk) -> None:
    """Four digits are guessed from a plain digest at once; 10,000 guesses at the slow one take minutes."""
    desk.shop.run(shop_document.set_texts, [("person.Kim", '{may=["settings"]}')])
    sent = command()
    begun = time.perf_counter()
    request = steps.request(people.set_pin, ("Kim", "2468"), {}, sent)
    assert time.perf_counter() - begun > 0.005
    assert request.content != steps.request(people.set_pin, ("Kim", "2469"), {}, sent).content
    assert request.content != steps.request(people.set_pin, ("Kim", "2468"), {}, command()).content
    desk.shop.once(sent, people.set_pin, "Kim", "2468")
    with pytest.raises(Refused, match=USED):
        desk.shop.once(sent, people.set_pin, "Kim", "1357")


def test_only_a_step_can_be_sent(desk: Desk) -> None:
    with pytest.raises(TypeError, match="not marked as a step"):
        desk.shop.once(command(), count)


def test_nothing_is_kept_of_a_rehearsal(desk: Desk) -> None:
    desk.shop.rehearse(jobs.book, quoted(desk.shop))
    assert desk.shop.ask(history.latest) == desk.shop.ask(_lines_before)


def _lines_before(unit: Unit) -> int:
    return int(unit.session.execute(behind("SELECT count(*) FROM events")).scalar_one())


def test_two_tills_that_send_the_same_id_store_it_once(desk: Desk) -> None:
    job, sent = desk.book(), command()
    with Shop.open(desk.where, clock=desk.clock) as other:
        answers = [each.once(sent, payments.take, job.number, 100).answer for each in (desk.shop, other)]
    assert answers[0] == answers[1]
    assert desk.shop.ask(jobs.get, job.number).paid_minor == 100
