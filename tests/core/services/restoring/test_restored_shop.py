"""A restore is done whole or not at all, never under somebody's feet, and gives no number twice."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from core.model import numbers
from core.model.errors import NoShopYet, Refused, Unavailable
from core.services import backup, jobs
from core.services.own_shop import backup_places, shop_document
from core.services.records_door import Shop
from core.services.restoring import given_numbers, restored_file, restored_shop
from core.store.shop_files import restore_journal, shop_marker
from core.wording.messages import say
from tests.support.booked import MORNING, OWN_NAME, Desk, events, line

BOOKED = 3


def _copied(desk: Desk, folder: Path) -> Path:
    """A backup after one of three orders."""
    desk.book(line())
    copy = desk.shop.backup(folder)
    for _ in range(BOOKED - 1):
        desk.book(line())
    return copy


def _restore(desk: Desk, file: Path, **how: bool | int) -> restored_shop.Restored:
    return restored_shop.restore(desk.where, file, now=desk.clock(), who="counter", **how)  # type: ignore[arg-type]


def _orders(desk: Desk) -> list[str]:
    with Shop.open(desk.where, clock=desk.clock, create=False) as shop:
        assert shop.verify() == ()
        return [job.number for job in shop.ask(jobs.open_jobs)]


# --- numbers -----------------------------------------------------------------------------


def test_numbers_given_out_after_the_backup_are_not_given_again(desk: Desk, tmp_path: Path) -> None:
    copy = _copied(desk, tmp_path / "copies")
    given = {job.number for job in desk.shop.ask(jobs.open_jobs)}
    desk.shop.close()
    assert _restore(desk, copy, replace=True).numbers_known
    with Shop.open(desk.where, clock=desk.clock, who="Kim", create=False) as desk.shop:
        number = desk.book(line()).number
        (told,) = events(desk.shop, given_numbers.KIND)
    assert number not in given
    assert numbers.sequence(number) == BOOKED + 1
    assert json.loads(told.payload) == {"file": copy.name, "first_skipped": 2, "last_skipped": BOOKED}
    assert len(_orders(desk)) == 2


def test_a_shop_that_was_lost_counts_on_after_the_number_somebody_knows(
    file_desk: Desk, tmp_path: Path
) -> None:
    copy = _copied(file_desk, tmp_path / "copies")
    elsewhere = tmp_path / "new" / "shop.sqlite"
    done = restored_shop.restore(elsewhere, copy, now=file_desk.clock(), who="counter")
    assert not done.numbers_known
    done = restored_shop.restore(elsewhere, copy, now=file_desk.clock(), who="counter", last_given=40)
    assert done.numbers_known
    with Shop.open(elsewhere, clock=file_desk.clock) as file_desk.shop:
        assert numbers.sequence(file_desk.book(line()).number) == 41
        assert file_desk.shop.verify() == ()


# --- a server in use ---------------------------------------------------------------------


@pytest.mark.postgres
def test_a_server_that_others_work_on_is_never_restored(server_shop: str, tmp_path: Path) -> None:
    with Shop.open(server_shop, who="Kim") as shop:
        copy = shop.backup(tmp_path)
        before = shop.ask(backup_places.read)
        for replace in (False, True):
            with pytest.raises(Refused) as told:
                restored_shop.restore(server_shop, copy, now=shop.clock(), who="counter", replace=replace)
            assert told.value.sentence == say("records", "server_in_use", where=shop.where, n=1)
        assert shop.ask(backup_places.read) == before
    assert [file.name for file in tmp_path.iterdir()] == [copy.name]
    restored_shop.restore(server_shop, copy, now=shop.clock(), who="counter")


@pytest.mark.postgres
def test_a_server_that_went_on_since_is_replaced_only_when_that_is_said(
    server_shop: str, tmp_path: Path
) -> None:
    with Shop.open(server_shop, who="Kim") as shop:
        now = shop.clock()
        copy = shop.backup(tmp_path)
        shop.run(shop_document.set_texts, [("front.phone", "(303) 555-0142")])
    with pytest.raises(Refused) as told:
        restored_shop.restore(server_shop, copy, now=now, who="counter")
    assert told.value.sentence == say("records", "server_went_on", file=copy)
    done = restored_shop.restore(server_shop, copy, now=now, who="counter", replace=True)
    assert done.kept is not None
    backup.check(done.kept, now)
    restored_shop.restore(server_shop, done.kept, now=now, who="counter", replace=True)
    with Shop.open(server_shop, create=False) as shop:
        assert shop.ask(shop_document.read)["front"]["phone"] == "(303) 555-0142"


@pytest.mark.postgres
def test_the_line_that_a_backup_was_made_is_no_work_that_would_be_lost(
    server_shop: str, tmp_path: Path
) -> None:
    with Shop.open(server_shop, who="Kim") as shop:
        shop.run(shop_document.set_texts, [("backup.first", str(tmp_path))])
        (copy,) = backup_places.keep_up(shop).files
    restored_shop.restore(server_shop, copy, now=shop.clock(), who="counter")


# --- another shop ------------------------------------------------------------------------


def _of_another(folder: Path, name: str) -> Path:
    """A backup of a shop that was set up elsewhere."""
    with Shop.open(folder / "other.sqlite", who="Robin") as other:
        other.run(shop_document.set_texts, [("front.name", name)])
        return other.backup(folder / "copies")


@pytest.mark.parametrize(("name", "alike"), [("The Far Reel", "no"), (OWN_NAME, "yes")])
def test_a_backup_of_another_shop_takes_no_place_unless_that_is_said(
    desk: Desk, tmp_path: Path, name: str, alike: str
) -> None:
    """Seen red without `shop_there.check_same_shop`."""
    copy = _of_another(tmp_path, name)
    number = desk.book(line()).number
    desk.shop.close()
    with pytest.raises(Refused) as told:
        _restore(desk, copy, replace=True)
    assert told.value.sentence == say("records", "of_another_shop", there=OWN_NAME, comes=name, alike=alike)
    assert _orders(desk) == [number]
    done = _restore(desk, copy, replace=True, another=True)
    assert done.kept is not None
    assert _orders(desk) == []
    assert _restore(desk, done.kept, replace=True, another=True).kept is not None
    assert _orders(desk) == [number]


def test_where_nothing_was_kept_yet_any_backup_may_come(tmp_path: Path) -> None:
    """A computer that is new: the window was opened there once."""
    copy = _of_another(tmp_path, "The Far Reel")
    Shop.open(tmp_path / "new" / "shop.sqlite").close()
    done = restored_shop.restore(tmp_path / "new" / "shop.sqlite", copy, now=MORNING, who="counter")
    assert done.kept is not None


# --- cut off -----------------------------------------------------------------------------


class PowerCut(BaseException):
    """The program ends here, and nothing after it is done."""


def _cut_at(desk: Desk, file: Path, monkeypatch: pytest.MonkeyPatch, step: str) -> None:
    """A restore of which the program ends at a step, without any of its tidying up."""

    room = restore_journal if step.startswith("_") else restore_journal.durable_files
    real = getattr(room, step)

    def cut(source: Path, target: Path | None = None) -> None:
        if target is None or "before-restore" in target.name or target == Path(desk.where):
            raise PowerCut
        real(source, target)

    with monkeypatch.context() as broken:
        broken.setattr(restore_journal.RestoreJournal, "put_away", lambda *_: None)
        broken.setattr(room, step, cut)
        with pytest.raises(PowerCut):
            _restore(desk, file)


def test_a_restore_cut_off_before_it_was_decided_is_undone_at_the_next_start(
    file_desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = _copied(file_desk, tmp_path / "copies")
    file_desk.shop.close()
    _cut_at(file_desk, copy, monkeypatch, "flush")
    assert restore_journal.place(Path(file_desk.where)).exists()
    assert len(_orders(file_desk)) == BOOKED
    assert not _left_over(file_desk)


def test_a_restore_cut_off_after_it_was_decided_is_finished_at_the_next_start(
    file_desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = _copied(file_desk, tmp_path / "copies")
    file_desk.shop.close()
    for step in ("_also_named", "replace"):
        _cut_at(file_desk, copy, monkeypatch, step)
        assert Path(file_desk.where).exists(), "there is a shop at every moment"
        assert len(_orders(file_desk)) == 1
        assert not _left_over(file_desk)
        (kept,) = Path(file_desk.where).parent.glob("*before-restore*")
        file_desk.clock.go_on(minutes=1)
        restored_shop.restore(file_desk.where, kept, now=file_desk.clock(), who="counter")
        assert len(_orders(file_desk)) == BOOKED
        for each in Path(file_desk.where).parent.glob("*before-restore*"):
            each.unlink()
        file_desk.clock.go_on(minutes=1)


def test_while_a_restore_is_under_way_nobody_opens_the_shop(file_desk: Desk, tmp_path: Path) -> None:
    path = Path(file_desk.where)
    file_desk.shop.close()
    with restore_journal.under_way(path, tmp_path / "kept.sqlite"):
        for begin in (Shop.open, lambda where: _restore(file_desk, tmp_path)):
            with pytest.raises(Unavailable) as told:
                begin(path)
            assert told.value.sentence == say("records", "restore_under_way", where=path)
    assert not _left_over(file_desk)
    Shop.open(path).close()


def test_who_waited_for_the_old_file_does_not_work_on_it(
    file_desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A till that was opening the file while it got another: what it stores would be found nowhere."""
    copy = _copied(file_desk, tmp_path / "copies")
    path = Path(file_desk.where)
    file_desk.shop.close()
    waiting = Shop.open(path, clock=file_desk.clock, create=False)
    waiting.close()
    from core.store import engines

    real = engines._identity
    answers = [real(path)]
    monkeypatch.setattr(engines, "_identity", lambda where: answers.pop() if answers else real(where))
    _restore_without_engines(path, copy)
    with pytest.raises(Unavailable) as told:
        waiting.ask(jobs.open_jobs)
    assert told.value.sentence == say("records", "restore_under_way", where=path)


