"""Two counters change the settings: who changed what, both versions of what both changed, the rest kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from core.model.errors import WrongInput
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Person, ShopSettings
from core.services.own_shop import settings_conflicts, settings_versions
from core.services.own_shop.settings_conflicts import SettingsConflict
from core.store import current_settings
from tests.support.booked import Desk

Change = Callable[[ShopSettings], ShopSettings]


def phone(number: str) -> Change:
    return lambda kept: replace(kept, front=replace(kept.front, phone=number))


def people(count: int) -> Change:
    return lambda kept: replace(kept, people=count)


def staff(*names: str) -> Change:
    return lambda kept: replace(
        kept, staff=tuple(Person(each, may=frozenset({"settings"})) for each in names)
    )


def opened_at(start: int) -> Change:
    return lambda kept: replace(kept, openings=(OpeningHours(6, start, 1080),))


def without_deck(name: str) -> Change:
    return lambda kept: replace(kept, decks=tuple(each for each in kept.decks if each.name != name))


def broken(name: str) -> Change:
    return lambda kept: replace(
        kept,
        decks=tuple(
            replace(each, speeds=frozenset({"sp"})) if each.name == name else each for each in kept.decks
        ),
    )


def both(one: Change, other: Change) -> Change:
    return lambda kept: other(one(kept))


def conflict(desk: Desk, theirs: Change, yours: Change) -> SettingsConflict:
    """Somebody at another counter saves first."""
    number, base = desk.shop.ask(settings_versions.number), desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, theirs(base))
    return desk.shop.ask(settings_conflicts.read, yours(base), number)


def test_who_changed_what_and_when_is_told(file_desk: Desk) -> None:
    file_desk.shop.who = "Robin"
    found = conflict(file_desk, both(phone("(303) 555-0123"), people(4)), people(3))
    ((at, by, words),) = found.changes
    assert (at, by) == (file_desk.clock(), "Robin")
    assert "(303) 555-0123" in words
    assert "People at the bench at one time: 2 → 4" in words


def test_what_only_one_changed_is_no_clash_and_neither_loses_it(file_desk: Desk) -> None:
    found = conflict(file_desk, phone("(303) 555-0123"), people(3))
    assert found.clashes == ()
    settled = found.settled({})
    assert (settled.front.phone, settled.people) == ("(303) 555-0123", 3)


def test_what_both_changed_is_picked_field_by_field(file_desk: Desk) -> None:
    theirs, yours = both(phone("(303) 555-0123"), people(4)), both(phone("(303) 555-0199"), people(5))
    found = conflict(file_desk, theirs, yours)
    assert [each.path for each in found.clashes] == [("front", "phone"), ("work", "people")]
    first = found.clashes[0]
    assert first.theirs.endswith("→ (303) 555-0123")
    assert first.yours.endswith("→ (303) 555-0199")
    settled = found.settled({("front", "phone"): False, ("work", "people"): True})
    assert (settled.front.phone, settled.people) == ("(303) 555-0123", 5)


def test_the_same_change_twice_is_no_clash(file_desk: Desk) -> None:
    assert conflict(file_desk, people(4), people(4)).clashes == ()


def test_two_people_entered_at_two_counters_are_both_there(file_desk: Desk) -> None:
    found = conflict(file_desk, staff("Ada"), staff("Bo"))
    assert found.clashes == ()
    assert {each.name for each in found.settled({}).staff} == {"Ada", "Bo"}


def test_a_list_without_names_is_one_field(file_desk: Desk) -> None:
    found = conflict(file_desk, opened_at(540), opened_at(600))
    (clash,) = found.clashes
    assert clash.path == ("opening",)
    assert "Sunday" in clash.theirs
    assert clash.theirs != clash.yours
    assert found.settled({("opening",): True}).openings[0].start == 600


@pytest.mark.parametrize("takes_yours", [True, False])
def test_what_one_removed_and_the_other_changed_is_a_clash(file_desk: Desk, takes_yours: bool) -> None:
    name = file_desk.shop.ask(current_settings.read).decks[-1].name
    found = conflict(file_desk, without_deck(name), broken(name))
    (clash,) = found.clashes
    assert clash.theirs == f"Deck {name} is removed"
    there = {each.name for each in found.settled({clash.path: takes_yours}).decks}
    assert (name in there) is takes_yours


def test_a_pin_is_not_shown_in_a_clash(file_desk: Desk) -> None:
    def pin(salt: str) -> Change:
        kept = f"$argon2id$v=19$m=8,t=1,p=1${salt * 12}$cGVwcGVy{salt * 12}"
        return lambda before: replace(
            before, staff=(Person("Ada", may=frozenset({"settings"}), pin=kept), *before.staff[1:])
        )

    settings = file_desk.shop.ask(current_settings.read)
    file_desk.shop.run(settings_versions.change, staff("Ada")(settings))
    file_desk.shop.who = "Ada"
    (clash,) = conflict(file_desk, pin("a"), pin("b")).clashes
    assert clash.theirs == clash.yours == "PIN of Ada changed"


def test_what_does_not_go_together_is_told(file_desk: Desk) -> None:
    """Each took the right from the other: together nobody could change the settings any more."""
    settings = file_desk.shop.ask(current_settings.read)
    file_desk.shop.run(settings_versions.change, staff("Ada", "Bo")(settings))
    file_desk.shop.who = "Ada"

    def without(name: str) -> Change:
        return lambda kept: replace(
            kept,
            staff=tuple(replace(each, may=frozenset()) if each.name == name else each for each in kept.staff),
        )

    found = conflict(file_desk, without("Bo"), without("Ada"))
    with pytest.raises(WrongInput, match="at least one person must be allowed"):
        found.settled({each.path: True for each in found.clashes})
