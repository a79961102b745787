"""A shop's fittings are read from a file, written back the same, and refused with a sentence."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from core.model import resource_files
from core.model.errors import WrongInput
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Expected, Outage
from core.services.own_shop.shop_settings import dump, loads, new_shop
from tests.support.shops import deck, fittings

OUTAGE = """[[outage]]
deck = "VHS 1"
begins = 2026-04-01
ends = 2026-04-05

"""
GOOD = resource_files.path("shop", "new.toml").read_text(encoding="utf-8")


def test_a_new_shop_has_decks_hours_and_a_name_to_be_filled_in() -> None:
    shop = new_shop()
    assert shop.front.name == "Your shop"
    assert len(shop.decks) == 5
    assert shop.openings[0] == OpeningHours(0, 540, 1080)
    assert shop.confidence == 0.9


def test_fittings_come_back_from_their_own_text() -> None:
    plain = fittings(deck('8 mm "left"\\', "hi8", tv="ntsc pal", in_service=False))
    odd = replace(plain, closed_days=frozenset({date(2026, 12, 24)}), holiday_country="US")
    out = Outage('8 mm "left"\\', date(2026, 4, 1), date(2026, 4, 3))
    wary = replace(plain, outages=(out,), expected=Expected(300.0, 40.5, 1.5, 6.0, 0.01))
    for shop in (new_shop(), odd, wary):
        assert loads(dump(shop)) == shop


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("America/New_York", "Atlantis", "front, timezone: found 'Atlantis'; an IANA timezone is accepted"),
        ("America/New_York", "../etc", "front, timezone"),
        ('"09:00"', '"9 o\'clock"', 'opening 1, from: found "9 o\'clock"; a time from 00:00 to 24:00'),
        ('"09:00"', '"09:60"', "opening 1, from: found '09:60'"),
        ('to = "18:00"', 'to = "08:00"', "opening 1, to: found '08:00'; a time after the opening"),
        ('"monday"', '"moonday"', "opening 1, days 1: found 'moonday'; accepted are 'monday'"),
        ('plays = ["vhs", "vhs-c"]', 'plays = ["vinyl"]', "deck 1, plays: found 'vinyl'; accepted: vhs"),
        ('tv = ["ntsc"]', 'tv = ["secam"]', "deck 1, tv: found 'secam'; accepted: ntsc, pal"),
        ('name = "VHS 2"', 'name = "VHS 1"', "deck 2, name: found 'VHS 1'; every deck has a name of its own"),
        ("people = 2", "people = 0", "work, people: found 0; a whole number from 1 to 100"),
        ("confidence = 0.9 ", "confidence = 1.0 ", "work, confidence: found 1.0"),
        ("closed = []", "closed = [1]", "holidays, closed 1: found 1; a date, like 2026-01-01"),
        ('country = "US"', 'country = "Atlantis"', "holidays, country: found 'Atlantis'"),
        ("in_service = true", 'in_service = "yes"', "deck 1, in_service: found 'yes'; true or false"),
        (
            "[[deck]]",
            OUTAGE.replace("VHS 1", "VHS 9") + "[[deck]]",
            "outage 1, deck: found 'VHS 9'; the decks",
        ),
        ("[[deck]]", OUTAGE.replace("04-05", "03-05") + "[[deck]]", "outage 1, ends: found '2026-03-05'"),
        ("[work]", "[work]\nrobots = 3", "work: found 'robots'; the keys accepted here are"),
    ],
)
def test_what_is_wrong_is_refused_by_place(old: str, new: str, sentence: str) -> None:
    assert old in GOOD
    with pytest.raises(WrongInput) as refused:
        loads(GOOD.replace(old, new, 1), "mine.toml")
    assert refused.value.sentence.startswith("mine.toml")
    assert sentence in refused.value.sentence
