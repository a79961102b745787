"""Captured files on the command line."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from core.cli import entry
from core.model.stations import Station
from tests.support.booked import Desk, line
from tests.support.clips import Scene, made


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    scenes = [Scene("blue", 4, False, False), Scene("bars", 6)]
    return made(tmp_path_factory.mktemp("films") / "tape.mkv", scenes).path


def said(capsys: pytest.CaptureFixture[str], *argv: str) -> tuple[int, str, str]:
    code = entry.run(argv)
    out, err = capsys.readouterr()
    return code, out, err


def test_a_file_is_told_without_any_shop(film: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = said(capsys, "capture", str(film), "--json")
    report = json.loads(out)["report"]

    assert (code, err) == (0, "")
    assert report["sha256"] == hashlib.sha256(film.read_bytes()).hexdigest()
    assert [each["kind"] for each in report["stretches"]] == ["blue", "silent"]
    assert report["keep_from"] == pytest.approx(3, abs=0.1)


def test_a_person_reads_it_in_lines(film: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = said(capsys, "capture", str(film))

    assert "tape.mkv: 0:10 long" in out
    assert "0:00 to 0:04: blue screen, no signal" in out
    assert "keep 0:03 to 0:10, the ends are blank" in out


def test_attached_listed_on_paper_and_struck_out(
    file_desk: Desk, film: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = file_desk.book(line())
    tape = file_desk.bring_to(job.tapes[0], Station.BEING_CHECKED).code
    shop = ("--shop", file_desk.where)

    assert said(capsys, "capture", str(film), "--tape", tape, *shop)[0] == 0
    code, out, _ = said(capsys, "files", job.number, "--paper", str(tmp_path / "papers"), "--json", *shop)
    listed = json.loads(out)
    assert code == 0
    assert [(each["tape"], each["name"]) for each in listed["files"]] == [(tape, "tape.mkv")]
    assert Path(listed["papers"][0]).read_bytes().startswith(b"%PDF")
    code, out, _ = said(capsys, "undo-capture", tape, "--because", "wrong box", "--json", *shop)
    assert (code, json.loads(out)) == (0, {"files": []})


def test_a_mistyped_tape_is_refused_before_the_file_is_read(
    file_desk: Desk, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = ("--shop", file_desk.where)
    code, out, err = said(capsys, "capture", str(tmp_path / "none.mkv"), "--tape", "0000180015", *shop)

    assert (code, out) == (2, "")
    assert "tape code" in err


def test_what_is_no_recording_is_wrong_input(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear all")
    code, out, err = said(capsys, "capture", str(path))

    assert (code, out) == (2, "")
    assert "a recorded file is accepted" in err
