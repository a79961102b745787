"""Every line on a change says what the page says: no key of the file is left in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from core.catalogue.format_file import FormatFile
from core.model.names import FormatName
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_file import DeckEntry, PartnerEntry, PersonEntry
from core.model.own_shop.settings_records import Outage, Partner, Person
from core.model.own_shop.setup_pages import SetupPage
from core.services import decks
from core.services.own_shop import (
    price_books,
    setting_names,
    settings_changes,
    settings_versions,
    shop_document,
    shop_settings,
)
from core.wording.messages import knows
from tests.support.booked import Desk

ENTRIES = {"deck": DeckEntry, "person": PersonEntry, "partner": PartnerEntry, "format": FormatFile}
SAME = ("remark", "currency")
"""Keys that are called what they are."""
TOLD_WHOLE = {"name", "formerly", "hours"}
"""Keys that are told with the entry, or in a sentence of their own."""


def paths(content: Mapping[str, Any], path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    for key, value in content.items():
        if isinstance(value, Mapping) and key != "words":
            yield from paths(value, (*path, key))
        elif not isinstance(value, list) or key not in {*ENTRIES, "opening", "outage"}:
            yield (*path, key)


def test_every_key_of_the_settings_has_a_name() -> None:
    content = shop_settings.document(shop_settings.new_shop())
    found = [*paths(content)]
    found += [
        (table, "X", key)
        for table, entry in ENTRIES.items()
        for key in {*entry.__struct_fields__} - TOLD_WHOLE
    ]
    assert [path for path in found if setting_names.name_of(path) == ".".join(path)] == []


def test_every_key_of_a_price_book_has_a_name(desk: Desk) -> None:
    book = desk.shop.ask(price_books.document_in_force, date(2026, 3, 3))
    for path in paths(book):
        if path != ("minor_digits",):
            assert setting_names.name_of(("prices", *path)) != ".".join(path) or path[0] in SAME, path


def test_changes_are_told_in_the_words_of_the_pages(desk: Desk) -> None:
    before = desk.shop.ask(decks.settings)
    vhs, *others = before.decks
    after = replace(
        before,
        decks=(
            replace(
                vhs, name="Attic", formerly=(vhs.name,), plays=frozenset({FormatName("vhs")}), tv=frozenset()
            ),
            *others,
        ),
        staff=(Person("Ada", may=frozenset({"settings"})),),
        partners=(Partner("Lab", frozenset({FormatName("betamax")}), "$40", 10),),
        closed_days=frozenset({date(2026, 12, 24)}),
        outages=(Outage(others[0].name, date(2026, 3, 9), date(2026, 3, 10)),),
        openings=(*before.openings, OpeningHours(5, 600, 840, "12-01", "12-24", "Advent")),
        confidence=0.8,
        lock_minutes=5,
    )
    told = settings_changes.lines(before, after)
    assert f"Deck {vhs.name} is called Attic from now on" in told
    assert "Deck Attic, TV systems: NTSC → any" in told
    assert [each for each in told if "Ada" in each] == ["New: Ada, may change settings"]
    assert "New partner Lab: Betamax; $40" in told
    assert "Closed days of your own: nothing → Thursday, December 24, 2026" in told
    assert "Other hours Advent, Dec 1–Dec 24: Saturday 10:00 AM–2:00 PM" in told
    assert any(each.endswith("→ 16 chances in 20") for each in told)
    assert "Minutes until the screens lock: 0 → 5" in told
    assert any(each.startswith(f"Deck {others[0].name} is out of service from Monday") for each in told)
    assert not any("." in each.partition(":")[0] for each in told), told


def test_what_changed_back_is_told_as_well(desk: Desk) -> None:
    before = desk.shop.ask(decks.settings)
    after = replace(before, decks=(), partners=(Partner("Lab", frozenset({FormatName("hi8")}), "", 1),))
    told = settings_changes.lines(after, before)
    assert f"New deck {before.decks[0].name}: " in "; ".join(told)
    assert "Partner Lab is removed" in told


def test_history_tells_old_versions_in_the_words_of_today(desk: Desk) -> None:
    desk.shop.run(
        shop_document.set_texts, [("front.greeting", "Hello"), ("words.paper/quote-title", "Offer")]
    )
    versions = desk.shop.ask(settings_versions.versions)
    (_, newest), *_ = settings_versions.told([replace(versions[0], words="raw"), *versions[1:]])
    assert newest.startswith("Greeting at the head of a paper: nothing → Hello; Own sentence: ")
    assert newest.endswith("→ Offer")
    assert list(settings_versions.told([])) == []


@pytest.mark.parametrize("page", SetupPage)
def test_every_page_has_a_title_and_is_called_in_a_sentence(page: SetupPage) -> None:
    assert knows("settings", f"title-{page.value}", "en")
    assert knows("settings", f"page-{page.value}", "en")
