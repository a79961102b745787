"""What is written for good is flushed before it has its name, its folder afterwards; a failed flush is said.

Each test was seen red with the flush it asks for taken out.
"""

from __future__ import annotations

import errno
import os
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from core.model.errors import Unavailable
from core.services import paper_files
from core.services.records_door import Shop
from core.store.shop_files import dump_files, durable_files, shop_marker
from core.wording.messages import say
from tests.support.booked import Desk


class Watch:
    """Flushes and namings in their order, by what they concern."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.seen: list[tuple[str, Path | str]] = []
        self._flush, self._link, self._replace = os.fsync, os.link, os.replace
        monkeypatch.setattr(os, "fsync", self._was_flushed)
        monkeypatch.setattr(os, "link", self._was_linked)
        monkeypatch.setattr(os, "replace", self._was_replaced)

    def _was_flushed(self, handle: int) -> None:
        self.seen.append(("flush", os.readlink(f"/proc/self/fd/{handle}")))
        self._flush(handle)

    def _was_linked(self, source: Path, target: Path) -> None:
        self.seen.append(("name", str(source)))
        self._link(source, target)
        self.seen.append(("named", str(target)))

    def _was_replaced(self, source: Path, target: Path) -> None:
        self.seen.append(("name", str(source)))
        self._replace(source, target)
        self.seen.append(("named", str(target)))

    def check(self, target: Path) -> None:
        """The file was flushed under its first name, then named, then the folder was flushed."""
        named = self.seen.index(("named", str(target)))
        deed, growing = self.seen[named - 1]
        assert deed == "name"
        assert ("flush", growing) in self.seen[:named], "it was named before its bytes were sure"
        assert ("flush", str(target.parent)) in self.seen[named:], "its name is not sure"


@pytest.fixture
def watch(monkeypatch: pytest.MonkeyPatch) -> Watch:
    if not Path("/proc/self/fd").exists():
        pytest.skip("only /proc tells which file a handle is of")
    return Watch(monkeypatch)


def test_a_backup_is_flushed_before_it_is_named_and_its_folder_after(
    desk: Desk, tmp_path: Path, watch: Watch
) -> None:
    folder = tmp_path / "new" / "place"
    watch.check(desk.shop.backup(folder))
    assert ("flush", str(tmp_path)) in watch.seen, "the folder itself was new"
    assert ("flush", str(tmp_path / "new")) in watch.seen


def test_a_dump_is_flushed_before_it_is_named_and_its_folder_after(
    file_desk: Desk, tmp_path: Path, watch: Watch
) -> None:
    with file_desk.shop.database.reading.connect() as connection:
        watch.check(dump_files.write(connection, tmp_path / "shop.jsonl", file_desk.clock()))


def test_a_paper_is_flushed_before_it_is_named_and_its_folder_after(tmp_path: Path, watch: Watch) -> None:
    folder = paper_files.prepare(tmp_path / "papers" / "march")
    watch.check(paper_files.write(folder, "slip", b"%PDF"))
    assert ("flush", str(tmp_path)) in watch.seen, "the folder itself was new"


def test_the_first_shop_file_is_in_a_folder_that_was_flushed(
    tmp_path: Path, watch: Watch, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also where the marker beside it could not be written, which flushes the folder as well."""
    monkeypatch.setattr(shop_marker, "leave", lambda path: None)
    path = tmp_path / "data" / "shop.sqlite"
    Shop.open(path).close()
    assert ("flush", str(tmp_path)) in watch.seen
    assert ("flush", str(path.parent)) in watch.seen


# --- a disk that fails -------------------------------------------------------------------


def _failing(monkeypatch: pytest.MonkeyPatch, error: int, of: Callable[[Path], bool]) -> None:
    real = os.fsync

    def flush(handle: int) -> None:
        if of(Path(os.readlink(f"/proc/self/fd/{handle}"))):
            raise OSError(error, os.strerror(error))
        real(handle)

    monkeypatch.setattr(os, "fsync", flush)


@pytest.mark.parametrize("what", ["file", "folder"])
def test_a_disk_that_fails_at_the_flush_of_a_backup_is_named(
    desk: Desk, tmp_path: Path, watch: Watch, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    """EIO: what was written may be gone, so it was no backup."""
    folder = tmp_path / "stick"
    folder.mkdir()
    _failing(monkeypatch, errno.EIO, lambda path: path.parent == folder if what == "file" else path == folder)
    with pytest.raises(Unavailable) as told:
        desk.shop.backup(folder)
    assert told.value.sentence == say("records", "disk_failed", where=folder)
    assert "safe" not in told.value.sentence
    if what == "file":
        assert list(folder.iterdir()) == []


def test_a_file_system_that_flushes_no_folders_is_no_failure(
    tmp_path: Path, watch: Watch, monkeypatch: pytest.MonkeyPatch
) -> None:
    _failing(monkeypatch, errno.EINVAL, Path.is_dir)
    durable_files.write(tmp_path / "a", b"kept")
    assert (tmp_path / "a").read_bytes() == b"kept"


# --- at once -----------------------------------------------------------------------------


def test_backups_made_in_the_same_second_all_succeed(desk: Desk, tmp_path: Path) -> None:
    copies: list[Path] = []
    ready = threading.Barrier(4)

    def make() -> None:
        with Shop.open(desk.where, clock=desk.clock) as shop:
            ready.wait()
            copies.append(shop.backup(tmp_path / "stick"))

    threads = [threading.Thread(target=make) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(set(copies)) == 4
    assert sorted((tmp_path / "stick").iterdir()) == sorted(copies)


@pytest.mark.parametrize("has_links", [True, False])
def test_a_free_name_is_given_and_no_file_is_overwritten(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, has_links: bool
) -> None:
    if not has_links:

        def no_links(*_: object) -> None:
            raise OSError(errno.EPERM, os.strerror(errno.EPERM))

        monkeypatch.setattr(os, "link", no_links)
    for n in range(3):
        growing = durable_files.beside(tmp_path / "copy.sqlite")
        growing.write_text(str(n))
        durable_files.give_free_name(growing, tmp_path / "copy.sqlite")
    found = {file.name: file.read_text() for file in tmp_path.iterdir()}
    assert found == {"copy.sqlite": "0", "copy-2.sqlite": "1", "copy-3.sqlite": "2"}
