"""Days off, outages, expectations, the order of boxes, names and refunds: typed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.support.inventories import changed, written
from tests.support.typed import Typist


@pytest.fixture
def number(typed: Typist, box: Path) -> str:
    number: str = typed("book", box, "--deposit-minor", "2000").document["number"]
    return number


def test_days_are_closed_and_opened_again(typed: Typist, number: str) -> None:
    closed = typed("close", "2026-04-06", "2026-04-12", "--because", "spring").document["closed"]
    assert closed == [{"first": "2026-04-06", "last": "2026-04-11", "because": "spring", "planned": True}]
    assert typed("close", "2026-04-06", "2026-04-12", "--because", "again").code == 3
    assert typed("close", "2026-04-06", "2026-04-01", "--because", "so").code == 2
    left = typed("reopen", "2026-04-06", "2026-04-07").document["closed"]
    assert [each["first"] for each in left] == ["2026-04-08"]
    refused = typed("reopen", "2026-04-06")
    assert (refused.code, "the shop is not closed then" in refused.err) == (3, True)
    typed("shut", "2026-03-02", "--because", "flu")
    assert typed("reopen", "2026-03-02", as_json=False).out.startswith("Closed 2026-04-08")
    assert typed("kept").document["counted"]["shut_days"] == 0
    assert typed("verify").code == 0


def test_an_outage_is_planned_and_taken_back(typed: Typist, number: str) -> None:
    out = typed("outage", "VHS 1", "2026-04-06", "2026-04-08", "--because", "belts").document["outages"]
    assert out == [{"deck": "VHS 1", "first": "2026-04-06", "last": "2026-04-08"}]
    assert typed("outage", "VHS 1", "2026-04-07").code == 3
    assert typed("outage", "VHS 9", "2026-04-07").code == 2
    back = typed("outage", "VHS 1", "2026-04-06", "2026-04-08", "--take-back")
    assert back.document["outages"] == []


def test_what_is_expected_is_told_and_set(typed: Typist, number: str) -> None:
    assert typed("expect").document["stated"]["hours_between_failures"] == 400
    found = typed("expect", "--rush-boxes-a-week", "2.5").document
    assert found["stated"]["rush_boxes_a_week"] == found["reckoned"]["rush_boxes_a_week"] == 2.5
    refused = typed("expect", "--hours-to-repair", "0")
    assert (refused.code, "hours until a deck is back" in refused.err) == (2, True)
    assert typed("expect", "--unplanned-closures", "0.9").code == 2
    assert "2.5 entered, 2.5 expected" in typed("expect", as_json=False).out


def test_an_order_is_found_kept_and_taken_back(typed: Typist, tmp_path: Path) -> None:
    numbers = []
    for count in (14, 1):
        file = tmp_path / f"{count}.json"
        tapes = [{"count": count, "format": "minidv", "marking": "DVM60"}]
        file.write_bytes(written(changed("tapes", tapes)))
        numbers.append(typed("book", file).document["number"])
    typed("promise-again", numbers[0], "--reason", "they are abroad", "--day", "2026-03-31")
    found = typed("queue").document
    assert (found["kept"], found["order"]) == (False, numbers[::-1])
    assert typed("queue", "--take-back").code == 3
    kept = typed("queue", "--keep").document
    assert kept["kept"]
    assert all(each["will"] >= each["was"] - 0.01 for each in kept["changes"])
    assert typed("queue").document == {"kept": False, "order": None, "changes": []}
    assert typed("queue", "--take-back").document["order"] == []
    assert typed("queue", "--keep", "--take-back").code == 2


def test_a_name_is_put_right_and_the_rest_stays(typed: Typist, number: str) -> None:
    before = typed("status", number).document["jobs"][0]["customer"]
    who = typed("correct", number, "--name", "Ada Fenwicke").document["customer"]
    assert who == {**{key: before[key] for key in who}, "name": "Ada Fenwicke"}
    assert typed("correct", "000000", "--name", "So").code == 2


def test_money_is_given_back_with_a_reason_only(typed: Typist, number: str) -> None:
    assert typed("refund", number, "--minor", "500").code == 2
    assert typed("refund", number, "--minor", "500", "--because", "paid twice").document["paid_minor"] == 1500
    assert typed("refund", number, "--minor", "1501", "--because", "so").code == 3
    assert typed("refund", number, "--minor", "0", "--because", "so").code == 2


def test_a_cold_box_is_quoted_booked_and_rests(typed: Typist, tmp_path: Path) -> None:
    file = tmp_path / "cold.json"
    file.write_bytes(written(changed("cold", True)))
    assert any("came in cold" in each for each in typed("quote", file).document["warnings"])
    code = typed("book", file).document["tapes"][0]["code"]
    for station in ("looked-over", "cleared-to-play"):
        typed("move", code, station)
    refused = typed("move", code, "playing")
    assert (refused.code, "rests until Tuesday, March 3, 10:00" in refused.err) == (3, True)
    played = typed("move", code, "playing", "--note", "warm already").document
    assert (played["station"], played["rests_until"]) == ("playing", None)
    file.write_bytes(json.dumps({"tapes": [{"count": 1, "format": "vhs"}], "cold": "a bit"}).encode())
    wrong = typed("quote", file)
    assert (wrong.code, "cold.json: cold" in wrong.err) == (2, True)
