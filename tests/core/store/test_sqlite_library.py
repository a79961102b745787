"""Which SQLite keeps the records, and what is said where none on the computer is sound."""

from __future__ import annotations

import platform
import sqlite3
import sys
from pathlib import Path

import pytest
from packaging.markers import Marker

from core.model.errors import Unavailable
from core.services import drafts
from core.services.records_door import Shop
from core.store import sqlite_library
from core.wording.messages import say
from tests.support.booked import inventory
from tests.support.typed import NOW, ROOT, run_python


@pytest.mark.parametrize(
    ("version", "affected"),
    [
        ((3, 6, 23), False),
        ((3, 40, 1), True),
        ((3, 44, 5), True),
        ((3, 44, 6), False),
        ((3, 45, 0), True),
        ((3, 50, 6), True),
        ((3, 50, 7), False),
        ((3, 51, 0), True),
        ((3, 51, 2), True),
        ((3, 51, 3), False),
        ((3, 53, 4), False),
    ],
)
def test_an_sqlite_that_can_lose_records_is_known(version: tuple[int, ...], affected: bool) -> None:
    assert sqlite_library.has_reset_race(version) is affected


@pytest.fixture
def without_package(monkeypatch: pytest.MonkeyPatch) -> None:
    """A computer that pysqlite3 is not published for."""
    monkeypatch.setitem(sys.modules, "pysqlite3", None)
    monkeypatch.setitem(sys.modules, "pysqlite3.dbapi2", None)
    monkeypatch.setattr(platform, "machine", lambda: "riscv64")


def _system_has(monkeypatch: pytest.MonkeyPatch, version: tuple[int, int, int]) -> None:
    monkeypatch.setattr(sqlite3, "sqlite_version_info", version)
    monkeypatch.setattr(sqlite3, "sqlite_version", ".".join(map(str, version)))


@pytest.mark.usefixtures("without_package")
def test_a_sound_sqlite_of_python_keeps_the_records(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    _system_has(monkeypatch, (3, 51, 3))
    assert sqlite_library.sqlite_module() is sqlite3
    with Shop.open(tmp_path / "shop.sqlite") as shop:
        shop.run(drafts.keep, "counter", inventory())
        assert shop.ask(drafts.kept, "counter") == inventory()


@pytest.mark.usefixtures("without_package")
def test_an_sqlite_that_loses_records_is_refused_with_what_to_install(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    _system_has(monkeypatch, (3, 51, 2))
    with pytest.raises(Unavailable) as said:
        Shop.open(tmp_path / "shop.sqlite")
    way_out = say(
        "records",
        "install_python_with_sqlite",
        sound=sqlite_library.SOUND,
        system=f"{sys.platform} riscv64",
    )
    assert said.value.sentence == say("records", "sqlite_may_lose_records", version="3.51.2", way_out=way_out)
    assert list(tmp_path.iterdir()) == []


def test_a_package_whose_library_does_not_load_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pysqlite3.dbapi2", None)
    _system_has(monkeypatch, (3, 53, 0))
    assert sqlite_library.sqlite_module() is sqlite3


def test_a_package_that_loses_records_gives_way_to_a_sound_sqlite(monkeypatch: pytest.MonkeyPatch) -> None:
    package = pytest.importorskip("pysqlite3.dbapi2")
    monkeypatch.setattr(package, "sqlite_version_info", (3, 51, 1))
    _system_has(monkeypatch, (3, 53, 0))
    assert sqlite_library.sqlite_module() is sqlite3


def test_a_python_without_any_sqlite_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("pysqlite3.dbapi2", "sqlite3"):
        monkeypatch.setitem(sys.modules, name, None)
    with pytest.raises(Unavailable, match="without SQLite"):
        sqlite_library.sqlite_module()


def test_pip_is_named_where_the_package_is_published(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(platform, "machine", lambda: "x86_64")
    monkeypatch.setattr(sys, "platform", "linux")
    assert sqlite_library._way_out() == say("records", "install_pysqlite3", python=sys.executable)


def test_the_requirement_asks_for_the_package_just_where_it_is_published() -> None:
    lines = (ROOT / "pyproject.toml").read_text(encoding="utf-8").splitlines()
    (line,) = (line for line in lines if line.strip().startswith('"pysqlite3'))
    marker = Marker(line.strip(' ",').split(";", 1)[1])
    systems = [("linux", "x86_64"), ("linux", "aarch64"), ("darwin", "arm64"), ("darwin", "x86_64")]
    systems += [("win32", "AMD64"), ("win32", "ARM64")]
    asked = {
        (system, machine.lower())
        for system, machine in systems
        if marker.evaluate({"sys_platform": system, "platform_machine": machine})
    }
    assert asked == set(sqlite_library._WITH_A_WHEEL)


def test_the_command_line_books_or_says_what_to_install(box: Path, tmp_path: Path) -> None:
    script = (
        "import sys; sys.modules['pysqlite3'] = None;"
        "from core.cli.entry import main; sys.argv[0] = 'tapewright'; sys.exit(main())"
    )
    shop = tmp_path / "shop.sqlite"
    done = run_python("-c", script, "book", str(box), "--shop", str(shop), "--now", NOW, home=tmp_path)
    if sqlite_library.has_reset_race(sqlite3.sqlite_version_info):
        assert (done.returncode, done.stderr.count("\n"), shop.exists()) == (4, 1, False)
        assert sqlite3.sqlite_version in done.stderr
    else:
        assert (done.returncode, done.stderr, shop.exists()) == (0, "", True)
