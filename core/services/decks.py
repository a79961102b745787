"""The shop's settings changed, and its decks taken out of service and put back."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from core.model import entered_text
from core.model.errors import Refused
from core.model.settings_records import Outage, ShopSettings
from core.scheduling import opening_hours
from core.services import settings_versions
from core.store import current_settings, history
from core.store.tables import DeckEventRow
from core.store.unit import Unit
from core.wording import locale_figures


def settings(unit: Unit) -> ShopSettings:
    """Decks, hours and people of this shop, for the screens and the command line."""
    return current_settings.read(unit)


def refit(unit: Unit, changed: ShopSettings) -> ShopSettings:
    """Changes the shop's settings from now on (see `settings_versions.change`)."""
    return settings_versions.change(unit, changed)


def broke_down(unit: Unit, name: str, words: str = "") -> ShopSettings:
    """Takes a deck out of service because it broke; ``words`` say what. A tape in it stays where it is.

    WrongInput for a deck the shop does not have; Refused when it is out already.
    """
    if not current_settings.deck(unit, name).in_service:
        raise Refused(f"Deck {name} is out of service already.")
    return _switch(unit, name, "out", words, f"{name} broke down")


def back_in_service(unit: Unit, name: str, words: str = "") -> ShopSettings:
    """Puts a deck back into service; ``words`` say what was done. Refused when it is in service."""
    if current_settings.deck(unit, name).in_service:
        raise Refused(f"Deck {name} is in service already.")
    return _switch(unit, name, "back", words, f"{name} is back in service")


def plan_outage(unit: Unit, outage: Outage, words: str = "") -> ShopSettings:
    """Keeps that a deck is out of service by plan, from the first day to the last; ``words`` say why.

    WrongInput for a deck the shop does not have, days in the wrong order, gone, or further off than any date
    is looked for; Refused when the deck is out by plan on one of them already.
    """
    current_settings.deck(unit, outage.deck)
    opening_hours.check_span(outage.begins, outage.ends, current_settings.local(unit, unit.now).date())
    fitted = current_settings.read(unit)
    for each in fitted.outages:
        if each.deck == outage.deck and each.begins <= outage.ends and outage.begins <= each.ends:
            raise Refused(
                f"{each.deck} is out by plan {_span(each)} already. "
                "Take that back first, or choose other days."
            )
    said = _because(words)
    history.append(unit, "outage planned", f"{outage.deck} out by plan {_span(outage)}{said}", outage=outage)
    return _with_outages(unit, fitted, [*fitted.outages, outage])


def cancel_outage(unit: Unit, outage: Outage, words: str = "") -> ShopSettings:
    """Takes a planned outage back; one that has begun ends with yesterday. ``words`` say why.

    Refused when no such outage is planned, or when it is over.
    """
    fitted, today = current_settings.read(unit), current_settings.local(unit, unit.now).date()
    if outage not in fitted.outages:
        raise Refused(f"{outage.deck} is not out by plan {_span(outage)}; somebody took it back already.")
    if outage.ends < today:
        raise Refused(f"{outage.deck} was out {_span(outage)}; that is over and stays in the record.")
    left = [replace(outage, ends=today - timedelta(days=1))] if outage.begins < today else []
    told = f"{outage.deck} not out any more {_span(outage)}{_because(words)}"
    history.append(unit, "outage taken back", told, outage=outage)
    return _with_outages(unit, fitted, [each for each in fitted.outages if each != outage] + left)


def _with_outages(unit: Unit, fitted: ShopSettings, outages: list[Outage]) -> ShopSettings:
    in_order = sorted(outages, key=lambda each: (each.begins, each.deck))
    return refit(unit, replace(fitted, outages=tuple(in_order)))


def _span(outage: Outage) -> str:
    return locale_figures.span(outage.begins, outage.ends)


def _because(words: str) -> str:
    said = entered_text.line("why", words)
    return f": {said}" if said else ""


def _switch(unit: Unit, name: str, kind: str, words: str, told: str) -> ShopSettings:
    said = entered_text.line("what broke or was done", words)
    unit.session.add(DeckEventRow(deck=name, kind=kind, words=said, at=unit.now, by=unit.who))
    history.append(unit, f"deck {kind}", told + (f": {said}" if said else ""), deck=name)
    fitted = current_settings.read(unit)
    changed = (
        replace(each, in_service=kind == "back") if each.name == name else each for each in fitted.decks
    )
    return refit(unit, replace(fitted, decks=tuple(changed)))
