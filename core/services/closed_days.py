"""Days the shop is shut, by plan or because it could not open, and days taken back again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from core.model import entered_text
from core.model.errors import Refused, WrongInput
from core.model.settings_records import ShopSettings
from core.scheduling import opening_hours
from core.services import decks
from core.store import current_settings, day_events, history
from core.store.unit import Unit
from core.wording import locale_figures


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
        raise Refused(f"The shop is shut {locale_figures.span(first, last)} already.")
    for day in days:
        day_events.enter(unit, day, day_events.PLANNED, reason)
    told = f"closed by plan {locale_figures.span(first, last)}: {reason}"
    history.append(unit, "closed by plan", told, days=days)
    return decks.refit(unit, replace(fitted, closed_days=fitted.closed_days | set(days)))


def stayed_shut(unit: Unit, day: date, words: str) -> ShopSettings:
    """Keeps that the shop stays, or stayed, shut on a day it was to be open: ``words`` say why.

    WrongInput without a reason, for a day that is shut by plan, or one that is further off than tomorrow:
    that is a plan, and stands among the shop's closed days.
    """
    fitted, reason = current_settings.read(unit), _reason(words)
    if day > _today(unit) + timedelta(days=1):
        raise WrongInput("day", day.isoformat(), "a day up to tomorrow is accepted; later ones are planned")
    if day not in opening_hours.calendar(fitted, day, 1).days:
        raise WrongInput("day", day.isoformat(), "a day on which the shop was to be open is accepted")
    day_events.enter(unit, day, day_events.SHUT, reason)
    history.append(unit, "stayed shut", f"shut on {day.isoformat()}: {reason}", day=day)
    return decks.refit(unit, replace(fitted, closed_days=fitted.closed_days | {day}))


def open_after_all(unit: Unit, days: Sequence[date], words: str = "") -> ShopSettings:
    """Takes closed days back, planned or not; they no longer count as shut. ``words`` may say why.

    Refused for a day that is not among the shop's own closed days.
    """
    fitted, said = current_settings.read(unit), entered_text.line("reason", words)
    for day in days:
        if day not in fitted.closed_days:
            why = opening_hours.calendar(fitted, day, 1).shut.get(day)
            because = f"It is shut for {why}, a public holiday." if why else "It is no closed day."
            raise Refused(f"{locale_figures.day(day)} cannot be taken back. {because}")
        day_events.enter(unit, day, day_events.OPEN, said)
    told = f"open {locale_figures.span(min(days), max(days))} after all" + (f": {said}" if said else "")
    history.append(unit, "open after all", told, days=tuple(days))
    return decks.refit(unit, replace(fitted, closed_days=fitted.closed_days.difference(days)))


def _reason(words: str) -> str:
    reason = entered_text.line("reason", words)
    if not reason:
        raise WrongInput("reason", words, "say why the shop stays shut")
    return reason


def _today(unit: Unit) -> date:
    return current_settings.local(unit, unit.now).date()
