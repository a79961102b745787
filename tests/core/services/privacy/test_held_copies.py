"""Erased also from what outlives the records: backups in two places, older copies, an older one put back."""

from __future__ import annotations

import json
import os
import tempfile
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from sqlalchemy import text

from core.model.errors import NotPermitted, Unavailable
from core.model.own_shop.settings_records import Person
from core.services import jobs
from core.services.own_shop import backup_key, backup_places, settings_versions, shop_document
from core.services.privacy import backup_renewal, customer_export, held_copies, kept_entries
from core.services.privacy.erasures import Erased
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.store import current_settings
from core.store.shop_files import dump_files, erased_orders, file_copies
from core.wording.messages import say
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.named_everywhere import NAME, a_year_ago, erase, found
from tests.support.typed import Typist

NUMBER = "000018"
SOON = {"keep": 2, "keep_days": 3, "keep_weeks": 0, "keep_years": 0}


def _begin(desk: Desk) -> None:
    a_year_ago(desk)


begun_file, begun_server = beginnings.begun_file(_begin), beginnings.begun_server(_begin)


def _settle(desk: Desk, **keys: object) -> None:
    desk.shop.run(shop_document.set_texts, [(f"backup.{key}", str(value)) for key, value in keys.items()])


def in_two_places(desk: Desk, tmp_path: Path) -> tuple[Path, Path]:
    """A stick and an attic, with backups of two days in each."""
    places = tmp_path / "stick", tmp_path / "attic"
    for each in places:
        each.mkdir()
    _settle(desk, first=places[0], second=places[1], **SOON)
    for _ in range(2):
        backup_places.keep_up(desk.shop)
        desk.clock.go_on(hours=25)
    return places


@pytest.fixture
def two_places(desk: Desk, tmp_path: Path) -> tuple[Path, Path]:
    return in_two_places(desk, tmp_path)


def _erase(desk: Desk) -> Erased:
    return erase(desk.shop, NUMBER)


# --- put back ----------------------------------------------------------------------------


def test_a_backup_from_before_is_erased_again_when_it_is_put_back(desk: Desk, tmp_path: Path) -> None:
    """By the shop that it replaces. Seen red without `erased_since.erase`."""
    copies = tmp_path / "copies"
    copy = desk.shop.backup(copies)
    _erase(desk)
    assert not found(desk, tmp_path, without=["copies"])
    desk.shop.close()
    (tmp_path / erased_orders.NAME).unlink(missing_ok=True)
    done = restored_shop.restore(desk.where, copy, now=desk.clock(), who="Kim", replace=True)
    assert done.erased_again == (NUMBER,)
    with Shop.open(desk.where, clock=desk.clock, who="Kim", create=False) as desk.shop:
        assert desk.shop.ask(jobs.get, NUMBER).customer.name == "(erased)"
        assert desk.shop.verify() == ()
        assert not found(desk, tmp_path, without=["copies"])


def test_a_shop_that_was_lost_is_erased_by_the_list_beside_its_backups(desk: Desk, tmp_path: Path) -> None:
    """Seen red without the list in the folder: then nobody knows any more."""
    copies, old = tmp_path / "copies", tmp_path / "copies" / "old"
    before = desk.shop.backup(old)
    _erase(desk)
    desk.shop.backup(copies)
    assert NAME not in (copies / erased_orders.NAME).read_text()
    before = before.rename(copies / before.name)
    elsewhere = tmp_path / "new" / "shop.sqlite"
    done = restored_shop.restore(elsewhere, before, now=desk.clock(), who="Kim")
    assert done.erased_again == (NUMBER,)
    with Shop.open(elsewhere, clock=desk.clock, who="Kim", create=False) as again:
        assert again.verify() == ()
    there = Desk(again, desk.clock, str(elsewhere), "sqlite")
    assert not found(there, elsewhere.parent)
    assert erased_orders.listed(elsewhere.parent), "the next restore knows as well"


