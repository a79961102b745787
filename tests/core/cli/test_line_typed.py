"""An order typed as one line: quoted and booked like a file, and told where it was not understood."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.inventories import written
from tests.support.typed import Typist

LINE = "5 vhs t120, 2 of them mouldy, hi8 p6-120 snapped"
SAME = {
    "tapes": [
        {"count": 3, "format": "vhs", "marking": "T-120"},
        {"count": 2, "format": "vhs", "marking": "T-120", "findings": ["mould"]},
        {"count": 1, "format": "hi8", "marking": "P6-120", "findings": ["snapped"]},
    ]
}


def test_a_line_is_quoted_as_the_file_of_the_same_tapes(typed: Typist, tmp_path: Path) -> None:
    file = tmp_path / "same.json"
    file.write_bytes(written(SAME))
    by_file, by_line = typed("quote", file).document, typed("quote", "--line", LINE).document
    reading = by_line.pop("line")
    assert by_line == by_file
    assert [row["count"] for row in reading["rows"]] == [3, 2, 1]
    assert reading["not_taken"] == []
    assert typed("quote", "--line", reading["written"]).document["tapes"] == by_file["tapes"]
    assert {word["text"]: (word["as"], word["row"]) for word in reading["words"]}["mouldy"] == ("finding", 2)


def test_a_line_is_booked_with_who_brings_it(typed: Typist) -> None:
    booked = typed("book", "--line", LINE, "--name", "Ada Fenwick", "--phone", "(303) 555-0142")
    assert booked.code == 0, booked.err
    assert len(booked.document["tapes"]) == 6
    assert typed("status", "Fenwick").document["jobs"][0]["number"] == booked.document["number"]


def test_a_word_that_was_not_taken_is_told_where_it_stands_and_nothing_is_booked(typed: Typist) -> None:
    refused = typed("book", "--line", "5 vsh t120, hi8", "--name", "Ada")
    assert refused.code == 2
    assert "--line, at character 3: “vsh” was not understood. Did you mean VHS" in refused.err
    (word,) = refused.document["line"]["not_taken"]
    assert (word["start"], word["end"], word["text"], word["row"]) == (2, 5, "vsh", 1)
    assert word["offers"][0] == "VHS"
    assert typed("status", "Ada").document["jobs"] == []


def test_in_words_the_fault_alone_is_printed(typed: Typist) -> None:
    refused = typed("quote", "--line", "3 tapes", as_json=False)
    assert (refused.code, refused.out) == (2, "")
    assert "No kind of cassette is named in “3 tapes”" in refused.err


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (("quote",), "either a FILE or --line"),
        (("quote", "box.json", "--line", "vhs"), "either a FILE or --line"),
        (("quote", "--line", " , "), "--line"),
        (("book", "--line", "vhs"), "customer"),
        (("book", "box.json", "--name", "Ada"), "--name is accepted with --line only"),
    ],
)
def test_what_does_not_go_together_is_refused(typed: Typist, words: tuple[str, ...], found: str) -> None:
    refused = typed(*words)
    assert refused.code == 2
    assert found in refused.err
