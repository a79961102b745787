"""``--command ID``: the same again is answered again, anything else under the same id is refused."""

from __future__ import annotations

from pathlib import Path

from tests.support.inventories import GOOD, written
from tests.support.typed import READY, Typist, walk

USED = "was used for something else"


def other_box(folder: Path) -> Path:
    file = folder / "bob.json"
    file.write_bytes(
        written(GOOD | {"customer": {"name": "Bob Marsh", "phone": "303 555 0188", "email": None}})
    )
    return file


def test_a_second_customer_is_not_swallowed(typed: Typist, box: Path, tmp_path: Path) -> None:
    first = typed("book", box, "--command", "K1")
    swallowed = typed("book", other_box(tmp_path), "--command", "K1")
    assert (swallowed.code, swallowed.out) == (3, "")
    assert USED in swallowed.err
    again = typed("book", box, "--command", "K1", now="2026-03-02T10:20:00-05:00")
    assert (again.code, again.document) == (0, first.document)
    assert "saved before" in again.err
    assert typed("book", other_box(tmp_path), "--command", "K2").document["number"] == "000026"


def test_another_pickup_is_not_swallowed(typed: Typist, codes: list[str]) -> None:
    for code in codes[:2]:
        walk(typed, code, *READY)
    number = codes[0][:6]
    sent = ("--signed-by", "Ada Fenwick", "--command", "P1")
    first = typed("pickup", number, "--tape", codes[0], *sent)
    other = typed("pickup", number, "--tape", codes[1], *sent)
    assert (first.code, other.code, other.out) == (0, 3, "")
    assert USED in other.err
    again = typed("pickup", number, "--tape", codes[0], *sent)
    assert (again.code, again.document) == (0, first.document)
    assert typed("status", number).document["jobs"][0]["tapes"][1]["station"] == "ready"


def test_money_back_is_given_once(typed: Typist, box: Path) -> None:
    number = typed("book", box, "--deposit-minor", "1500").document["number"]
    given = ("refund", number, "--minor", "500", "--because", "one tape less", "--command", "R1")
    assert [typed(*given).document["paid_minor"] for _ in range(2)] == [1000, 1000]
    assert typed(*given[:3], "400", *given[4:]).code == 3
    assert typed("refund", number, "--minor", "200", "--because", "again").document["paid_minor"] == 800


def test_an_answer_worked_out_from_the_records_is_given_again(typed: Typist, codes: list[str]) -> None:
    """What was worked out before the step is another thing afterwards; the id is bound to what was typed."""
    for at in ("10", "20"):
        made = ("splice", codes[0], "--at-minutes", at, "--cut-cm", "2", "--joined-with", "tape")
        assert typed(*made).code == 0
    struck = ("undo-splice", codes[0], "--because", "typed twice", "--nth", "2", "--command", "U1")
    first = typed(*struck)
    assert typed(*struck).document == first.document
    closed = ("close", "2026-07-06", "2026-07-08", "--because", "holiday")
    assert typed(*closed).code == 0
    opened = ("reopen", "2026-07-01", "2026-07-31", "--command", "O1")
    assert [typed(*opened).code for _ in range(2)] == [0, 0]
    stated = ("expect", "--hours-to-repair", "30", "--command", "E1")
    assert [typed(*stated).document["stated"]["hours_to_repair"] for _ in range(2)] == [30.0, 30.0]
    changed = ("shop", "set", "front.phone", "303 555 0100", "--command", "S1")
    told = typed(*changed)
    assert told.document["changed"]
    assert typed(*changed).document == told.document
    called = ("called", codes[0][:6], "--command", "C1")
    noted = typed(*called)
    assert typed(*called, now="2026-03-02T15:00:00-05:00").document == noted.document
