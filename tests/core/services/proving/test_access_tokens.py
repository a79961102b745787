"""Tokens and users of computers: issued once, kept as a digest, over on their day, revoked, never undone."""

from __future__ import annotations

import hashlib
import os
import pwd
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from core.model.errors import NotPermitted, Refused, WrongInput
from core.model.own_shop.access_records import SystemUser
from core.model.own_shop.settings_records import Permission, Person
from core.services.own_shop import people, settings_versions, shop_document
from core.services.proving import access_tokens, system_users
from core.services.records_door import Shop
from core.store import current_settings
from tests.support.booked import Desk, events, opened

OWNER = Person("Ada", may=frozenset(each.value for each in Permission))
CLERK = Person("Kit", may=frozenset({Permission.REFUND.value}))


def enter(shop: Shop, *staff: Person) -> None:
    settings = shop.ask(current_settings.read)
    shop.run(settings_versions.change, replace(settings, staff=staff), needs=None)


@pytest.fixture
def staffed(file_desk: Desk) -> Desk:
    enter(file_desk.shop, OWNER, CLERK)
    file_desk.shop.who = "Ada"
    return file_desk


@pytest.fixture
def token(staffed: Desk) -> str:
    made = access_tokens.new("nightly backup", staffed.clock().date())
    staffed.shop.run(access_tokens.issue, "Kit", made.kept)
    return made.token


def holder(desk: Desk, token: str) -> str:
    return desk.shop.ask(access_tokens.holder, token).name


def test_a_token_is_its_holders_and_no_other_text_is(staffed: Desk, token: str) -> None:
    assert holder(staffed, token) == "Kit"
    for wrong in (token[:-1], f"{token}x", "", "twt_"):
        with pytest.raises(Refused, match="not valid"):
            holder(staffed, wrong)


def test_it_has_256_random_bits_and_is_kept_as_a_salted_digest_only(staffed: Desk, token: str) -> None:
    """RFC 4648 §5: six bits a sign, so 43 signs for 256 bits; SHA-256 as FIPS 180-4 has it."""
    assert len(token.removeprefix("twt_")) == 43
    (kept,) = staffed.shop.ask(people.person, "Kit").tokens
    _, salt, digest = kept.digest.split("$")
    assert digest == hashlib.sha256((salt + token).encode()).hexdigest()
    assert len(salt) == 32
    again = access_tokens.new("nightly backup", staffed.clock().date())
    assert again.token != token
    assert again.kept.digest.split("$")[1] != salt
    staffed.shop.close()
    held = b"".join(each.read_bytes() for each in Path(staffed.where).parent.glob("shop.sqlite*"))
    assert digest.encode() in held
    assert token.encode() not in held


def test_its_digest_is_told_nowhere_but_in_the_export(staffed: Desk, token: str) -> None:
    told = events(staffed.shop, "settings")[-1].words
    assert told == "Token “nightly backup” issued to Kit, good through Monday, June 1, 2026"
    assert "sha256" not in told
    exported = staffed.shop.ask(shop_document.export)
    assert "sha256$" in exported
    assert token not in exported
    staffed.shop.run(shop_document.take_over, exported, "shop.toml")
    assert holder(staffed, token) == "Kit"
    assert staffed.shop.verify() == ()


def test_it_is_over_after_its_last_day(staffed: Desk) -> None:
    last = staffed.clock().date() + timedelta(days=3)
    made = access_tokens.new("camera", staffed.clock().date(), last)
    staffed.shop.run(access_tokens.issue, "Kit", made.kept)
    staffed.clock.go_on(days=3)
    assert holder(staffed, made.token) == "Kit"
    staffed.clock.go_on(days=1)
    with pytest.raises(Refused, match=r"“camera” of Kit was good through Friday, March 6, 2026"):
        holder(staffed, made.token)


@pytest.mark.parametrize("days", [-1, access_tokens.MOST_DAYS + 1])
def test_its_last_day_is_neither_over_nor_years_away(staffed: Desk, days: int) -> None:
    today = staffed.clock().date()
    with pytest.raises(WrongInput, match="at most 366 days away"):
        access_tokens.new("camera", today, today + timedelta(days=days))


def test_revoked_it_is_nobodys_and_no_undo_brings_it_back(staffed: Desk, token: str) -> None:
    staffed.shop.run(access_tokens.revoke, "Kit", "nightly backup")
    with pytest.raises(Refused, match="not valid"):
        holder(staffed, token)
    assert events(staffed.shop, "settings")[-1].words == "Token “nightly backup” of Kit revoked"
    with pytest.raises(Refused, match="not taken back by an undo"):
        staffed.shop.run(settings_versions.undo)
    with pytest.raises(Refused, match="not valid"):
        holder(staffed, token)


def test_whoever_works_here_no_more_has_no_token(staffed: Desk, token: str) -> None:
    enter(staffed.shop, OWNER, replace(staffed.shop.ask(people.person, "Kit"), retired=True))
    with pytest.raises(Refused, match="not valid"):
        holder(staffed, token)


