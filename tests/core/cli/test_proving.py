"""Who acts on the command line is proven: by a PIN, a token, or the user of this computer; a name is not."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from core.cli import entry
from core.model.own_shop.access_records import SystemUser
from core.model.own_shop.settings_records import Permission, Person
from core.services.own_shop import people, settings_versions
from core.services.proving import access_tokens, system_users
from core.services.records_door import Shop
from core.store import current_settings, history
from core.store.unit import Unit
from tests.support.booked import MORNING
from tests.support.inventories import GOOD, written

ME = SystemUser("tester", "4711", "till-1")
OTHER = "other/4712@till-1"
EVERY = frozenset(each.value for each in Permission)

Type = Callable[..., tuple[int, str, str]]


@pytest.fixture(autouse=True)
def surroundings(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("TAPEWRIGHT_PIN", "TAPEWRIGHT_TOKEN", "TAPEWRIGHT_NEW_PIN"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(system_users, "current", lambda: ME)


@pytest.fixture(scope="module")
def guarded(empty_file: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """A shop of Ada, who owns it and has a PIN, Kit with a token, Bo with nothing; and Kit's token."""
    where = tmp_path_factory.mktemp("guarded") / "shop.sqlite"
    shutil.copy(empty_file, where)
    with Shop.open(where, clock=lambda: MORNING, who="Ada") as shop:
        staff = (Person("Ada", may=EVERY), Person("Kit", may=frozenset({"refund"})), Person("Bo", may=EVERY))
        settings = replace(shop.ask(current_settings.read), staff=staff)
        shop.run(settings_versions.change, settings, needs=None)
        shop.run(people.set_pin, "Ada", "271828")
        made = access_tokens.new("nightly backup", MORNING.date())
        shop.run(access_tokens.issue, "Kit", made.kept)
    return where, made.token


@pytest.fixture
def where(guarded: tuple[Path, str], tmp_path: Path) -> Path:
    return Path(shutil.copy(guarded[0], tmp_path / "shop.sqlite"))


@pytest.fixture
def token(guarded: tuple[Path, str]) -> str:
    return guarded[1]


@pytest.fixture
def box(tmp_path: Path) -> str:
    file = tmp_path / "box.json"
    file.write_bytes(written(GOOD))
    return str(file)


@pytest.fixture
def typed(where: Path, capsys: pytest.CaptureFixture[str]) -> Type:
    def run(*words: str) -> tuple[int, str, str]:
        capsys.readouterr()
        code = entry.run([*words, "--shop", str(where), "--now", MORNING.isoformat()])
        printed = capsys.readouterr()
        return code, printed.out, printed.err

    return run


def last_by(where: Path) -> str:
    def newest(unit: Unit) -> str:
        return list(history.lines(unit))[-1].by

    with Shop.open(where, clock=lambda: MORNING) as shop:
        return shop.ask(newest)


def test_who_asks_is_proven_although_the_history_is_damaged(typed: Type, where: Path) -> None:
    """The settings are read before the clock is held against the history. Seen red with both in one try."""
    assert typed("promises", "--who", "Ada")[0] == 3
    with closing(sqlite3.connect(where)) as connection, connection:
        for (trigger,) in connection.execute(
            "SELECT name FROM sqlite_master WHERE type='trigger'"
        ).fetchall():
            connection.execute(f"DROP TRIGGER {trigger}")
        connection.execute("UPDATE events SET at = 'no moment'")
    code, _, said = typed("promises", "--who", "Ada")
    assert (code, "PIN" in said) == (3, True)


@pytest.mark.parametrize("who", ["counter", "Bo", "Mallory"])
def test_a_name_alone_reads_and_writes_nothing(typed: Type, where: Path, box: str, who: str) -> None:
    """Bo may do everything, but nothing tells that it is Bo."""
    assert typed("--who", who, "promises")[0] == 0
    before = where.read_bytes()
    for words in (
        ("book", box),
        ("shop", "set", "work.people", "5"),
        ("shop", "undo"),
        ("close", "2026-04-07", "--because", "holiday"),
        ("donors", "--add", "vhs", "shell", "4"),
    ):
        code, out, err = typed("--who", who, *words)
        assert (code, out) == (3, ""), words
        assert f"{who} is not proven, so nothing was written." in err
        assert "--pin, or TAPEWRIGHT_PIN" in err
        assert "TAPEWRIGHT_TOKEN, or --token-file" in err
        assert ME.text in err
    assert where.read_bytes() == before


def test_the_name_of_somebody_who_can_be_proven_is_not_taken_at_all(typed: Type) -> None:
    code, _, err = typed("--who", "Kit", "promises")
    assert code == 3
    assert "Kit must be proven. Give a token (TAPEWRIGHT_TOKEN, or --token-file)" in err
    code, _, err = typed("--who", "Ada", "promises")
    assert code == 3
    assert "Ada has a PIN. Type it with --pin, or put it into TAPEWRIGHT_PIN." in err