def _restore_without_engines(path: Path, copy: Path) -> None:
    """Only the last step of a restore: another file has the name now."""
    os.replace(copy, path)


def _left_over(desk: Desk) -> list[str]:
    folder = Path(desk.where).parent
    return [each.name for each in folder.iterdir() if "restoring" in each.name]


def test_a_restore_is_refused_while_the_disk_is_too_full_and_nothing_is_left_over(
    file_desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = _copied(file_desk, tmp_path / "copies")
    file_desk.shop.close()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(restored_file.given_numbers, "note", full)
    with pytest.raises(Unavailable) as told:
        _restore(file_desk, copy)
    assert told.value.sentence == say("records", "disk_full", where=file_desk.where)
    assert not _left_over(file_desk)
    assert len(_orders(file_desk)) == BOOKED


# --- where a shop was --------------------------------------------------------------------


def test_no_empty_shop_is_started_where_one_was(file_desk: Desk) -> None:
    path = Path(file_desk.where)
    file_desk.book(line())
    file_desk.shop.close()
    path.unlink()
    for gone in (True, False):
        if not gone:
            path.touch()
        for create in (True, False):
            with pytest.raises(Unavailable) as told:
                Shop.open(path, create=create)
            assert not isinstance(told.value, NoShopYet)
            marker = shop_marker.place(path)
            assert told.value.sentence == say("records", "shop_is_gone", path=path, marker=marker)
        assert path.exists() is not gone
    shop_marker.place(path).unlink()
    path.unlink()
    Shop.open(path).close()


def test_a_backup_is_restored_where_a_shop_was(file_desk: Desk, tmp_path: Path) -> None:
    copy = _copied(file_desk, tmp_path / "copies")
    file_desk.shop.close()
    Path(file_desk.where).unlink()
    assert _restore(file_desk, copy).kept is None
    assert len(_orders(file_desk)) == 1


def test_a_shop_made_before_there_was_a_marker_gets_one(file_desk: Desk) -> None:
    marker = shop_marker.place(Path(file_desk.where))
    file_desk.shop.close()
    marker.unlink()
    Shop.open(file_desk.where).close()
    assert marker.exists()
