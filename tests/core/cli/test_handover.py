"""Orders that are ready, typed: told, reminded, wished for, called about, collected by somebody else."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import text

from core.services.records_door import Shop
from tests.support.pdf import words
from tests.support.typed import NOW, READY, Typist, walk

NUMBER = "000018"


@pytest.fixture
def ready(typed: Typist, codes: list[str]) -> list[str]:
    """The codes of the good box, all ready and labeled."""
    assert typed("splice", codes[2], "--at-minutes", "3", "--cut-cm", "1", "--joined-with", "tape").code == 0
    assert typed("mark", codes[2]).code == 0
    for code in codes:
        walk(typed, code, *READY)
    for copy in typed("copies", NUMBER).document["copies"]:
        for step in ("copy-made", "copy-checked"):
            assert typed(step, NUMBER, str(copy["copy"])).code == 0
    return codes


def test_from_ready_to_told_reminded_and_collected_with_a_note(
    typed: Typist, ready: list[str], tmp_path: Path
) -> None:
    (due,) = typed("to-tell").document["to_tell"]
    assert (due["number"], due["round"], due["how"], due["told_on"]) == (NUMBER, 0, "phone", None)
    tried = typed("told", NUMBER, "--how", "phone", "--result", "no-answer", "--command", "a")
    assert tried.code == 0
    assert tried.document["round"] == 0
    assert "can be picked up" in tried.document["text"]["body"]
    assert typed("told", NUMBER, "--how", "phone", "--result", "no-answer", "--command", "a").code == 0
    assert typed("told", NUMBER, "--how", "phone", "--result", "reached", "--command", "a").code == 3
    assert typed("told", NUMBER, "--how", "email", "--result", "reached").code == 2
    assert typed("told", NUMBER, "--how", "phone", "--result", "left-word").document["round"] is None
    assert typed("to-tell").document["to_tell"] == []
    assert len(typed("to-tell", "--all").document["to_tell"]) == 1
    later = NOW.replace("03-02", "03-10")
    (due,) = typed("to-tell", now=later).document["to_tell"]
    assert (due["round"], due["days_waiting"], due["unclaimed"]) == (1, 8, False)
    (due,) = typed("to-tell", now=NOW.replace("03-02", "06-30")).document["to_tell"]
    assert (due["round"], due["unclaimed"]) == (3, True)
    shown = ("--signed-by", "Bea Fenwick", "--shown", "a note", "--paper", tmp_path)
    picked = typed("pickup", NUMBER, *shown, now=later)
    assert picked.document["shown"] == "a note"
    assert "Bea Fenwick collected for" in words(Path(picked.document["receipt"]).read_bytes())
    assert typed("told", NUMBER, "--how", "phone", "--result", "reached", now=later).code == 3
    assert typed("verify").code == 0


def test_wishes_and_calls_are_kept(typed: Typist, codes: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TAPEWRIGHT_PASS_PHRASE", "blue heron")
    wished = typed("wish", NUMBER, "--told-by", "email", "--collector", "Bea Fenwick", "--pass-phrase")
    assert wished.document == {
        "number": NUMBER,
        "told_by": "email",
        "collector": "Bea Fenwick",
        "collector_said_by": wished.document["collector_said_by"],
        "has_pass_phrase": True,
    }
    assert "heron" not in wished.out
    assert typed("wish", NUMBER, "--collector", "").document["collector"] is None
    called = typed("called", NUMBER, "--caller", "Bea")
    assert called.document["said"].startswith(typed("status", NUMBER).document["jobs"][0]["spoken"][:20])
    assert typed("status", NUMBER).document["jobs"][0]["last_call"] == called.document["at"]
    assert typed("told", NUMBER, "--how", "phone", "--result", "reached").code == 3
    assert typed("wish", "000026", "--told-by", "email").code == 2


def test_a_row_that_was_changed_by_hand_is_found(typed: Typist, ready: list[str]) -> None:
    typed("told", NUMBER, "--how", "phone", "--result", "no-answer")
    typed("wish", NUMBER, "--collector", "Bea")
    with Shop.open(typed.shop) as shop, shop.database.writing.begin() as connection:
        for table, change in (("told", "result = 'reached'"), ("handover_wishes", "value = 'Cy'")):
            connection.execute(text(f"DROP TRIGGER {table}_no_update"))
            connection.execute(text(f"UPDATE {table} SET {change}"))
    found = typed("verify")
    assert found.code != 0
    assert "told" in found.out + found.err
    assert "wished" in found.out + found.err
