"""A job from the counter to the shelf, and the shop itself, typed."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from tests.support.typed import READY, Typist, adds_up, walk

# --- a job from the counter to the shelf -----------------------------------------------


def test_book_allots_number_and_codes_and_writes_the_papers(typed: Typist, box: Path, tmp_path: Path) -> None:
    booked = typed("book", box, "--paper", tmp_path / "paper").document
    assert len(booked["number"]) == 6
    assert [(tape["line"], tape["n"]) for tape in booked["tapes"]] == [(1, 1), (1, 2), (2, 1), (3, 1)]
    assert all(tape["code"].startswith(booked["number"]) for tape in booked["tapes"])
    assert adds_up(booked["quote"])
    papers = [Path(paper) for paper in booked["papers"]]
    assert [paper.read_bytes()[:5] for paper in papers] == [b"%PDF-"] * 4
    assert any(paper.name.startswith("agreement-") for paper in papers)


def test_the_same_command_books_once(typed: Typist, box: Path) -> None:
    first, again = (typed("book", box, "--command", "till-1-42").document for _ in range(2))
    assert first["number"] == again["number"]
    assert len(typed("promises").document["promises"]) == 1


def test_a_deposit_is_kept_with_the_job(typed: Typist, box: Path) -> None:
    assert typed("book", box, "--deposit-minor", "1500").document["paid_minor"] == 1500


def test_status_answers_by_number_code_name_and_phone(typed: Typist, box: Path) -> None:
    booked = typed("book", box).document
    for query in (booked["number"], booked["tapes"][0]["code"], "fenw", "0142"):
        (found,) = typed("status", query).document["jobs"]
        assert found["number"] == booked["number"]
        assert found["spoken"]
        assert found["tapes"][0].items() >= {"station": "booked-in", "not_for_reuse": False}.items()
    assert typed("status", "nobody at all").document == {"jobs": []}


def test_a_tape_goes_from_station_to_station(typed: Typist, codes: list[str]) -> None:
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing")
    done = typed("move", codes[0], "being-checked", "--minutes", "118.5", "--note", "clean picture").document
    assert (done["station"], done["played_minutes"]) == ("being-checked", 118.5)
    words = [one["words"] for one in typed("history", codes[0]).document["history"]]
    assert "clean picture" in words[-1]


def test_what_is_far_beyond_the_end_of_a_tape_is_kept_only_when_somebody_is_sure(
    typed: Typist, codes: list[str]
) -> None:
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing")
    asked = ("move", codes[0], "being-checked", "--minutes", "1400")
    refused = typed(*asked)
    assert refused.code == 3
    assert "--sure" in refused.err
    assert typed("status", codes[0]).document["jobs"][0]["tapes"][0]["played_minutes"] is None
    spliced = ("splice", codes[0], "--at-minutes", "1400", "--cut-cm", "0", "--joined-with", "tape")
    assert typed(*spliced).code == 3

    kept = typed(*asked, "--sure").document
    assert kept["played_minutes"] == 1400
    assert "1,400 minutes" in kept["doubts"][0]
    assert typed(*spliced, "--sure").document["splices"][0]["at_minutes"] == 1400


def test_a_finding_is_kept_with_the_move(typed: Typist, codes: list[str]) -> None:
    moved = typed("move", codes[3], "looked-over", "--finding", "creased", "--finding", "lid-damaged")
    assert moved.document["findings"] == ["creased", "lid-damaged"]


def test_a_splice_makes_a_tape_not_for_reuse_until_it_is_struck_out(typed: Typist, codes: list[str]) -> None:
    spliced = typed(
        "splice", codes[2], "--at-minutes", "12.5", "--cut-cm", "2", "--joined-with", "tape"
    ).document
    assert spliced["not_for_reuse"] is True
    assert spliced["splices"][0]["seconds_removed"] > 0
    assert typed("mark", codes[2]).document["marked_at"] is not None
    assert typed("undo-splice", codes[2], "--because", "wrong tape").document["not_for_reuse"] is False


def test_a_finding_that_is_over_is_cleared_with_a_reason(typed: Typist, codes: list[str]) -> None:
    assert typed("clear", codes[2], "snapped", "--note", "was only loose").document["findings"] == []


def test_pickup_hands_back_with_a_signed_receipt(typed: Typist, codes: list[str], tmp_path: Path) -> None:
    walk(typed, codes[0], *READY)
    pen = tmp_path / "pen.json"
    pen.write_text('{"strokes": [[[0.1, 0.5], [0.9, 0.4]]], "aspect": 3.0}')
    options = ("--signed-by", "Ada Fenwick", "--signature", pen, "--paper", tmp_path / "paper")
    handed = typed("pickup", codes[0][:6], "--tape", codes[0], *options).document
    assert (handed["handed_back"], handed["still_here"]) == ([codes[0]], codes[1:])
    assert Path(handed["receipt"]).read_bytes()[:5] == b"%PDF-"


def test_a_pickup_without_paper_names_no_receipt(typed: Typist, codes: list[str]) -> None:
    walk(typed, codes[0], *READY)
    assert typed("pickup", codes[0][:6], "--signed-by", "Ada").document["receipt"] is None


def test_promises_name_date_chance_and_what_holds_them(typed: Typist, codes: list[str]) -> None:
    (one,) = typed("promises").document["promises"]
    assert one["number"] == codes[0][:6]
    assert one["date"] >= "2026-03-02"
    assert 0 <= one["chance"] <= 1
    assert isinstance(one["held_by"], list)


# --- the shop itself -------------------------------------------------------------------


def test_a_backup_can_be_put_back(typed: Typist, box: Path, codes: list[str], tmp_path: Path) -> None:
    copy = typed("backup", tmp_path / "copies").document["file"]
    typed("book", box)
    assert len(typed("promises").document["promises"]) == 2
    assert typed("restore", copy).code == 0
    assert len(typed("promises").document["promises"]) == 1
    assert typed("verify").document["sound"] is True


def test_verify_finds_history_that_was_changed(typed: Typist, codes: list[str]) -> None:

    connection = sqlite3.connect(typed.shop)
    for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        connection.execute(f'DROP TRIGGER "{name}"')
    connection.execute("UPDATE events SET words = 'never happened' WHERE seq = 2")
    connection.commit()
    connection.close()
    found = typed("verify")
    assert found.code == 4
    assert found.document["sound"] is False
    assert found.document["problems"][0] in found.err
