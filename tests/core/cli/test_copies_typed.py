"""Copies typed: made, checked, handed over, too large, downloaded; the JSON and the exit codes."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from tests.support.booked import set_up
from tests.support.typed import Typist

BOX = {
    "customer": {"name": "Ada Fenwick", "phone": "(303) 555-0142"},
    "tapes": [{"count": 3, "format": "vhs", "marking": "T-120", "speed": "sp"}],
    "deliver": [
        {"as": "files", "codec": "h264", "on": "own-drive"},
        {"as": "dvd", "sets": 2},
        {"as": "files", "codec": "h264", "on": "download"},
    ],
}
CODES = ("0000180014", "0000180022", "0000180030")


@pytest.fixture
def typist(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Typist:
    """An order whose three tapes are copied, of an hour each."""
    shop = tmp_path / "shop.sqlite"
    set_up(shop)
    typist, path = Typist(shop, capsys), tmp_path / "box.json"
    path.write_text(json.dumps(BOX))
    booked = typist("book", path)
    assert booked.code == 0
    for code in (each["code"] for each in booked.document["tapes"]):
        for station in ("looked-over", "cleared-to-play", "playing"):
            assert typist("move", code, station).code == 0
        assert typist("move", code, "being-checked", "--minutes", "60").code == 0
        assert typist("move", code, "ready").code == 0
    return typist


def _copies(typist: Typist) -> list[dict[str, object]]:
    listed = typist("copies", "000018")
    assert listed.code == 0
    found: list[dict[str, object]] = listed.document["copies"]
    return found


def test_every_copy_is_listed_with_how_far_it_is(typist: Typist) -> None:
    drive, first, second, download = _copies(typist)
    assert [each["code"] for each in (drive, first, second, download)] == [
        "own-drive",
        "dvd-r",
        "dvd-r",
        "download",
    ]
    assert {each["state"] for each in _copies(typist)} == {"to-make"}
    assert first["pieces"] == second["pieces"] == 3
    assert typist("copies", "000018").document["being_written"] is True
    (order,) = typist("copies").document["orders"]
    assert order["number"] == "000018"
    said = typist("copies", "000018", as_json=False).out
    assert "the tapes are done, the copies are being written" in said
    (spoken,) = typist("status", "000018").document["jobs"]
    assert "copies are being written" in spoken["spoken"]


def test_copies_are_made_checked_and_handed_over_with_files_and_checksums(
    typist: Typist, tmp_path: Path
) -> None:
    drive, disc, *_ = (str(each["copy"]) for each in _copies(typist))
    file = tmp_path / "beach.mp4"
    file.write_bytes(b"sea")
    assert typist("copy-made", "000018", drive, "--files", file).code == 3
    described = typist("own-drive", "000018", drive, "--gb", "64", "--file-system", "exfat")
    assert described.document["copies"][0]["drive"] == {
        "size_bytes": 64_000_000_000,
        "file_system": "exfat",
        "splits": False,
    }
    assert typist("copy-checked", "000018", drive).code == 3
    made = typist("copy-made", "000018", drive, "--files", file, "--command", "once")
    assert typist("copy-made", "000018", drive, "--files", file, "--command", "once").out == made.out
    assert typist("copy-made", "000018", drive, "--command", "once").code == 3
    (kept,) = made.document["copies"][0]["files"]
    assert (kept["name"], kept["size_bytes"]) == ("beach.mp4", 3)
    assert kept["sha256"] == hashlib.sha256(b"sea").hexdigest()
    file.write_bytes(b"sky")
    assert typist("copy-checked", "000018", drive, "--files", file).code == 3
    file.write_bytes(b"sea")
    assert typist("copy-checked", "000018", drive, "--files", file).code == 0
    assert typist("pickup", "000018", "--copy", disc, "--signed-by", "Ada Fenwick").code == 3
    done = typist("pickup", "000018", "--signed-by", "Ada Fenwick", "--paper", tmp_path / "papers")
    assert done.code == 0
    assert [each["code"] for each in done.document["handed_over"]] == ["own-drive"]
    assert done.document["handed_over"][0]["files"] == [kept]


def test_a_wrong_entry_is_taken_back_with_the_reason(typist: Typist) -> None:
    disc = str(_copies(typist)[1]["copy"])
    assert typist("undo-copy", "000018", disc, "--because", "the other order").code == 3
    assert typist("copy-made", "000018", disc).code == 0
    back = typist("undo-copy", "000018", disc, "--because", "the other order")
    assert (back.code, back.document["copies"][1]["state"]) == (0, "to-make")
    assert typist("copy-made", "000018", "999").code == 2
    assert typist("copy-made", "000018", disc, "--files", "no such file").code == 2


def test_a_drive_too_small_is_told_with_its_choices_and_the_answer_kept(typist: Typist) -> None:
    drive = str(_copies(typist)[0]["copy"])
    assert typist("copy-choice", "000018", drive).code == 3
    small = typist("own-drive", "000018", drive, "--gb", "4", "--file-system", "fat32")
    (misfit,) = small.document["misfits"]
    assert (misfit["reason"], str(misfit["copy"])) == ("size", drive)
    (waiting,) = typist("to-call").document["to_call"]
    assert waiting["misfits"] == [{"copy": int(drive), "sentence": misfit["sentence"]}]
    assert misfit["sentence"] in typist("to-call", as_json=False).out
    asked = typist("copy-choice", "000018", drive)
    assert [each["choice"] for each in asked.document["choices"]] == ["stick", "download"]
    assert typist("copy-choice", "000018", drive, "--choice", "split").code == 3
    done = typist("copy-choice", "000018", drive, "--choice", "stick", "--agreed-by", "Ada Fenwick")
    assert done.code == 0
    assert done.document["misfits"] == []
    versions = typist("agreement", "000018").document["versions"]
    assert versions[-1]["agreed_by"] == "Ada Fenwick"
    assert typist("to-call").document["to_call"] == []


def test_a_download_is_linked_due_and_deleted(typist: Typist) -> None:
    item = str(_copies(typist)[-1]["copy"])
    give = ("download", "000018", "--link", "https://files.example/a", "--until", "2026-03-16")
    assert typist(*give).code == 3
    for step in ("copy-made", "copy-checked"):
        assert typist(step, "000018", item).code == 0
    assert typist(*give).code == 0
    (there,) = typist("downloads").document["downloads"]
    assert (there["number"], there["until"], there["due"]) == ("000018", "2026-03-16", False)
    assert typist("downloads", "--due").document["downloads"] == []
    later = "2026-03-17T10:00:00-04:00"
    (due,) = typist("downloads", "--due", now=later).document["downloads"]
    assert due["link"] == "https://files.example/a"
    gone = typist("download-deleted", "000018", now=later)
    assert gone.document["copies"][-1]["state"] == "deleted"
    assert typist("download-deleted", "000018", now=later).code == 3
    assert typist("downloads", now=later).document["downloads"] == []
