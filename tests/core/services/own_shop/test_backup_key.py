"""Locked backups: nobody reads them without the key, which is shown once; with it they are restored whole."""

from __future__ import annotations

from pathlib import Path

import pyrage
import pytest

from core.model.errors import Refused, Unavailable, WrongInput
from core.services import backup, jobs
from core.services.own_shop import backup_key, backup_places, shop_document
from core.services.own_shop.backup_key import BackupKey
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.store.shop_files import locked_files
from core.wording.messages import say
from tests.support import pdf
from tests.support.booked import Desk
from tests.support.typed import Typist

NAME = "Łucja Núñez"


@pytest.fixture(scope="module")
def made() -> BackupKey:
    return backup_key.new()


def _lock(desk: Desk, made: BackupKey) -> None:
    desk.shop.run(shop_document.set_texts, [("backup.lock", made.public_key)])


@pytest.fixture
def stick(desk: Desk, tmp_path: Path, made: BackupKey) -> Path:
    """A place of the plan, of a shop with one order whose backups are locked."""
    folder = tmp_path / "stick"
    folder.mkdir()
    desk.book(name=NAME)
    desk.shop.run(shop_document.set_texts, [("backup.first", str(folder))])
    _lock(desk, made)
    return folder


def test_a_locked_backup_tells_nothing_and_comes_back_whole_with_the_key(
    desk: Desk, stick: Path, made: BackupKey, tmp_path: Path
) -> None:
    before = desk.shop.ask(jobs.open_jobs)
    (copy,) = backup_places.keep_up(desk.shop).files
    assert copy.name.endswith(locked_files.ENDING)
    assert list(stick.iterdir()) == [copy]
    assert NAME.encode() not in copy.read_bytes()
    found = backup.check(copy, desk.clock(), made.key)
    assert (found.orders, found.last_number, found.last_entry) == (1, 1, desk.clock())
    again = tmp_path / "again.sqlite"
    restored_shop.restore(again, copy, now=desk.clock(), who="counter", key=made.key)
    with Shop.open(again, create=False) as shop:
        assert shop.ask(jobs.open_jobs) == before
        assert shop.verify() == ()
    assert not [each for each in again.parent.iterdir() if "restoring" in each.name or "backing" in each.name]


def test_any_program_that_reads_the_age_format_unlocks_it(desk: Desk, stick: Path, made: BackupKey) -> None:
    """age-encryption.org/v1: the library's own reader, given the bytes and the key and nothing of ours."""
    (copy,) = backup_places.keep_up(desk.shop).files
    plain = pyrage.decrypt(copy.read_bytes(), [pyrage.x25519.Identity.from_str(made.key)])
    assert plain[:15] == (b"SQLite format 3" if desk.kind == "sqlite" else b'{"tapewright": ')


def test_without_the_key_or_with_another_it_is_refused_and_no_backup_is_called_bad(
    desk: Desk, stick: Path, made: BackupKey
) -> None:
    (copy,) = backup_places.keep_up(desk.shop).files
    with pytest.raises(Refused) as told:
        backup_places.rehearse(desk.shop, str(stick))
    assert told.value.sentence == say("records", "backup_is_locked", file=copy)
    for wrong in (backup_key.new().key, "open sesame"):
        with pytest.raises(WrongInput) as refused:
            backup_places.rehearse(desk.shop, str(stick), wrong)
        assert wrong not in refused.value.sentence
    spaced = " ".join(made.key[at : at + 6] for at in range(0, len(made.key), 6))
    assert backup_places.rehearse(desk.shop, str(stick), spaced).is_good


def test_a_locked_backup_that_was_altered_is_refused(
    file_desk: Desk, made: BackupKey, tmp_path: Path
) -> None:
    copy = backup.make(file_desk.shop.database, tmp_path / "copies", file_desk.clock(), made.public_key)
    content = bytearray(copy.read_bytes())
    content[len(content) // 2] ^= 1
    copy.write_bytes(content)
    with pytest.raises(WrongInput, match=say("records", "backup_incomplete")):
        backup.check(copy, file_desk.clock(), made.key)


def test_what_was_locked_is_read_back_before_it_counts(
    file_desk: Desk, made: BackupKey, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seen red without the comparison in `lock`."""
    real = pyrage.encrypt_file

    def losing(plain: str, target: str, keys: list[object]) -> None:
        Path(plain).write_bytes(Path(plain).read_bytes()[:-1])
        real(plain, target, keys)
        Path(plain).write_bytes(Path(plain).read_bytes() + b"x")

    monkeypatch.setattr(pyrage, "encrypt_file", losing)
    with pytest.raises(Unavailable):
        backup.make(file_desk.shop.database, tmp_path / "copies", file_desk.clock(), made.public_key)
    assert list((tmp_path / "copies").iterdir()) == []


def test_a_public_key_that_is_none_is_refused(desk: Desk, made: BackupKey) -> None:
    for typed in ("age1qqqq", made.key, made.public_key[:-1] + "0", "secret"):
        with pytest.raises(WrongInput) as told:
            desk.shop.run(shop_document.set_texts, [("backup.lock", typed)])
        assert say("files", "public-key") in told.value.sentence
    _lock(desk, made)
    assert made.key not in desk.shop.ask(shop_document.export)


def test_the_key_is_made_printed_and_used_by_command(typed: Typist, box: Path, tmp_path: Path) -> None:
    assert typed("book", box).code == 0
    answer = typed("backup-key", "--paper", tmp_path / "papers").document
    (paper,) = answer["papers"]
    page = Path(paper).read_bytes()
    assert ("QRCode", answer["key"]) in pdf.scanned(page)
    assert answer["key"] in pdf.words(page).replace(" ", "")
    assert typed("shop", "show", "backup").document["lock"] == answer["lock"]
    copy = Path(typed("backup", tmp_path / "copies").document["file"])
    assert typed("rehearse-restore", copy).code == 3
    (tmp_path / "key").write_text(answer["key"] + "\n")
    found = typed("rehearse-restore", copy, "--key", tmp_path / "key").document
    assert (found["sound"], found["orders"], found["last_number"]) == (True, 1, "000018")
    assert list((tmp_path / "copies").iterdir()) == [copy]
    done = typed.plainly("restore", copy, "--key", tmp_path / "key", "--shop", tmp_path / "new.sqlite")
    assert done.code == 0
