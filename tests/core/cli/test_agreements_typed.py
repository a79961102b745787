"""Agreements typed: amended, asked, answered, called off; exit codes, JSON and the page that is written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.support import pdf
from tests.support.booked import set_up
from tests.support.typed import Typist

TAPES = {"count": 3, "format": "vhs", "marking": "T-120", "speed": "sp"}
BOX = {
    "customer": {"name": "Ada Fenwick", "phone": "(303) 555-0142"},
    "tapes": [TAPES],
    "deliver": [{"as": "files", "codec": "h264", "on": "usb"}],
}


@pytest.fixture
def typist(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Typist:
    shop = tmp_path / "shop.sqlite"
    set_up(shop)
    typist = Typist(shop, capsys)
    assert typist("book", _file(tmp_path, BOX)).code == 0
    return typist


def _file(folder: Path, box: object) -> Path:
    path = folder / "box.json"
    path.write_text(json.dumps(box))
    return path


def _with(**line: object) -> dict[str, object]:
    return {**BOX, "tapes": [{**TAPES, **line}]}


def _play_long(typist: Typist) -> None:
    for station in ("looked-over", "cleared-to-play", "playing"):
        assert typist("move", "0000180014", station).code == 0
    moved = typist("move", "0000180014", "being-checked", "--minutes", "366")
    assert (moved.code, moved.document["station"]) == (0, "asking-the-customer")


PEN = {"strokes": [[[0.1, 0.4], [0.5, 0.9], [0.9, 0.2]]]}


def test_what_was_signed_at_drop_off_is_on_the_agreement_and_on_its_copy(
    typist: Typist, tmp_path: Path
) -> None:
    """The copy says what was signed, also after the bench has found more and the order was changed."""
    pen, place = tmp_path / "pen.json", tmp_path / "papers"
    pen.write_text(json.dumps(PEN))
    options = ("--signature", pen, "--told", "--paper", place)
    booked = typist("book", _file(tmp_path, _with(findings=["scratched"])), *options)
    assert booked.code == 0
    number, code = booked.document["number"], booked.document["tapes"][0]["code"]
    (paper,) = place.glob("agreement-*.pdf")
    signed = paper.read_bytes()
    assert "Ada Fenwick signed on" in pdf.words(signed)
    assert typist("move", code, "looked-over", "--finding", "mould").code == 0
    assert typist("amend", number, _file(tmp_path, _with(label="attic")), "--because", "label").code == 0
    told = typist("agreement", number, "--paper", place).document
    assert [(each["how"], each["signed"]) for each in told["versions"]] == [
        ("signature", True),
        ("spoken", False),
    ]
    copy, changed = map(Path, told["papers"])
    assert changed.name.startswith("changed-")
    assert copy.read_bytes() == signed
    assert copy == paper


def test_a_pen_that_is_refused_is_kept_as_said_or_signed_on_paper(typist: Typist, tmp_path: Path) -> None:
    booked = typist("book", _file(tmp_path, BOX), "--how", "paper")
    told = typist("agreement", booked.document["number"]).document
    assert [(each["how"], each["signed"]) for each in told["versions"]] == [("paper", False)]


def test_an_order_is_amended_and_says_what_changed(typist: Typist, tmp_path: Path) -> None:
    done = typist("amend", "000018", _file(tmp_path, _with(count=4)), "--because", "one more found")
    assert done.code == 0
    assert (done.document["version"], done.document["kind"]) == (2, "revised")
    assert [tape["code"] for tape in done.document["tapes"]][-1] == "0000180047"
    (first, second) = done.document["versions"]
    assert first["differences"] == []
    assert second["reason"] == "one more found"
    assert second["agreed_by"] == "Ada Fenwick"
    assert {each["part"] for each in second["differences"]} >= {"tape-added", "total", "ceiling"}
    total = next(each for each in second["differences"] if each["part"] == "total")
    assert total["after"] - total["before"] == total["minor"] > 0


def test_wrong_input_and_refusals_have_their_exit_codes(typist: Typist, tmp_path: Path) -> None:
    two = ["0000180014", "0000180022"]
    assert typist("amend", "000018", _file(tmp_path, _with(count=0))).code == 2
    assert typist("amend", "000018", _file(tmp_path, _with(codes=two, count=1))).code == 2
    assert typist("amend", "000018", _file(tmp_path, BOX), "--based-on", "7").code == 3
    assert typist("agree", "000018").code == 2
    assert typist("agree", "000018", "--choice", "go-on").code == 3
    assert typist("agree", "000018", "--ceiling-minor", "-4").code == 2
    assert typist("cancel", "000018", "--tape", "0000180077").code == 2
    assert typist("found", "0000180014", "--speed", "ep").code == 3
    assert typist("agreement", "000018").document["version"] == 1


def test_a_command_is_bound_to_its_content(typist: Typist, tmp_path: Path) -> None:
    one = ("amend", "000018", _file(tmp_path, _with(count=4)), "--command", "c-1")
    first, again = typist(*one), typist(*one)
    assert (first.code, again.document) == (0, first.document)
    other = typist("amend", "000018", _file(tmp_path, _with(count=5)), "--command", "c-1")
    assert other.code == 3
    assert "used for something else" in other.err


def test_a_price_that_goes_over_is_asked_and_answered(typist: Typist) -> None:
    _play_long(typist)
    told = typist("agreement", "000018").document
    assert told["standing"]["over_minor"] > 0
    assert [each["choice"] for each in told["choices"]] == ["go-on", "stop", "leave", "return-all"]
    assert [each["code"] for each in told["asking"]] == ["0000180014"]
    (call,) = typist("to-call").document["to_call"]
    assert (call["number"], call["standing"]) == ("000018", told["standing"])
    answered = typist("agree", "000018", "--choice", "go-on", "--how", "spoken", "--agreed-by", "Ada F.")
    assert answered.document["ceiling_minor"] == told["choices"][0]["ceiling_minor"]
    assert answered.document["tapes"][0]["station"] == "being-checked"
    assert answered.document["versions"][-1]["choice"] == "go-on"
    (call,) = typist("to-call").document["to_call"]
    assert (call["asking"], call["tapes_asking"]) == ([], 0), "the price is settled"
    assert [each["copy"] for each in call["misfits"]] == [1], "so many minutes do not fit on the stick"


def test_what_a_deck_shows_is_asked_at_once(typist: Typist) -> None:
    for station in ("looked-over", "cleared-to-play", "playing"):
        typist("move", "0000180014", station)
    seen = typist("found", "0000180014", "--speed", "ep")
    assert (seen.code, seen.document["station"]) == (0, "asking-the-customer")


def test_an_order_is_called_off(typist: Typist) -> None:
    one = typist("cancel", "000018", "--tape", "0000180022", "--because", "not that one")
    assert one.document["kind"] == "revised"
    whole = typist("cancel", "000018", "--because", "moving away")
    assert whole.document["kind"] == "cancelled"
    assert {tape["station"] for tape in whole.document["tapes"]} == {"ready"}
    assert typist("cancel", "000018").code == 3


def test_what_has_changed_is_one_page_that_says_it(typist: Typist, tmp_path: Path) -> None:
    box = _file(tmp_path, _with(count=4))
    papers = tmp_path / "papers"
    done = typist("amend", "000018", box, "--because", "one more found", "--paper", papers)
    (path,) = done.document["papers"]
    pages = pdf.pages(Path(path).read_bytes())
    assert len(pages) == 1
    text = " ".join(pages[0].split())
    for said in ("What has changed", "Order 000018", "one more found", "0000", "added", "Ada Fenwick"):
        assert said in text


def test_people_read_it_too(typist: Typist) -> None:
    _play_long(typist)
    told = typist("agreement", "000018", as_json=False).out
    assert "--choice stop" in told
    assert "over what was agreed" in told
    assert "1 tape asks" in typist("to-call", as_json=False).out
