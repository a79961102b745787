"""``file-check``, ``sign-off``, ``undo-sign-off`` as typed: JSON, exit codes, and what changes nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.clips import Scene, made
from tests.support.typed import Typist, walk

PARTS = {"code", "is_signed_off", "signed_off", "files", "findings", "open"}


@pytest.fixture(scope="module")
def clip(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small picture at 25 frames a second: PAL, where the order says NTSC."""
    return made(tmp_path_factory.mktemp("clips") / "tape.mkv", [Scene("bars", 3)]).path


@pytest.fixture
def checked(typed: Typist, codes: list[str], clip: Path) -> str:
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing", "being-checked")
    assert typed("capture", str(clip), "--tape", codes[0]).code == 0
    return codes[0]


def test_a_file_is_checked_and_signed_off_finding_by_finding(typed: Typist, checked: str) -> None:
    found = typed("file-check", checked)
    assert (found.code, set(found.document)) == (0, PARTS)
    assert found.document["open"] == ["tv-system", "size"]
    assert (found.document["is_signed_off"], found.document["signed_off"]) == (False, None)
    (file,) = found.document["files"]
    assert (file["width"], file["height"], file["frames_a_second"]) == (160, 120, 25)
    by_name = {each["finding"]: each for each in found.document["findings"]}
    assert by_name["sound"] == {
        "finding": "sound",
        "severity": "fine",
        "words": "The sound is there.",
        "to_do": None,
    }
    assert by_name["tv-system"]["severity"] == "look"
    assert by_name["tv-system"]["to_do"]
    assert typed("move", checked, "ready").code == 3
    accept = ("--accept", "size=only a test", "--accept", "tv-system")
    done = typed("sign-off", checked, "--by", "Lou", *accept)
    assert done.code == 0
    signed = done.document["signed_off"]
    assert (done.document["is_signed_off"], done.document["open"], signed["by"]) == (True, [], "Lou")
    assert [(each["finding"], each["why"]) for each in signed["accepted"]] == [
        ("tv-system", ""),
        ("size", "only a test"),
    ]
    moved = typed("move", checked, "ready")
    assert (moved.document["station"], moved.document["signed_off_by"]) == ("ready", "Lou")
    assert typed("verify").code == 0


def test_a_sign_off_is_withdrawn_and_the_tape_goes_back(typed: Typist, checked: str) -> None:
    accept = ("--accept", "size", "--accept", "tv-system")
    typed("sign-off", checked, "--by", "Lou", *accept)
    typed("move", checked, "ready")
    undone = typed("undo-sign-off", checked, "--because", "hums", "--command", "u-1")
    assert (undone.code, undone.document["signed_off"]) == (0, None)
    assert typed("undo-sign-off", checked, "--because", "hums", "--command", "u-1").code == 0
    assert typed("undo-sign-off", checked, "--because", "other", "--command", "u-1").code == 3
    (job,) = typed("status", checked).document["jobs"]
    assert next(each for each in job["tapes"] if each["code"] == checked)["station"] == "being-checked"
    assert "copy not signed off any more: hums" in typed("history", checked).out


def test_the_same_command_is_carried_out_once(typed: Typist, checked: str) -> None:
    words = (
        "sign-off",
        checked,
        "--by",
        "Lou",
        "--accept",
        "size",
        "--accept",
        "tv-system",
        "--command",
        "s-1",
    )
    first = typed(*words)
    assert typed(*words).document == first.document
    assert typed(*words[:3], "Kim", *words[4:]).code == 3


def test_what_cannot_be_is_refused_and_changes_nothing(typed: Typist, codes: list[str], checked: str) -> None:
    for words, code in (
        (("file-check", "0000180019"), 2),
        (("sign-off", checked), 2),
        (("sign-off", checked, "--by", " "), 2),
        (("sign-off", checked, "--by", "Lou"), 3),
        (("sign-off", checked, "--by", "Lou", "--accept", "size"), 3),
        (("sign-off", checked, "--by", "Lou", "--accept", "size", "--accept", "nothing"), 2),
        (("sign-off", codes[1], "--by", "Lou"), 3),
        (("undo-sign-off", checked, "--because", "x"), 3),
        (("undo-sign-off", checked), 2),
        (("shop", "set", "work.file_for_ready", "maybe"), 2),
    ):
        assert typed(*words).code == code, words
    assert typed("file-check", checked).document["open"] == ["tv-system", "size"]


def test_a_shop_may_want_a_file_of_every_tape(typed: Typist, codes: list[str]) -> None:
    assert typed("shop", "set", "work.file_for_ready", "true").code == 0
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing")
    typed("move", codes[0], "being-checked", "--minutes", "60")
    refused = typed("move", codes[0], "ready")
    assert refused.code == 3
    assert f"capture FILE --tape {codes[0]}" in refused.err
