"""Days the shop is shut, by plan or because it could not open, and days taken back again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from core.model import entered_text
from core.model.errors import Refused, WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.scheduling import opening_hours
from core.services import decks
from core.store import current_settings, day_events, history
from core.store.steps import special_step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@special_step(again=current_settings.read)
def plan(unit: Unit, first: date, last: date, words: str) -> ShopSettings:
    """Closes the shop by plan from ``first`` to ``last``; ``words`` say why.

    WrongInput without a reason, for days in the wrong order, gone, or further off than any date is looked
    for; Refused when the shop is shut on all of them anyway.
    """
    reason = _reason(words)
    opening_hours.check_span(first, last, _today(unit))
    fitted = current_settings.read(unit)
    days = opening_hours.calendar(fitted, first, (last - first).days + 1).days
    if not days:
        raise Refused(say("closures", "closed_already", span=locale_figures.span(first, last)))
    for day in days:
        day_events.enter(unit, day, day_events.PLANNED, reason)
    told = say("closures", "event_planned", span=locale_figures.span(first, last), reason=reason)
    history.append(unit, "closed-by-plan", told, days=days)
    return decks.refit(unit, replace(fitted, closed_days=fitted.closed_days | set(days)))


@special_step(again=current_settings.read)
def stayed_shut(unit: Unit, day: date, words: str) -> ShopSettings:
    """Keeps that the shop stays, or stayed, shut on a day it was to be open: ``words`` say why.

    WrongInput without a reason, for a day that is shut by plan, or one that is further off than tomorrow:
    that is a plan, and stands among the shop's closed days.
    """
    fitted, reason = current_settings.read(unit), _reason(words)
    if day > _today(unit) + timedelta(days=1):
        raise WrongInput(say("closures", "day"), day.isoformat(), say("closures", "up_to_tomorrow"))
    if day not in opening_hours.calendar(fitted, day, 1).days:
        raise WrongInput(say("closures", "day"), day.isoformat(), say("closures", "open_day"))
    day_events.enter(unit, day, day_events.SHUT, reason)
    told = say("closures", "event_closed", day=locale_figures.day(day), reason=reason)
    history.append(unit, "stayed-closed", told, day=day)
    return decks.refit(unit, replace(fitted, closed_days=fitted.closed_days | {day}))


@special_step(again=current_settings.read)
def open_after_all(unit: Unit, days: Sequence[date], words: str = "") -> ShopSettings:
    """Takes closed days back, planned or not; they no longer count as shut. ``words`` may say why.

    Refused for a day that is not among the shop's own closed days.
    """
    fitted, said = current_settings.read(unit), entered_text.line(say("closures", "reason"), words)
    for day in days:
        if day not in fitted.closed_days:
            raise Refused(_stays_closed(fitted, day))
        day_events.enter(unit, day, day_events.OPEN, said)
    span = locale_figures.span(min(days), max(days))
    told = say("closures", "event_reopened", span=span, reason=said, given=len(said))
    history.append(unit, "open-after-all", told, days=tuple(days))
    return decks.refit(unit, replace(fitted, closed_days=fitted.closed_days.difference(days)))


@special_step(again=current_settings.read)
def open_span(unit: Unit, first: date, last: date, words: str = "") -> ShopSettings:
    """`open_after_all` for the closed days of a span; Refused when it holds none."""
    closed = current_settings.read(unit).closed_days
    span = (first + timedelta(days=n) for n in range((last - first).days + 1))
    return open_after_all(unit, [day for day in span if day in closed] or [first], words)


def _stays_closed(settings: ShopSettings, day: date) -> str:
    holiday, named = opening_hours.calendar(settings, day, 1).shut.get(day), locale_figures.day(day)
    if holiday:
        return say("closures", "holiday_stays", day=named, holiday=holiday)
    return say("closures", "not_closed", day=named)


def _reason(words: str) -> str:
    reason = entered_text.line(say("closures", "reason"), words)
    if not reason:
        raise WrongInput(say("closures", "reason"), words, say("closures", "why_closed"))
    return reason


def _today(unit: Unit) -> date:
    return current_settings.local(unit, unit.now).date()
