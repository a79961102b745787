"""Which decks the Bench offers for the tape in hand."""

from __future__ import annotations

from dataclasses import replace

from core.services import decks
from gui.bench.free_decks import free_decks
from tests.support.booked import line
from tests.support.screens import Place


def test_a_deck_with_a_tape_in_it_or_out_of_service_is_not_offered(place: Place) -> None:
    fitted = place.records.shop.ask(decks.settings).decks
    tape = place.records.book(line("vhs")).tapes[0]
    first, *others = free_decks(fitted, (), tape)
    assert others
    assert list(free_decks(fitted, {first}, tape)) == others
    broken = tuple(replace(deck, in_service=deck.name != first) for deck in fitted)
    assert list(free_decks(broken, (), tape)) == others


def test_a_deck_that_does_not_play_the_format_is_not_offered(place: Place) -> None:
    fitted = place.records.shop.ask(decks.settings).decks
    tape = place.records.book(line("minidv", marking=None)).tapes[0]
    able = {deck.name for deck in fitted if "minidv" in deck.plays}
    assert able
    assert set(free_decks(fitted, (), tape)) <= able