def test_somebody_whose_order_was_open_then_is_erased_all_the_same(file_desk: Desk, tmp_path: Path) -> None:
    """The books of the backup have the order open; the person asked to be gone."""
    other = file_desk.book(line(), name="Ada Fenwick")
    copy = file_desk.shop.backup(tmp_path / "copies")
    booked = file_desk.shop.ask(_booked_at, other.number)
    erased_orders.add(copy.parent, [erased_orders.mark(other.number, booked)])
    elsewhere = tmp_path / "new" / "shop.sqlite"
    done = restored_shop.restore(elsewhere, copy, now=file_desk.clock(), who="Kim")
    assert done.erased_again == (other.number,)
    with Shop.open(elsewhere, create=False) as again:
        assert [job.customer.name for job in again.ask(jobs.open_jobs)] == ["(erased)"]
        assert again.ask(jobs.get, NUMBER).customer.name == NAME
        assert again.verify() == ()


def _booked_at(unit: object, number: str) -> str:
    asked = text("SELECT booked_at FROM jobs WHERE number = :number")
    return str(unit.session.execute(asked, {"number": number}).scalar_one())  # type: ignore[attr-defined]


def test_a_number_that_was_given_a_second_time_is_another_order(file_desk: Desk, tmp_path: Path) -> None:
    copy = file_desk.shop.backup(tmp_path / "copies")
    erased_orders.add(copy.parent, [erased_orders.mark(NUMBER, file_desk.clock() + timedelta(days=900))])
    done = restored_shop.restore(tmp_path / "new.sqlite", copy, now=file_desk.clock(), who="Kim")
    assert done.erased_again == ()


def test_the_list_stands_a_torn_line_and_is_written_once(tmp_path: Path) -> None:
    first, second = erased_orders.mark("000018", "2026"), erased_orders.mark("000026", "2026")
    erased_orders.add(tmp_path, [first])
    path = tmp_path / erased_orders.NAME
    path.write_bytes(path.read_bytes() + second[:30].encode())  # what a cut leaves
    assert erased_orders.listed(tmp_path) == {first}
    erased_orders.add(tmp_path, [first, second])
    assert erased_orders.listed(tmp_path) == {first, second}
    before = path.read_bytes()
    erased_orders.add(tmp_path, [second])
    assert path.read_bytes() == before


# --- as they rotate ----------------------------------------------------------------------


def test_once_the_backups_have_rotated_the_name_is_found_nowhere(
    desk: Desk, two_places: tuple[Path, Path], tmp_path: Path
) -> None:
    """On the day that the erasure told, and not before: shop, both places, lists, every byte."""
    done = _erase(desk)
    until = done.in_backups_until
    assert until is not None
    assert {name for name, _ in found(desk, tmp_path)} >= {each.name for each in two_places[1].glob("shop-*")}
    last_held = date.min
    while desk.clock().date() <= until:
        backup_places.keep_up(desk.shop)
        if found(desk, tmp_path):
            last_held = desk.clock().date()
        desk.clock.go_on(hours=24)
    assert not found(desk, tmp_path)
    assert desk.shop.verify() == ()
    assert until - timedelta(days=4) < last_held < until, "the day is not told years too late"


def test_a_place_that_was_not_plugged_in_gets_the_list_with_its_next_backup(
    file_desk: Desk, tmp_path: Path
) -> None:
    stick, attic = in_two_places(file_desk, tmp_path)
    away = attic.rename(tmp_path / "at-home")
    _erase(file_desk)
    assert erased_orders.listed(stick)
    away.rename(attic)
    assert not erased_orders.listed(attic)
    file_desk.clock.go_on(hours=25)
    backup_places.keep_up(file_desk.shop)
    assert erased_orders.listed(attic) == erased_orders.listed(stick)


def test_the_last_one_tried_out_does_not_outlive_an_erasure(file_desk: Desk, tmp_path: Path) -> None:
    """Else somebody would be kept for as long as nobody tries a backup out."""
    stick = tmp_path / "stick"
    stick.mkdir()
    _settle(file_desk, first=stick, keep=2, keep_days=0, keep_weeks=0, keep_years=0)
    (tried,) = backup_places.keep_up(file_desk.shop).files
    backup_places.rehearse(file_desk.shop, str(stick))
    _erase(file_desk)
    for _ in range(2):
        file_desk.clock.go_on(hours=25)
        backup_places.keep_up(file_desk.shop)
    assert not tried.exists()


