"""Kinds of deck: checked against the catalogue by file and key, and the decks that are made from them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from core.catalogue import deck_kinds
from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.names import TvSystem
from core.model.own_shop.settings_records import Deck
from core.services.own_shop import shop_settings

_VHS = '[kinds.vhs]\nplays = ["vhs"]\nadapters = ["vhs-c"]\ntv = "own"\nspeeds = ["sp"]\n'


@pytest.mark.parametrize("tv", list(TvSystem))
@pytest.mark.parametrize("kind", deck_kinds.kinds(), ids=lambda kind: str(kind.name))
def test_every_kind_makes_a_deck_the_settings_accept(kind: deck_kinds.DeckKind, tv: TvSystem) -> None:
    deck = kind.deck(kind.short, tv)
    shop = replace(shop_settings.new_shop(), decks=(deck,))
    assert shop_settings.of_document(shop_settings.document(shop), "settings").decks == (deck,)
    assert deck.plays
    assert deck.speeds
    assert kind.words != kind.name


@pytest.mark.parametrize(
    ("wrong", "right", "sentence"),
    [
        ('"vhs"', '"vhs2"', "kinds.toml, kinds, vhs, plays: found 'vhs2'"),
        ('"vhs-c"', '"pebble"', "kinds.toml, kinds, vhs, adapters: found 'pebble'"),
        ('["sp"]', '["b1"]', "kinds.toml, kinds, vhs, speeds: found 'b1'; accepted are ep, lp, sp"),
        ('"own"', '"some"', "kinds.toml, kinds, vhs, tv: found 'some'"),
        ('tv = "own"\n', "", "kinds.toml, kinds, vhs: found nothing"),
    ],
)
def test_what_the_catalogue_does_not_know_is_refused_by_file_and_key(
    tmp_path: Path, wrong: str, right: str, sentence: str
) -> None:
    file = tmp_path / "kinds.toml"
    file.write_text('ntsc_countries = ["US"]\n' + _VHS.replace(wrong, right, 1), encoding="utf-8")
    with pytest.raises(WrongInput) as refused:
        deck_kinds.load(file, catalogue())
    assert sentence in refused.value.sentence


def test_a_deck_of_several_speeds_gets_those_of_its_tv_system() -> None:
    """Beta counts in b1 to b3 on NTSC and has one speed on PAL (resources/catalogue/formats/betamax.toml)."""
    beta = deck_kinds.kind("betamax")
    assert beta.deck("Beta", TvSystem.NTSC).speeds == {"b1", "b2", "b3"}
    assert beta.deck("Beta", TvSystem.PAL).speeds == {"sp"}


def test_a_kind_nobody_knows_is_refused_with_all_that_are_known() -> None:
    with pytest.raises(WrongInput, match="accepted are vhs, s-vhs"):
        deck_kinds.kind("pebble")


@pytest.mark.parametrize(
    ("count", "taken", "names"),
    [
        (1, (), ("VHS",)),
        (2, (), ("VHS 1", "VHS 2")),
        (1, ("VHS 1",), ("VHS 2",)),
        (2, ("VHS 2",), ("VHS 1", "VHS 3")),
        (1, ("VHS",), ("VHS 1",)),
        (1, ("S-VHS",), ("VHS",)),
    ],
)
def test_decks_alike_are_numbered_around_the_names_that_are_taken(
    count: int, taken: tuple[str, ...], names: tuple[str, ...]
) -> None:
    assert deck_kinds.free_names("VHS", count, taken) == names


@pytest.mark.parametrize(
    ("country", "tv"),
    # ITU-R BT.470 (from memory): 525-line NTSC in the Americas and Japan, 625-line systems in Europe.
    [("US", TvSystem.NTSC), ("JP", TvSystem.NTSC), ("DE", TvSystem.PAL), ("GB", TvSystem.PAL)],
)
def test_the_tv_system_is_that_of_the_decks_else_of_the_country(country: str, tv: TvSystem) -> None:
    shop = shop_settings.new_shop()
    empty = replace(shop, decks=(), front=replace(shop.front, country=country))
    assert deck_kinds.own_tv(empty) is tv
    other = next(each for each in TvSystem if each is not tv)
    deck = Deck("one", frozenset(), frozenset({other.value}), frozenset())
    assert deck_kinds.own_tv(replace(empty, decks=(deck,))) is other
