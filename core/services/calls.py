"""“Are my tapes done?” — the jobs a caller may mean, each with the sentence to say."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from zoneinfo import ZoneInfo

from core.model.handover_records import HandoverWishes, NotedCall, Telling
from core.model.job_records import CallerMatch, Job
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.model.promise_records import Promise
from core.promise import turnaround
from core.services import payments, promises, spoken_answer
from core.services.after_ready import (
    caller_check,
    caller_details,
    handover_wishes,
    noted_calls,
    telling,
)
from core.store import current_settings, lookup, row_records, search
from core.store.steps import step
from core.store.tables import JobRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@step
def note_call(unit: Unit, number: JobNumber, said: str | None, *, caller: str = "") -> NotedCall:
    """`noted_calls.note`; ``said`` None: what is to be said to a caller at this moment."""
    return noted_calls.note(unit, number, said or status(unit, number)[0].spoken, caller=caller)


def status(unit: Unit, text: str) -> tuple[CallerMatch, ...]:
    """What to say to a caller who names a job, a tape, a phone number or a name; nothing when none matches.

    The promise of each job carries the chance of keeping its day as it looks at this moment.
    """
    matched = search.jobs(unit, text)
    rows = {
        row.id: row
        for row in unit.session.scalars(lookup.whole_jobs().where(JobRow.id.in_([job for job, _ in matched])))
    }
    load = promises.load(unit) if any(row_records.job(row).is_open for row in rows.values()) else None
    settings = current_settings.read(unit)
    called = noted_calls.newest(unit, [row.number for row in rows.values()])
    return tuple(
        _found(unit, rows[job], how, load, settings, called.get(rows[job].number)) for job, how in matched
    )


def _found(
    unit: Unit,
    row: JobRow,
    matched: str,
    load: turnaround.Load | None,
    settings: ShopSettings,
    call: NotedCall | None,
) -> CallerMatch:
    job = row_records.job(row)
    if load is not None and job.is_open:
        job = replace(job, promise=_as_it_looks(load, job))
    now = unit.now.astimezone(ZoneInfo(settings.front.timezone))
    resting = {tape.code for tape in job.tapes if tape.rests_until and tape.rests_until > unit.now}
    answer = spoken_answer.answer(job, now.date(), job.promise.stated, resting)
    details = caller_details.told(job, payments.price(unit, row), settings, now)
    wishes, tellings = handover_wishes.of_row(unit, row), telling.of_row(unit, row)
    return CallerMatch(
        job,
        say("spoken", "one-breath", answer=answer, details=" ".join(details)).strip(),
        matched,
        asks=caller_check.wanted(settings.calls.check, job.customer, wishes),
        wishes=wishes,
        tellings=tellings,
        last_call=call,
        notes=tuple(_notes(unit, wishes, tellings, call)),
    )


def _notes(
    unit: Unit, wishes: HandoverWishes, tellings: tuple[Telling, ...], call: NotedCall | None
) -> Iterator[str]:
    if call is not None:
        yield noted_calls.words(unit, call)
    if tellings:
        yield telling.told_words(unit, tellings[-1])
    if wishes.collector is not None:
        named = wishes.collector
        day = locale_figures.day(current_settings.local(unit, named.at).date())
        yield say("telling", "named", who=named.words, said_by=named.said_by, by=named.by, day=day)


def _as_it_looks(load: turnaround.Load, job: Job) -> Promise:
    """The day that was promised, with the chances of this moment."""
    chance = promises.chance_now(load, job)
    if chance is None:
        return job.promise
    now = turnaround.standing(load, job.number) or job.promise
    return replace(now, day=job.promise.day, stated=chance)