def test_copies_that_a_killed_program_left_half_made_go_as_well(
    file_desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is growing right now stays. Seen red without `remove_leftovers`."""
    stick, scratch = tmp_path / "stick", tmp_path / "scratch"
    for folder in (stick, scratch / "tapewright-rehearsal-x7", tmp_path / ".backing-up-x7"):
        folder.mkdir(parents=True)
    monkeypatch.setattr(tempfile, "tempdir", str(scratch))
    _settle(file_desk, first=stick)
    held = Path(file_desk.where).read_bytes()
    half = [
        stick / ".shop-1.sqlite-x7.growing",
        tmp_path / ".backing-up-x7",
        scratch / "tapewright-rehearsal-x7",
    ]
    now = file_desk.clock().timestamp()
    for path in half:
        (path / "shop.sqlite" if path.is_dir() else path).write_bytes(held)
        os.utime(path, (now - 4000, now - 4000))
    growing = stick / ".shop-2.sqlite-x7.growing"
    growing.write_bytes(b"just begun")
    os.utime(growing, (now, now))
    _erase(file_desk)
    assert [path for path in half if path.exists()] == []
    assert growing.exists()
    assert not found(file_desk, tmp_path)


# --- made anew at once -------------------------------------------------------------------


def test_made_anew_at_once_nothing_holds_the_name(
    desk: Desk, two_places: tuple[Path, Path], tmp_path: Path
) -> None:
    _copy_before(desk)
    done = _erase(desk)
    assert len(done.copies) == 1
    renewed = backup_renewal.renew(desk.shop)
    assert renewed.is_whole
    assert [each.parent for each in renewed.made] == list(two_places)
    assert len(renewed.removed) == 2 * 2 + 1
    assert not found(desk, tmp_path)
    assert not done.copies[0].exists()
    for place in desk.shop.ask(backup_places.read).places:
        assert backup_places.rehearse(desk.shop, place.folder).is_good
    assert backup_renewal.renew(desk.shop).removed == ()
    assert desk.shop.verify() == ()


def _copy_before(desk: Desk) -> None:
    """As before an update of the tables."""
    database = desk.shop.database
    if database.path is not None:
        file_copies.copy_before(database.path, "before-0099", desk.clock())
    else:
        dump_files.keep_server(database, "before-0099", desk.clock())


def test_a_place_without_a_new_one_keeps_what_it_has(
    file_desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seen red where the old ones went first."""
    stick, attic = in_two_places(file_desk, tmp_path)
    _erase(file_desk)
    before = sorted(attic.iterdir())
    real = backup_renewal.backup.check

    def bad_in_the_attic(file: Path, *asked: object) -> object:
        if file.parent == attic:
            raise Unavailable("the disk failed")
        return real(file, *asked)  # type: ignore[arg-type]

    monkeypatch.setattr(backup_renewal.backup, "check", bad_in_the_attic)
    done = backup_renewal.renew(file_desk.shop)
    assert [folder for folder, _ in done.failures] == [str(attic)]
    assert not done.is_whole
    assert set(before) <= set(attic.iterdir())
    assert len([*stick.glob("*-*")]) == 1 + 1  # the new one and the list


def test_what_somebody_else_put_there_is_told_and_left(file_desk: Desk, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    _settle(file_desk, first=stick)
    by_hand = file_desk.shop.backup(stick)
    (stick / "holiday.jpg").write_bytes(b"\xff\xd8")
    _erase(file_desk)
    assert backup_renewal.renew(file_desk.shop).left == (by_hand,)
    assert by_hand.exists()
    key = backup_key.new()
    _settle(file_desk, lock=key.public_key)
    backup_places.keep_up(file_desk.shop, at_once=True)
    assert backup_renewal.renew(file_desk.shop).left == (by_hand,)


def test_nobody_makes_them_anew_without_the_right(file_desk: Desk) -> None:
    staff = (Person("Ada", may=frozenset({"settings", "erase"})), Person("Kit"))
    settings = file_desk.shop.ask(current_settings.read)
    file_desk.shop.run(settings_versions.change, replace(settings, staff=staff), needs=None)
    file_desk.shop.who = "Kit"
    with pytest.raises(NotPermitted):
        backup_renewal.renew(file_desk.shop)


# --- told --------------------------------------------------------------------------------


def test_the_page_and_the_erasure_tell_the_day(file_desk: Desk, tmp_path: Path) -> None:
    in_two_places(file_desk, tmp_path)
    (told,) = [each.how_long for each in file_desk.shop.ask(kept_entries.entries) if each.name == "backups"]
    done = _erase(file_desk)
    day = held_copies.last_day(file_desk.shop.ask(backup_places.read), file_desk.clock())
    assert day == done.in_backups_until is not None
    assert f"{day:%B} {day.day}, {day.year}" in told
    assert any(f"{day.year}" in each for each in done.sentences)


def test_a_file_that_was_given_out_is_told_with_the_erasure(file_desk: Desk, tmp_path: Path) -> None:
    file = str(tmp_path / "zebedee.json")
    file_desk.shop.run(customer_export.note, NUMBER, file)
    done = _erase(file_desk)
    assert [str(each) for each in done.exported] == [file]
    assert not found(file_desk, tmp_path), "its name may hold the customer's"


def test_typed(typed: Typist, begun_file: Path, tmp_path: Path) -> None:
    Path(typed.shop).write_bytes(begun_file.read_bytes())
    stick = tmp_path / "stick"
    stick.mkdir()
    assert typed("shop", "set", "backup.first", stick).code == 0
    assert typed("backup").code == 0
    assert typed("export-customer", NUMBER, tmp_path / "hers.json").code == 0
    told = typed("erase", NUMBER).document
    assert told["exported"] == [str(tmp_path / "hers.json")]
    assert told["in_backups_until"] > "2026"
    done = typed("renew-backups").document
    assert (len(done["files"]), len(done["thinned"]), done["left"], done["failed"]) == (1, 1, [], [])
    (tmp_path / "hers.json").unlink()
    (new,) = done["files"]
    put_back = typed.plainly("restore", new, "--shop", tmp_path / "again.sqlite", "--json")
    assert json.loads(put_back.out)["erased_again"] == []


def test_sent_again_after_a_lost_answer_it_is_told_again_and_not_made_again(
    typed: Typist, begun_file: Path, tmp_path: Path
) -> None:
    """Seen red before `renew-backups` took an id: each repetition made another backup."""
    Path(typed.shop).write_bytes(begun_file.read_bytes())
    stick = tmp_path / "stick"
    stick.mkdir()
    assert typed("shop", "set", "backup.first", stick).code == 0
    assert typed("backup").code == 0
    words = ("erase", NUMBER, "--renew-backups", "--command", "E1")
    first = typed(*words, now="2026-03-02T11:00:00-05:00")
    again = typed(*words, now="2026-03-02T12:00:00-05:00")
    assert (first.code, again.code) == (0, 0)
    told = ("erased", "files", "thinned", "failed")
    assert [again.document[each] for each in told] == [first.document[each] for each in told]
    assert len([*stick.glob("*.sqlite")]) == 1
    assert say("cli", "saved_before") in again.err
    alone = [typed("renew-backups", "--command", "E2", now=f"2026-03-0{n}T13:00:00-05:00") for n in (3, 4)]
    assert alone[0].document == alone[1].document
    assert len([*stick.glob("*.sqlite")]) == 2
    assert typed("renew-backups", "--command", "E1").code == 3
    assert typed("verify").code == 0


def test_what_failed_is_tried_again_under_the_same_id(
    typed: Typist, begun_file: Path, tmp_path: Path
) -> None:
    Path(typed.shop).write_bytes(begun_file.read_bytes())
    stick = tmp_path / "stick"
    assert typed("shop", "set", "backup.first", stick).code == 0
    assert typed("renew-backups", "--command", "E1").code == 4
    stick.mkdir()
    assert typed("renew-backups", "--command", "E1").document["files"]
