"""Shop, copies, papers, photos, exports and logs: for the owner alone, also where the umask is 022."""

from __future__ import annotations

import io
import os
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image

from core.services.records_door import Shop
from tests.support.typed import Typist

pytestmark = pytest.mark.skipif(os.name == "nt", reason="modes are POSIX")


@pytest.fixture(autouse=True)
def umask() -> Iterator[None]:
    before = os.umask(0o022)
    yield
    os.umask(before)


def open_to_others(folder: Path) -> list[str]:
    found = [each for each in folder.rglob("*") if stat.S_IMODE(each.stat().st_mode) & 0o077]
    return [each.relative_to(folder).as_posix() for each in found]


def photo(path: Path) -> Path:
    held = io.BytesIO()
    Image.new("RGB", (9, 9), "teal").save(held, "PNG")
    path.write_bytes(held.getvalue())
    path.chmod(0o600)
    return path


def test_nobody_else_reads_what_a_day_at_the_shop_writes(
    typed: Typist, box: Path, codes: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_log_dir", lambda *_, **__: str(tmp_path / "log" / "deep"))
    box.chmod(0o600)
    seen = photo(tmp_path / "seen.png")
    papers = ("--paper", tmp_path / "papers" / "deep")
    done = [
        typed("book", box, *papers),
        typed("settle", codes[0], "lost", "--note", "not on its shelf"),
        typed("incident", codes[0], "--told", "by phone", "--photo", seen),
        typed("shop", "export", tmp_path / "shop.toml"),
        typed("shop", "prices-out", tmp_path / "prices.csv"),
        typed("backup", tmp_path / "copies" / "deep"),
    ]
    done.append(typed("restore", done[-1].document["file"]))
    monkeypatch.setattr("core.services.quoting.quote", _fail)
    failed = typed("quote", box)
    assert [(each.code, each.err) for each in done if each.code] == []
    assert failed.code == 4
    assert list((tmp_path / "log").rglob("*.log"))
    assert list((tmp_path / "photos").iterdir())
    assert open_to_others(tmp_path) == []


def _fail(*_: object, **__: object) -> None:
    raise ZeroDivisionError


def test_a_new_shop_and_its_log_are_for_their_owner(tmp_path: Path) -> None:
    with Shop.open(tmp_path / "new" / "shop.sqlite"):
        assert {each.name for each in (tmp_path / "new").iterdir()} >= {"shop.sqlite", "shop.sqlite-wal"}
        assert open_to_others(tmp_path) == []


def test_what_an_older_program_left_open_is_tightened(typed: Typist, box: Path, tmp_path: Path) -> None:
    box.chmod(0o600)
    Path(typed.shop).chmod(0o644)
    (tmp_path / "papers").mkdir()
    (tmp_path / "shop-before-0009-20260101-120000.sqlite").write_bytes(b"")
    assert len(open_to_others(tmp_path)) == 3
    typed("promises")
    assert open_to_others(tmp_path) == []


def test_a_folder_somebody_else_made_stays_as_it_is(typed: Typist, tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    typed("backup", tmp_path)
    assert stat.S_IMODE(tmp_path.stat().st_mode) == 0o755