def test_only_whoever_may_change_settings_issues_revokes_and_connects(staffed: Desk, token: str) -> None:
    staffed.shop.who = "Kit"
    before = staffed.shop.ask(shop_document.export)
    made = access_tokens.new("mine", staffed.clock().date())
    for step, *args in (
        (access_tokens.issue, "Kit", made.kept),
        (access_tokens.revoke, "Kit", "nightly backup"),
        (access_tokens.map_user, "Kit", "kit/1001@till-1"),
        (access_tokens.unmap_user, "Kit", "kit/1001@till-1"),
    ):
        with pytest.raises(NotPermitted, match=r"Kit may not change the settings. Ada can"):
            staffed.shop.run(step, *args)  # type: ignore[arg-type]
    assert staffed.shop.ask(shop_document.export) == before


def test_two_tokens_of_a_person_have_two_names(staffed: Desk, token: str) -> None:
    made = access_tokens.new("Nightly Backup", staffed.clock().date())
    with pytest.raises(Refused, match="has a token called"):
        staffed.shop.run(access_tokens.issue, "Kit", made.kept)
    with pytest.raises(WrongInput, match="nightly backup"):
        staffed.shop.run(access_tokens.revoke, "Kit", "camera")


# --- users of computers --------------------------------------------------------------------


def test_a_user_of_a_computer_is_one_person_only(staffed: Desk) -> None:
    staffed.shop.run(access_tokens.map_user, "Kit", "kit/1001@till-1")
    with pytest.raises(WrongInput, match="can be one person only, and this one is Kit"):
        staffed.shop.run(access_tokens.map_user, "Ada", "renamed/1001@till-1")
    staffed.shop.run(access_tokens.map_user, "Ada", "ada/1001@till-2")
    staffed.shop.run(access_tokens.unmap_user, "Kit", "kit/1001@till-1")
    assert staffed.shop.ask(people.person, "Kit").system_users == ()


@pytest.mark.parametrize(
    "typed", ["kit", "kit@till-1", "kit/1001", "/1001@till-1", "kit/1001@", "kit/10 01@till-1"]
)
def test_what_is_no_user_of_a_computer_is_refused(staffed: Desk, typed: str) -> None:
    with pytest.raises(WrongInput, match="like ada/1000@till-1"):
        staffed.shop.run(access_tokens.map_user, "Kit", typed)


def test_a_user_is_known_by_number_and_computer_whatever_the_login_says() -> None:
    user = SystemUser("ada", "1000", "till-1")
    assert user.is_one_of(["bo/1@till-1", "formerly/1000@till-1"])
    assert not user.is_one_of(["ada/1000@till-2", "ada/1001@till-1", ""])


def test_the_one_who_runs_this_is_asked_of_the_system_not_of_the_environment(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """POSIX getuid(2) and getpwuid(3); ``LOGNAME`` and ``USER`` say what somebody wrote there."""
    for name in ("LOGNAME", "USER", "LNAME", "USERNAME"):
        monkeypatch.setenv(name, "somebody-else")
    found = system_users.current()
    assert (found.login, found.number) == (pwd.getpwuid(os.getuid()).pw_name, str(os.getuid()))
    assert system_users.of_login(found.login) == found
    assert system_users.of_login("nobody-of-this-name") is None


# --- what a right is without proof ---------------------------------------------------------


@pytest.fixture(scope="module")
def guarded(empty_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """Ada may do everything and has a PIN; Kit may give money back and has none."""
    path = tmp_path_factory.mktemp("guarded") / "shop.sqlite"
    path.write_bytes(empty_file.read_bytes())
    with opened(str(path), "sqlite") as desk:
        enter(desk.shop, OWNER, CLERK)
        desk.shop.who = "Ada"
        desk.shop.run(people.set_pin, "Ada", "271828")
        yield desk


def test_once_the_owner_has_a_pin_a_right_counts_for_whoever_can_be_proven(guarded: Desk) -> None:
    shop = guarded.shop
    assert not shop.ask(people.may, "Kit", Permission.REFUND)
    for give, take in (
        ((people.set_pin, "Kit", "31415"), (people.set_pin, "Kit", "")),
        ((access_tokens.map_user, "Kit", "kit/1@t"), (access_tokens.unmap_user, "Kit", "kit/1@t")),
    ):
        shop.run(*give)  # type: ignore[arg-type]
        assert shop.ask(people.may, "Kit", Permission.REFUND)
        shop.run(*take)  # type: ignore[arg-type]
        assert not shop.ask(people.may, "Kit", Permission.REFUND)


def test_a_name_alone_does_not_sign_in_who_is_proven_by_their_computer(guarded: Desk) -> None:
    shop, user = guarded.shop, SystemUser("kit", "1", "t")
    shop.run(access_tokens.map_user, "Kit", user.text)
    refused = shop.run(people.sign_in, "Kit", "")
    assert not refused.is_right
    assert "Kit has no PIN, and this computer user is not Kit." in refused.sentence
    assert not shop.run(people.sign_in, "Kit", "", system_user=SystemUser("kit", "1", "other")).is_right
    assert shop.run(people.sign_in, "Kit", "", system_user=user).is_right
    shop.run(access_tokens.unmap_user, "Kit", user.text)
    assert shop.run(people.sign_in, "Kit", "").is_right, (
        "without any proof the name is picked, without rights"
    )


def test_while_no_owner_has_a_pin_a_name_is_enough_as_before(staffed: Desk) -> None:
    staffed.shop.run(people.set_pin, "Kit", "31415")
    assert staffed.shop.ask(people.may, "Ada", Permission.SETTINGS)
