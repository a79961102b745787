"""Dates said again, the record of them, decks out and days shut: typed."""

from __future__ import annotations

from pathlib import Path

from tests.support.typed import Typist, walk

LATER = "2026-03-30T10:00:00-04:00"


def test_a_day_is_said_again(typed: Typist, box: Path) -> None:
    number = typed("book", box).document["number"]
    said = ("--reason", "the deck was out", "--agreed-with", "Ada, by phone")
    again = typed("promise-again", number, *said, now=LATER).document
    assert [each["reason"] for each in again["said"]] == ["", "the deck was out"]
    assert again["said"][1]["agreed_with"] == "Ada, by phone"
    assert again["promise"] == {key: again["said"][1][key] for key in again["promise"]}
    assert again["promise"]["date"] > again["said"][0]["date"]
    assert again["promise"]["footing"]["decks"]
    assert typed("verify").code == 0


def test_a_day_said_again_needs_a_reason_and_a_day_to_come(typed: Typist, box: Path) -> None:
    number = typed("book", box).document["number"]
    assert typed("promise-again", number).code == 2
    refused = typed("promise-again", number, "--reason", "so", "--day", "2026-02-02")
    assert refused.code == 2
    assert "a day from today on" in refused.err
    assert typed("promise-again", number, "--reason", "so", "--day", "soon").code == 2


def test_nothing_is_left_to_promise_once_all_is_ready(typed: Typist, codes: list[str]) -> None:
    for code in codes[:2]:
        walk(typed, code, "looked-over", "cleared-to-play", "playing", "being-checked", "ready")
    for code in codes[2:]:
        walk(typed, code, "cannot-be-played")
    refused = typed("promise-again", codes[0][:6], "--reason", "so")
    assert (refused.code, "nothing left to promise" in refused.err) == (3, True)


def test_the_record_tells_kept_and_late(typed: Typist, box: Path) -> None:
    number = typed("book", box).document["number"]
    assert typed("kept", as_json=False).out == "No promised day has passed yet.\n"
    found = typed("kept", now=LATER).document
    assert (found["whole"]["promises"], found["whole"]["kept"]) == (1, 0)
    assert found["late"][0]["number"] == number
    assert found["late"][0]["ready"] is None
    said = typed("kept", now=LATER, as_json=False).out
    assert said.startswith("Of 1 promise at ")
    assert f"{number} Ada Fenwick" in said


def test_a_deck_goes_out_and_comes_back(typed: Typist, box: Path) -> None:
    typed("book", box)
    out = typed("deck", "VHS 1", "out", "--because", "a belt").document["decks"]
    assert [deck["in_service"] for deck in out if deck["name"] == "VHS 1"] == [False]
    assert typed("deck", "VHS 1", "out").code == 3
    assert typed("deck", "VHS 9", "out").code == 2
    back = typed("deck", "VHS 1", "back", as_json=False).out
    assert back.startswith("Out of service: –.")


def test_a_day_shut_is_kept(typed: Typist, box: Path) -> None:
    typed("book", box)
    assert typed("shut", "2026-03-02", "--because", "a burst pipe").document["closed"] == ["2026-03-02"]
    assert typed("shut", "2026-03-02", "--because", "again").code == 2
    assert typed("kept").document["counted"]["shut_days"] == 1
