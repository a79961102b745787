"""People with permissions and PINs: what is refused without them, and how whoever guesses a PIN waits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

import pytest
from argon2 import PasswordHasher, Type, extract_parameters

from core.model import serialization
from core.model.errors import Refused, WrongInput
from core.model.own_shop.settings_records import Outage, Permission, Person, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services import decks, expectations, payments
from core.services.own_shop import people, price_books, settings_versions, shop_document, shop_settings
from core.services.records_door import Shop
from core.store import current_settings
from tests.support.booked import Desk, events, line

OWNER = Person("Ada", may=frozenset(each.value for each in Permission))
CLERK = Person("Robin", may=frozenset({Permission.REFUND.value}))
HELPER = Person("Kit")


def _enter(shop: Shop, *staff: Person) -> ShopSettings:
    return shop.run(settings_versions.change, replace(shop.ask(current_settings.read), staff=staff))


@pytest.fixture
def staffed(desk: Desk) -> Desk:
    """A shop of an owner, a clerk who may give money back, and somebody who may do neither."""
    _enter(desk.shop, OWNER, CLERK, HELPER)
    desk.shop.who = "Ada"
    return desk


def test_where_nobody_is_entered_everybody_may_do_everything(desk: Desk) -> None:
    assert all(desk.shop.ask(people.may, "anybody", each) for each in Permission)


def test_a_permission_is_asked_of_the_person_acting(staffed: Desk) -> None:
    assert staffed.shop.ask(people.may, "Robin", Permission.REFUND)
    assert not staffed.shop.ask(people.may, "Robin", Permission.SETTINGS)
    assert not staffed.shop.ask(people.may, "counter", Permission.REPORTS)


@pytest.mark.parametrize("who", ["Robin", "Kit", "counter"])
def test_settings_and_prices_are_refused_without_the_permission(staffed: Desk, who: str) -> None:
    staffed.shop.who = who
    before = staffed.shop.ask(shop_document.export)
    today = staffed.clock().date()
    prices = {**staffed.shop.ask(price_books.document_in_force, today), "remark": "dearer"}
    fitted = staffed.shop.ask(current_settings.read)
    steps: Sequence[tuple[object, ...]] = (
        (shop_document.set_texts, [("work.people", "3")]),
        (shop_document.set_texts, [("person.Robin.may", '["settings"]')]),
        (shop_document.raise_prices, Decimal(4), Decimal("0.50")),
        (shop_document.confirm, [SetupPage.PAPERS]),
        (settings_versions.undo,),
        (price_books.enter, prices),
        (price_books.withdraw,),
        (expectations.expect, replace(fitted.expected, rush_boxes_a_week=9.0)),
    )
    for step in steps:
        with pytest.raises(Refused, match=rf"{who} may not change (the settings|prices)\. Ada can"):
            staffed.shop.run(*step)  # type: ignore[arg-type]
    assert staffed.shop.ask(shop_document.export) == before


def test_money_is_given_back_by_those_who_may(staffed: Desk) -> None:
    job = staffed.book(line())
    staffed.shop.run(payments.take, job.number, 500)
    staffed.shop.who = "Kit"
    with pytest.raises(Refused, match=r"Kit may not give money back\. Ada and Robin can"):
        staffed.shop.run(payments.refund, job.number, 100, note="a tape was blank")
    staffed.shop.who = "Robin"
    paid = staffed.shop.run(payments.refund, job.number, 100, note="a tape was blank")
    assert sum(each.minor for each in paid.payments) == 400


def test_what_happens_to_the_shop_anybody_enters(staffed: Desk) -> None:
    staffed.shop.who = "Kit"
    today = staffed.clock().date()
    assert not staffed.shop.run(decks.broke_down, "VHS 1", "eats tapes").decks[0].in_service
    assert staffed.shop.run(decks.plan_outage, Outage("VHS 2", today, today)).outages


def test_the_last_who_may_change_settings_cannot_give_it_up(staffed: Desk) -> None:
    for staff in ((replace(OWNER, retired=True), CLERK), (replace(OWNER, may=frozenset()), CLERK), (HELPER,)):
        with pytest.raises(WrongInput, match="at least one person must be allowed to change the settings"):
            _enter(staffed.shop, *staff)
    _enter(staffed.shop, replace(OWNER, retired=True), replace(CLERK, may=OWNER.may))
    assert not staffed.shop.ask(people.may, "Ada", Permission.SETTINGS)


@pytest.mark.parametrize("twin", ["Ada", "ADA", "Áda"])
def test_two_people_never_have_one_name(desk: Desk, twin: str) -> None:
    with pytest.raises(WrongInput, match="person 2, name"):
        _enter(desk.shop, OWNER, replace(HELPER, name=twin))


# --- PINs ----------------------------------------------------------------------------------


@pytest.mark.usefixtures("shipped_costs")
def test_a_pin_is_kept_as_an_argon2id_hash_with_the_costs_of_rfc_9106(staffed: Desk) -> None:
    """RFC 9106 §4, second recommended option: t = 3, m = 2^16 KiB, p = 4, 128-bit salt, 256-bit tag."""
    staffed.shop.run(people.set_pin, "Ada", "271828")
    kept = staffed.shop.ask(people.person, "Ada").pin
    costs = extract_parameters(kept)
    assert (costs.type, costs.version) == (Type.ID, 19)
    assert (costs.time_cost, costs.memory_cost, costs.parallelism) == (3, 2**16, 4)
    assert (costs.salt_len, costs.hash_len) == (16, 32)
    assert PasswordHasher().verify(kept, "271828")
    staffed.shop.run(people.set_pin, "Ada", "271828")
    assert staffed.shop.ask(people.person, "Ada").pin != kept, "every hash has a salt of its own"


def test_a_pin_is_written_down_nowhere_and_its_hash_only_in_the_export(staffed: Desk) -> None:
    staffed.shop.run(people.set_pin, "Ada", "271828")
    kept = staffed.shop.ask(people.person, "Ada").pin
    told = [each.words for each in staffed.shop.ask(settings_versions.versions)]
    assert told[0] == "PIN of Ada changed"
    assert all("271828" not in words and "argon2" not in words for words in told)
    assert "argon2" not in "".join(event.words for event in events(staffed.shop, "settings"))
    exported = staffed.shop.ask(shop_document.export)
    assert kept in exported
    assert "271828" not in exported
    assert shop_settings.loads(exported.split("[[price_book]]")[0]).staff[0].pin == kept
    assert staffed.shop.verify() == ()


@pytest.mark.parametrize("pin", ["123", "1" * 13, "12a4", "１２３４", "12 34", "-123"])
def test_what_is_no_pin_is_refused_without_being_repeated(staffed: Desk, pin: str) -> None:
    with pytest.raises(WrongInput, match="4 to 12 digits are accepted") as refused:
        staffed.shop.run(people.set_pin, "Ada", pin)
    assert pin not in refused.value.sentence


def test_a_pin_typed_into_the_settings_is_refused(staffed: Desk) -> None:
    with pytest.raises(WrongInput, match=r"person 1, pin.*set a PIN on the People page"):
        staffed.shop.run(shop_document.set_texts, [("person.Ada.pin", "271828")])


def test_ones_own_pin_needs_no_permission_and_that_of_others_does(staffed: Desk) -> None:
    staffed.shop.who = "Kit"
    staffed.shop.run(people.set_pin, "Kit", "31415")
    with pytest.raises(Refused, match="Kit may not change the settings"):
        staffed.shop.run(people.set_pin, "Robin", "31415")
    staffed.shop.who = "Ada"
    staffed.shop.run(people.set_pin, "Kit", "")
    assert not staffed.shop.ask(people.has_pin, "Kit")


def test_whoever_guesses_waits_longer_each_time(staffed: Desk) -> None:
    shop, clock = staffed.shop, staffed.clock
    shop.run(people.set_pin, "Ada", "271828")
    for _ in range(people.FREE_TRIES - 1):
        answer = shop.run(people.check_pin, "Ada", "0000")
        assert (answer.is_right, answer.wait_until) == (False, None)
        assert "not the PIN of Ada" in answer.sentence
    waits = []
    for _ in range(9):
        answer = shop.run(people.check_pin, "Ada", "0000")
        assert answer.wait_until is not None
        waits.append((answer.wait_until - clock()).total_seconds())
        clock.now = answer.wait_until
    assert waits == [30, 60, 120, 240, 480, 960, 1920, 3600, 3600]


def test_while_one_waits_even_the_right_pin_is_not_looked_at(staffed: Desk) -> None:
    shop, clock = staffed.shop, staffed.clock
    shop.run(people.set_pin, "Ada", "271828")
    for _ in range(people.FREE_TRIES):
        shop.run(people.check_pin, "Ada", "0000")
    clock.go_on(seconds=29)
    early = shop.run(people.check_pin, "Ada", "271828")
    assert not early.is_right
    assert early.sentence == "Too many wrong PINs. Try again in 1 second."
    clock.go_on(seconds=1)
    assert shop.run(people.check_pin, "Ada", "271828").is_right
    assert shop.run(people.check_pin, "Ada", "0000").wait_until is None, "the right one begins anew"
    assert len(events(shop, "pin-wrong")) == people.FREE_TRIES + 1
    assert shop.verify() == ()


def test_the_wait_of_one_person_is_not_that_of_another(staffed: Desk) -> None:
    shop = staffed.shop
    for name in ("Ada", "Robin"):
        shop.run(people.set_pin, name, "271828")
    for _ in range(people.FREE_TRIES):
        shop.run(people.check_pin, "Ada", "0000")
    assert shop.run(people.check_pin, "Robin", "271828").is_right


def test_signing_in_is_a_line_of_history_under_the_persons_name(staffed: Desk) -> None:
    shop = staffed.shop
    shop.run(people.set_pin, "Ada", "271828")
    shop.who = "counter"
    assert not shop.run(people.sign_in, "Ada", "1234").is_right
    assert shop.run(people.sign_in, "Kit", "").is_right
    assert shop.run(people.sign_in, "Ada", "271828").is_right
    assert [(event.by, event.words) for event in events(shop, "signed-in")] == [
        ("Kit", "Kit signed in"),
        ("Ada", "Ada signed in"),
    ]
    with pytest.raises(WrongInput, match="found 'Pip'; accepted are Ada, Robin, Kit"):
        shop.run(people.sign_in, "Pip", "")


def test_settings_kept_before_there_were_people_are_still_read(desk: Desk) -> None:
    """A record as it was written before the fields came: the old version of a shop file."""
    settings = desk.shop.ask(current_settings.read)
    older = serialization.plain(settings)
    assert isinstance(older, dict)
    for field in ("staff", "lock_minutes"):
        del older[field]
    for deck in older["decks"]:
        del deck["retired"], deck["formerly"]
    assert serialization.record_of(ShopSettings, older) == settings
