"""People on the command line: who acts, with a PIN from the environment; changes told without being made."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from core.cli.entry import run
from core.services.records_door import Shop
from core.store import current_settings
from tests.support.booked import Desk, line

OWNER = '{may = ["settings", "refund"]}'


@pytest.fixture
def shop(file_desk: Desk, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop of Ada, who may change settings and has a PIN, and Kit, who may not."""
    monkeypatch.delenv("TAPEWRIGHT_PIN", raising=False)
    where = Path(file_desk.where)
    assert said(where, "set", "person.Ada", OWNER, "person.Kit", "{}") == 0
    monkeypatch.setenv("TAPEWRIGHT_NEW_PIN", "271828")
    assert said(where, "pin", "Ada", who="Ada") == 0
    return where


def said(where: Path, *words: str, who: str = "counter") -> int:
    return run(["--shop", str(where), "--who", who, "--now", "2026-03-03T14:00:00+00:00", "shop", *words])


def test_without_the_permission_nothing_is_changed(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for who in ("Kit", "counter"):
        assert said(shop, "set", "work.people", "4", who=who) == 3
        assert f"{who} is not proven, so nothing was written." in capsys.readouterr().err
    with Shop.open(shop) as opened:
        assert opened.ask(current_settings.read).people == 2


def test_a_person_with_a_pin_acts_with_it_only(
    shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said(shop, "set", "work.people", "4", who="Ada") == 3
    assert "Ada has a PIN. Type it with --pin, or put it into TAPEWRIGHT_PIN." in capsys.readouterr().err
    monkeypatch.setenv("TAPEWRIGHT_PIN", "0000")
    assert said(shop, "set", "work.people", "4", who="Ada") == 3
    assert "That is not the PIN of Ada." in capsys.readouterr().err
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert said(shop, "set", "work.people", "4", who="Ada") == 0
    assert capsys.readouterr().out == "People at the bench at one time: 2 → 4\n"


def test_the_pin_is_asked_for_where_it_is_wanted(
    shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    asked: list[str] = []

    def answer(prompt: str) -> str:
        asked.append(prompt)
        return "271828"

    monkeypatch.setattr("getpass.getpass", answer)
    assert said(shop, "set", "work.lock_minutes", "5", "--pin", who="Ada") == 0
    assert asked == ["PIN of Ada: "]


@pytest.mark.usefixtures("shipped_costs")
def test_the_hash_of_a_pin_is_shown_nowhere_but_in_the_export(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    for words in (("show",), ("show", "person"), ("show", "person.Ada"), ("history",)):
        assert said(shop, *words) == 0
        assert said(shop, *words, "--json") == 0
    assert "argon2" not in capsys.readouterr().out
    assert said(shop, "export") == 0
    assert "$argon2id$v=19$m=65536,t=3,p=4$" in capsys.readouterr().out


def test_a_dry_run_tells_what_would_move_and_stores_nothing(
    file_desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    job = file_desk.book(line(count=8), line(format="video8", marking="P6-120"))
    where = Path(file_desk.where)
    words = ("set", "deck.VHS 1.retired", "true", "deck.8 mm.retired", "true", "--dry-run")
    assert said(where, *words) == 0
    told = capsys.readouterr().out
    assert told.startswith("Deck VHS 1, in service: yes → no\n")
    assert "1 open promise would move" in told
    assert f"Order {job.number} (Ada Fenwick): no deck would be left for 1 of its tapes." in told
    assert told.endswith("Nothing was changed: this was a dry run.\n")
    assert said(where, *words, "--json") == 0
    answer = json.loads(capsys.readouterr().out)
    assert [each["number"] for each in answer["moved"]] == [job.number]
    assert answer["stored"] is False
    with Shop.open(where) as opened:
        assert all(deck.in_service for deck in opened.ask(current_settings.read).decks)


def test_a_dry_run_refuses_what_the_change_itself_would_be_refused_for(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said(shop, "set", "work.people", "0", "--dry-run") == 2
    assert said(shop, "remove", "deck.VHS 1", "--dry-run", who="Kit") == 3
    assert "Kit may not" in capsys.readouterr().err


def test_a_backup_is_put_back_by_those_who_may_and_with_their_pin(
    file_desk: Desk,
    shop: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    copy = file_desk.shop.backup(tmp_path / "kept")
    file_desk.shop.close()
    before = shop.read_bytes()

    def restored(who: str) -> int:
        return run(["--shop", str(shop), "--who", who, "restore", str(copy)])

    assert restored("Kit") == 3
    assert "Kit may not restore a backup. Ada can; sign in as Ada." in capsys.readouterr().err
    assert restored("Ada") == 3
    assert "Ada has a PIN. Type it with --pin" in capsys.readouterr().err
    assert shop.read_bytes() == before
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert restored("Ada") == 0


def test_reports_are_told_to_those_who_may_see_them(
    shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["--shop", str(shop), "--who", "Kit", "kept"]) == 3
    assert "Kit may not see reports, and nobody else may either." in capsys.readouterr().err
    monkeypatch.setenv("TAPEWRIGHT_PIN", "271828")
    assert said(shop, "set", "person.Kit.may", '["reports"]', who="Ada") == 0
    assert run(["--shop", str(shop), "--who", "Kit", "kept"]) == 3
    assert "Kit may see reports only once Kit can be proven: set a PIN for Kit" in capsys.readouterr().err
    assert said(shop, "pin", "Kit", who="Ada") == 0
    assert run(["--shop", str(shop), "--who", "Kit", "kept"]) == 0
