"""Calls about an order: noted by one key in the history, so that the next clerk sees who called and when."""

from __future__ import annotations

import json
from collections.abc import Collection

from sqlalchemy import select

from core.model import entered_text
from core.model.handover_records import NotedCall
from core.model.names import JobNumber
from core.store import current_settings, history, lookup
from core.store.steps import step
from core.store.tables import EventRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

KIND = "called"


@step
def note(unit: Unit, number: JobNumber, said: str, *, caller: str = "") -> NotedCall:
    """Keeps that somebody called about an order and what was said; ``caller``: else the customer."""
    row = lookup.job_row(unit, number)
    who = entered_text.line(say("telling", "caller"), caller) or row.customer.name
    words = say("telling", "event_called", who=who, said=said, given=len(said))
    history.append(unit, KIND, words, job=row.number, caller=who, said=said)
    unit.session.flush()
    return NotedCall(unit.now, unit.who, who, said)


def newest(unit: Unit, numbers: Collection[str]) -> dict[str, NotedCall]:
    """The last call about each of these orders, by their numbers."""
    asked = select(EventRow).where(EventRow.kind == KIND, EventRow.job.in_(numbers)).order_by(EventRow.seq)
    return {str(row.job): _call(row) for row in unit.session.scalars(asked)}


def words(unit: Unit, call: NotedCall) -> str:
    """``Ada Fenwick called yesterday at 4:00 PM; Kim answered.``"""
    at, now = current_settings.local(unit, call.at), current_settings.local(unit, unit.now)
    when = {0: "today", 1: "yesterday"}.get((now.date() - at.date()).days, "earlier")
    return say(
        "telling",
        "called",
        who=call.caller,
        when=when,
        day=locale_figures.day(at.date()),
        time=locale_figures.time_of_day(at),
        by=call.by,
    )


def _call(row: EventRow) -> NotedCall:
    said = json.loads(row.payload)
    return NotedCall(row.at, row.by, str(said.get("caller", "")), str(said.get("said", "")))