def test_a_pin_proves(typed: Type, where: Path, box: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert typed("--who", "Ada", "book", box)[0] == 0
    assert last_by(where) == "Ada"


def test_a_token_from_the_environment_proves_whose_it_is(
    typed: Type, where: Path, box: str, token: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TAPEWRIGHT_TOKEN", token)
    assert typed("book", box)[0] == 0
    assert last_by(where) == "Kit"
    assert typed("--who", "Kit", "promises")[0] == 0
    code, _, err = typed("--who", "Ada", "promises")
    assert (code, "belongs to Kit, not to Ada" in err) == (3, True)
    code, _, err = typed("shop", "set", "work.people", "5")
    assert (code, "Kit may not change the settings. Ada can" in err) == (3, True)
    monkeypatch.setenv("TAPEWRIGHT_TOKEN", f"{token}x")
    code, _, err = typed("promises")
    assert (code, "This token is not valid" in err, token in err) == (3, True, False)


def test_a_token_in_a_file_proves_where_only_its_owner_can_read_it(
    typed: Type, token: str, tmp_path: Path
) -> None:
    file = tmp_path / "token"
    file.write_text(f"{token}\n")
    file.chmod(0o640)
    code, _, err = typed("--token-file", str(file), "promises")
    assert code == 3
    assert "can be read by other users of this computer" in err
    assert token not in err
    file.chmod(0o600)
    code, out, _ = typed("shop", "who", "--token-file", str(file), "--json")
    assert (code, json.loads(out)["who"], json.loads(out)["proof"]) == (0, "Kit", "token")
    for wrong in (tmp_path, tmp_path / "nowhere"):
        assert typed("--token-file", str(wrong), "promises")[0] == 2


def test_no_argument_takes_a_token_or_a_pin_itself() -> None:
    """Arguments are seen in the list of processes: --pin asks, --token-file names a file."""
    for action in entry.parser()._actions:
        if action.dest == "pin":
            assert action.nargs == 0
        assert action.dest != "token"


def test_the_user_of_this_computer_proves(
    typed: Type, where: Path, box: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert typed("--who", "Ada", "shop", "system-user", "Bo")[0] == 0
    assert typed("--who", "Ada", "shop", "system-user", "Kit", OTHER)[0] == 0
    monkeypatch.delenv("TAPEWRIGHT_PIN")
    assert typed("book", box)[0] == 0
    assert last_by(where) == "Bo"
    assert typed("--who", "Bo", "shop", "set", "work.people", "5")[0] == 0
    assert typed("--who", "Kit", "promises")[0] == 3
    monkeypatch.setattr(system_users, "current", lambda: replace(ME, number="1"))
    assert typed("--who", "Bo", "promises")[0] == 3
    monkeypatch.setattr(system_users, "current", lambda: ME)
    assert typed("shop", "system-user", "Bo", "--take-away")[0] == 0
    assert typed("book", box)[0] == 3


def test_a_token_is_issued_shown_once_and_revoked(
    typed: Type, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    code, out, _ = typed("--who", "Ada", "shop", "token", "Bo", "camera", "--until", "2026-03-10", "--json")
    issued = json.loads(out)
    assert (code, issued["until"]) == (0, "2026-03-10")
    file = tmp_path / "kept"
    assert typed("--who", "Ada", "shop", "token", "Bo", "printer", "--out", str(file))[0] == 0
    assert file.stat().st_mode & 0o777 == 0o600
    for words in (("shop", "show"), ("shop", "show", "--json"), ("shop", "history")):
        shown = typed("--who", "Ada", *words)[1]
        assert issued["token"] not in shown
        assert "sha256" not in shown
    monkeypatch.delenv("TAPEWRIGHT_PIN")
    monkeypatch.setenv("TAPEWRIGHT_TOKEN", issued["token"])
    assert typed("shop", "revoke", "Bo", "camera")[0] == 0
    assert typed("promises")[0] == 3
    monkeypatch.delenv("TAPEWRIGHT_TOKEN")
    assert typed("--token-file", str(file), "shop", "who")[1].startswith("Bo, proven by a token.")


def test_a_shop_may_show_nothing_either_without_proof(typed: Type, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert typed("--who", "Ada", "shop", "set", "work.proof_to_read", "true")[0] == 0
    assert typed("--who", "Ada", "promises")[0] == 0
    monkeypatch.delenv("TAPEWRIGHT_PIN")
    code, out, err = typed("promises")
    assert (code, out) == (3, "")
    assert "counter is not proven, and this shop shows nothing without." in err


def test_a_backup_is_made_by_whoever_stands_there(
    typed: Type, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The program makes them by itself; a backup that silently stops would be worse."""
    folder = tmp_path / "copies"
    folder.mkdir()
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert typed("--who", "Ada", "shop", "set", "backup.first", str(folder))[0] == 0
    monkeypatch.delenv("TAPEWRIGHT_PIN")
    assert typed("backup")[0] == 0


def test_a_backup_of_a_shop_is_restored_by_its_people_also_where_nothing_stands(
    where: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    with Shop.open(where, clock=lambda: MORNING) as shop:
        copy = shop.backup(tmp_path / "copies")

    def restored(who: str) -> int:
        return entry.run(["restore", str(copy), "--shop", str(tmp_path / "new.sqlite"), "--who", who])

    for who, told in (
        ("counter", "counter may not restore a backup. Ada can"),
        ("Bo", "only once Bo can be proven"),
        ("Ada", "Ada has a PIN"),
    ):
        assert restored(who) == 3, who
        assert told in capsys.readouterr().err
        assert not (tmp_path / "new.sqlite").exists()
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert restored("Ada") == 0


def test_a_shop_is_moved_by_those_who_may_restore(
    where: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    there = tmp_path / "moved.sqlite"
    assert entry.run(["move-shop", str(where), str(there)]) == 3
    assert "counter may not restore a backup. Ada can" in capsys.readouterr().err
    assert not there.exists()
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert entry.run(["move-shop", str(where), str(there), "--who", "Ada"]) == 0


def test_no_key_is_printed_for_whoever_may_not_set_it(typed: Type, tmp_path: Path) -> None:
    papers = tmp_path / "papers"
    assert typed("backup-key", "--paper", str(papers))[0] == 3
    assert not papers.exists()
