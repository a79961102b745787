"""The shop's settings changed, and its decks taken out of service and put back."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from core.model import entered_text
from core.model.errors import Refused
from core.model.own_shop.settings_records import Deck, Outage, ShopSettings
from core.scheduling import opening_hours
from core.services.own_shop import settings_versions
from core.store import current_settings, history
from core.store.steps import special_step
from core.store.tables import DeckEventRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


def settings(unit: Unit) -> ShopSettings:
    """Decks, hours and people of this shop, for the screens and the command line."""
    return current_settings.read(unit)


def settings_then(unit: Unit, moment: datetime) -> ShopSettings:
    """The settings as they were at a moment; papers of then are printed again with them."""
    return current_settings.as_of(unit, moment)


def refit(unit: Unit, changed: ShopSettings) -> ShopSettings:
    """Changes the shop's settings from now on (see `settings_versions.change`)."""
    return settings_versions.change(unit, changed)


@special_step(again=current_settings.read)
def broke_down(unit: Unit, name: str, words: str = "") -> ShopSettings:
    """Takes a deck out of service because it broke; ``words`` say what. A tape in it stays where it is.

    WrongInput for a deck the shop does not have; Refused when it is out already.
    """
    if not _working(unit, name).in_service:
        raise Refused(say("decks", "out_already", deck=name))
    return _switch(unit, name, "out", words)


@special_step(again=current_settings.read)
def back_in_service(unit: Unit, name: str, words: str = "") -> ShopSettings:
    """Puts a deck back into service; ``words`` say what was done. Refused when it is in service."""
    if _working(unit, name).in_service:
        raise Refused(say("decks", "in_service_already", deck=name))
    return _switch(unit, name, "back", words)


@special_step(again=current_settings.read)
def plan_outage(unit: Unit, outage: Outage, words: str = "") -> ShopSettings:
    """Keeps that a deck is out of service by plan, from the first day to the last; ``words`` say why.

    WrongInput for a deck the shop does not have, days in the wrong order, gone, or further off than any date
    is looked for; Refused when the deck is out by plan on one of them already.
    """
    _working(unit, outage.deck)
    opening_hours.check_span(outage.begins, outage.ends, current_settings.local(unit, unit.now).date())
    fitted = current_settings.read(unit)
    for each in fitted.outages:
        if each.deck == outage.deck and each.begins <= outage.ends and outage.begins <= each.ends:
            raise Refused(say("decks", "outage_planned_already", deck=each.deck, span=_span(each)))
    history.append(unit, "outage-planned", _told("event_outage_planned", outage, words), outage=outage)
    return _with_outages(unit, fitted, [*fitted.outages, outage])


@special_step(again=current_settings.read)
def cancel_outage(unit: Unit, outage: Outage, words: str = "") -> ShopSettings:
    """Takes a planned outage back; one that has begun ends with yesterday. ``words`` say why.

    Refused when no such outage is planned, or when it is over.
    """
    fitted, today = current_settings.read(unit), current_settings.local(unit, unit.now).date()
    if outage not in fitted.outages:
        raise Refused(say("decks", "outage_not_planned", deck=outage.deck, span=_span(outage)))
    if outage.ends < today:
        raise Refused(say("decks", "outage_is_over", deck=outage.deck, span=_span(outage)))
    left = [replace(outage, ends=today - timedelta(days=1))] if outage.begins < today else []
    history.append(unit, "outage-canceled", _told("event_outage_canceled", outage, words), outage=outage)
    return _with_outages(unit, fitted, [each for each in fitted.outages if each != outage] + left)


def _working(unit: Unit, name: str) -> Deck:
    deck = current_settings.deck(unit, name)
    if deck.retired:
        raise Refused(say("settings", "decks-is-retired", deck=name))
    return deck


def _with_outages(unit: Unit, fitted: ShopSettings, outages: list[Outage]) -> ShopSettings:
    in_order = sorted(outages, key=lambda each: (each.begins, each.deck))
    return refit(unit, replace(fitted, outages=tuple(in_order)))


def _span(outage: Outage) -> str:
    return locale_figures.span(outage.begins, outage.ends)


def _told(event: str, outage: Outage, words: str) -> str:
    reason = entered_text.line(say("decks", "why"), words)
    return say("decks", event, deck=outage.deck, span=_span(outage), reason=reason, given=len(reason))


def _switch(unit: Unit, name: str, kind: str, words: str) -> ShopSettings:
    said = entered_text.line(say("decks", "what_happened"), words)
    unit.session.add(DeckEventRow(deck=name, kind=kind, words=said, at=unit.now, by=unit.who))
    told = say("decks", f"event_{kind}", deck=name, words=said, given=len(said))
    history.append(unit, f"deck-{kind}", told, deck=name)
    fitted = current_settings.read(unit)
    changed = (
        replace(each, in_service=kind == "back") if each.name == name else each for each in fitted.decks
    )
    return refit(unit, replace(fitted, decks=tuple(changed)))
