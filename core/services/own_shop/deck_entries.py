"""Decks, their outages, and partners for what no deck plays, in the settings file: read and checked."""

from __future__ import annotations

from collections.abc import Sequence

from core.model.errors import WrongInput, at
from core.model.names import FormatName, Speed, TvSystem
from core.model.own_shop.settings_file import DeckEntry, OutageEntry, PartnerEntry
from core.model.own_shop.settings_records import Deck, Outage, Partner
from core.services.own_shop import entry_checks
from core.wording.messages import say


def of_entries(entries: Sequence[DeckEntry], known: Sequence[str], where: str) -> tuple[Deck, ...]:
    """The decks; ``known``: the formats there are. WrongInput names number and key."""
    decks: list[Deck] = []
    for number, entry in enumerate(entries, 1):
        place = at(where, f"deck {number}")
        if any(deck.name == entry.name for deck in decks):
            raise WrongInput(at(place, "name"), entry.name, say("readers", "every_deck_name_own"))
        entry_checks.check_printable(entry.name, at(place, "name"))
        plays = entry_checks.known(entry.plays, known, at(place, "plays"))
        decks.append(
            Deck(
                name=entry.name,
                plays=frozenset(FormatName(one) for one in plays),
                tv=entry_checks.known(entry.tv, [system.value for system in TvSystem], at(place, "tv")),
                speeds=entry_checks.known(
                    entry.speeds, [speed.value for speed in Speed], at(place, "speeds")
                ),
                in_service=entry.in_service and not entry.retired,
                retired=entry.retired,
                formerly=entry.formerly,
            )
        )
    return tuple(decks)


def entries(decks: Sequence[Deck]) -> tuple[DeckEntry, ...]:
    """The same decks as tables of the file, lists in a settled order."""
    return tuple(
        DeckEntry(
            deck.name,
            tuple(sorted(deck.plays)),
            tuple(sorted(deck.tv)),
            tuple(sorted(deck.speeds)),
            deck.in_service,
            deck.retired,
            deck.formerly,
        )
        for deck in decks
    )


def outages(entries: Sequence[OutageEntry], decks: Sequence[str], where: str) -> tuple[Outage, ...]:
    """The outages; WrongInput for a deck that is none, or an end before its begin."""
    for number, entry in enumerate(entries, 1):
        place = at(where, f"outage {number}")
        if entry.deck not in decks:
            names = ", ".join(decks) or say("files", "none")
            raise WrongInput(at(place, "deck"), entry.deck, say("readers", "decks_shop", names=names))
        if entry.ends < entry.begins:
            accepted = say("readers", "day_before_begins_accepted")
            raise WrongInput(at(place, "ends"), entry.ends.isoformat(), accepted)
    return tuple(Outage(entry.deck, entry.begins, entry.ends) for entry in entries)


def partners(entries: Sequence[PartnerEntry], known: Sequence[str], where: str) -> tuple[Partner, ...]:
    """The partners; ``known``: the formats there are."""
    partners: list[Partner] = []
    for number, entry in enumerate(entries, 1):
        place = at(where, f"partner {number}")
        if any(partner.name == entry.name for partner in partners):
            raise WrongInput(at(place, "name"), entry.name, say("settings", "partner-name-of-its-own"))
        for key in ("name", "price"):
            entry_checks.check_printable(getattr(entry, key), at(place, key))
        taken = frozenset(map(FormatName, entry_checks.known(entry.formats, known, at(place, "formats"))))
        partners.append(Partner(entry.name, taken, entry.price, entry.days))
    return tuple(partners)
