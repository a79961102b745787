"""The ceiling watched live: what an order costs as it stands, against what its owner agreed to.

Every step that can make an order dearer asks here before it and after it, in the same transaction. A step
that takes the order over what was agreed keeps its facts (what was seen was seen), but its tape goes to
*asking the customer* and not where it was going. While the answer is out, no further tape of the order goes
to the bench or to a deck.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace

from sqlalchemy import and_, or_, select

from core.model.agreement_records import CeilingQuestion, OfferedChoice, StandingPrice, WaitingAnswer
from core.model.copies.copy_questions import CopyMisfit
from core.model.dispositions import said_by
from core.model.names import JobNumber, TapeCode
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.pricing import copy_fit
from core.services import payments, promise_entries
from core.services.agreement import agreement_versions
from core.store import history, lookup, row_records
from core.store.tables import CeilingQuestionRow, CopyRow, JobRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


def standing(unit: Unit, number: JobNumber) -> StandingPrice:
    """The price of an order as it stands against what was agreed."""
    return standing_of(unit, lookup.job_row(unit, number))


def standing_of(unit: Unit, row: JobRow) -> StandingPrice:
    """As `standing`, of an order at hand."""
    made = agreement_versions.current(row)
    price = payments.price_of(unit, row, lookup.standing_tapes(row), ceiling_minor=None)
    return StandingPrice(
        number=JobNumber(row.number),
        currency=price.currency,
        stands_minor=price.due.likely,
        ceiling_minor=made.ceiling_minor,
        given_away_minor=made.given_away_minor,
        version=made.number,
    )


def before_step(unit: Unit, tape: TapeRow) -> StandingPrice:
    """As `standing`, of the order of a tape at hand: what `follow` is given after the step."""
    return standing_of(unit, lookup.order_of(unit, tape))


def follow(unit: Unit, row: TapeRow, before: StandingPrice) -> bool:
    """Stops the tape of a step where the order went over what was agreed; whether it did.

    ``before`` is how the order stood before the step. The line of history says why, with the figures.
    """
    now = standing_of(unit, row.job)
    if not _must_ask(row, now.over_minor, before.over_minor):
        return False
    _stop(unit, row, now)
    return True


def keep_asking(unit: Unit, row: JobRow) -> None:
    """Where an order at hand is still over what is agreed and no tape waits for it, the next one does.

    Without a tape that is still on its way nothing can be stopped: what is over is given away.
    """
    now = standing_of(unit, row)
    if not now.over_minor or open_questions(unit, row):
        return
    on_their_way = (each for each in lookup.standing_tapes(row) if not each.station.is_done)
    tape = next(on_their_way, None)
    if tape is not None:
        _stop(unit, tape, now)


def open_questions(unit: Unit, row: JobRow) -> dict[int, CeilingQuestion]:
    """By tape id: the questions about the price that are out, the newest of each tape."""
    return _open(unit, [row]).get(row.id, {})


def to_call(unit: Unit) -> tuple[WaitingAnswer, ...]:
    """Orders that wait for their owner's answer about a tape or a copy, whom to call first.

    The rule: rush orders first; then the order of which most hours wait for the answer; then who waits
    longest.
    """
    asking = select(TapeRow.job_id).where(TapeRow.station == Station.ASKING_THE_CUSTOMER)
    played = select(TapeRow.job_id).where(TapeRow.station.in_(lookup.IN_THE_SHOP))
    copying = select(CopyRow.job_id).where(CopyRow.delivery.is_not(None), CopyRow.handed_back_at.is_(None))
    either = or_(JobRow.id.in_(asking), and_(JobRow.id.in_(copying), JobRow.id.in_(played)))
    rows = unit.session.scalars(lookup.whole_jobs().where(either).order_by(JobRow.id)).all()
    questions = _open(unit, rows)
    found = [
        _waiting(unit, row, questions.get(row.id, {}), misfits)
        for row in rows
        if (misfits := copy_fit.misfits(row_records.job(row))) or _asks(row)
    ]
    return tuple(sorted(found, key=lambda one: (not one.rush, -one.minutes_waiting, one.since, one.number)))


def _stop(unit: Unit, row: TapeRow, now: StandingPrice) -> None:
    bound_for = Station.LOOKED_OVER if row.station is Station.ASKING_THE_CUSTOMER else row.station
    words = _why(now)
    row.station, row.since, row.deck = Station.ASKING_THE_CUSTOMER, unit.now, None
    row.note, row.note_is_told, row.disposition = say("agreement", "about_price"), True, None
    unit.session.add(
        CeilingQuestionRow(
            job_id=row.job_id,
            tape_id=row.id,
            version=now.version,
            stands_minor=now.stands_minor,
            ceiling_minor=now.ceiling_minor,
            bound_for=bound_for,
            at=unit.now,
            by=unit.who,
        )
    )
    history.append_of_tape(
        unit, row, "ceiling-reached", words, deck=None, bound_for=bound_for, stands=now.stands_minor
    )


def _must_ask(row: TapeRow, over: int, before: int) -> bool:
    here = row.station
    if over <= 0 or row.left_out_in is not None or not here.is_in_the_shop or here.is_uncopied:
        return False
    if here is Station.ASKING_THE_CUSTOMER:
        return before <= 0
    return over > before or here.is_for_a_deck or here is Station.AT_THE_BENCH


def _why(now: StandingPrice) -> str:
    money = locale_figures.money
    return say(
        "agreement",
        "event_ceiling",
        stands=money(now.stands_minor, now.currency),
        ceiling=money(now.ceiling_minor + now.given_away_minor, now.currency),
        over=money(now.over_minor, now.currency),
    )


def _open(unit: Unit, rows: Sequence[JobRow]) -> dict[int, dict[int, CeilingQuestion]]:
    """By job id and tape id: asked under the version that holds, of a tape that still waits."""
    of_job = {row.id: row for row in rows}
    asked = select(CeilingQuestionRow).where(CeilingQuestionRow.job_id.in_(of_job))
    found: dict[int, dict[int, CeilingQuestion]] = defaultdict(dict)
    for each in unit.session.scalars(asked.order_by(CeilingQuestionRow.id)):
        row = of_job[each.job_id]
        tape = next(tape for tape in row.tapes if tape.id == each.tape_id)
        if tape.station is Station.ASKING_THE_CUSTOMER and tape.since == each.at:
            found[each.job_id][each.tape_id] = CeilingQuestion(
                TapeCode(tape.code), each.stands_minor, each.ceiling_minor, each.bound_for, each.at
            )
    return found


def _asks(row: JobRow) -> list[TapeRow]:
    return [tape for tape in row.tapes if tape.station is Station.ASKING_THE_CUSTOMER]


def _waiting(
    unit: Unit, row: JobRow, questions: dict[int, CeilingQuestion], misfits: Sequence[CopyMisfit]
) -> WaitingAnswer:
    asking = _asks(row)
    return WaitingAnswer(
        number=JobNumber(row.number),
        customer=row.customer.name,
        phone=row.customer.phone,
        rush=row.rush,
        standing=standing_of(unit, row),
        asking=tuple(questions.values()),
        tapes_asking=len(asking),
        minutes_waiting=_minutes(row.tapes),
        since=min((tape.since for tape in asking), default=max(tape.since for tape in row.tapes)),
        misfits=tuple((each.item, copy_fit.sentence(each)) for each in misfits),
    )


def _minutes(tapes: Iterable[TapeRow]) -> float:
    return sum(
        each.minutes.likely for each in tapes if each.station.is_unfinished and not each.station.is_done
    )


# --- tapes that waited for an answer -----------------------------------------------------


def send_on(
    unit: Unit,
    row: JobRow,
    questions: dict[int, CeilingQuestion],
    offered: OfferedChoice | None = None,
    words: str = "event_sent_on",
) -> None:
    """Tapes that waited because of the price go where they were going, as soon as the agreement covers it."""
    now = standing_of(unit, row)
    if offered is not None:
        now = replace(now, ceiling_minor=offered.ceiling_minor, given_away_minor=offered.given_away_minor)
    if now.over_minor:
        return
    for tape in row.tapes:
        if tape.id in questions and tape.left_out_in is None:
            _send(unit, tape, questions[tape.id], words)


def release(unit: Unit, row: JobRow) -> None:
    """After an entry was taken back: where the price is within what was agreed again, nobody need be
    asked."""
    questions = open_questions(unit, row)
    if questions:
        send_on(unit, row, questions, words="event_released")


def sent_to(question: CeilingQuestion) -> Station:
    """Where a tape goes after a yes: one that was on a deck is cleared for it, since the deck went on."""
    return Station.CLEARED_TO_PLAY if question.bound_for is Station.PLAYING else question.bound_for


def _send(unit: Unit, tape: TapeRow, question: CeilingQuestion, sentence: str) -> None:
    before = tape.station
    tape.station, tape.since, tape.note = sent_to(question), unit.now, ""
    tape.note_is_told, tape.disposition = False, said_by(tape.station)
    words = say("agreement", sentence, station=spoken(tape.station))
    history.append_of_tape(unit, tape, "answered", words)
    promise_entries.note_finish(unit, tape, before)
