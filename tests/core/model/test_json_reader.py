"""Strict JSON: one document in UTF-8, each name once, ordinary numbers, few levels."""

from __future__ import annotations

import pytest

from core.model import json_reader
from core.model.errors import WrongInput


def content_of(data: bytes) -> object:
    return json_reader.read(data, "box.json").content


def sentence_for(data: bytes) -> str:
    with pytest.raises(WrongInput) as refused:
        json_reader.read(data, "box.json")
    return refused.value.sentence


def test_reads_what_json_can_say() -> None:
    assert content_of(b'{"a": [1, -2.5, true, null, "\\u00f3"]}') == {"a": [1, -2.5, True, None, "ó"]}


def test_passes_over_a_byte_order_mark() -> None:
    assert content_of('\ufeff{"a": 1}'.encode()) == {"a": 1}


@pytest.mark.parametrize(
    ("data", "place"),
    [
        (b'{"a": 1,\n "a": 2}', "box.json: a"),
        (b'{"a": [{"b": 1, "b": 1}]}', "box.json: a[0].b"),
        (b'{"a b": {"c": 1, "c": 1}}', 'box.json: "a b".c'),
    ],
)
def test_refuses_a_name_given_twice_where_it_stands(data: bytes, place: str) -> None:
    assert sentence_for(data).startswith(f"{place}: found the same name twice")


@pytest.mark.parametrize("number", [b"NaN", b"Infinity", b"-Infinity", b"1e999", b"9" * 19, b"9" * 5000])
def test_refuses_numbers_nobody_can_mean(number: bytes) -> None:
    assert sentence_for(b'{"a": [0, ' + number + b"]}").startswith("box.json: a[1]: found ")


def test_names_line_and_column_of_bad_syntax() -> None:
    assert sentence_for(b'{"a": 1,\n "b": }').startswith("box.json: line 2, column 7: found '}'")


def test_names_the_line_of_a_byte_that_is_not_utf_8() -> None:
    sentence = sentence_for('{"a": 1,\n "b": "é"}'.encode("latin-1"))
    assert sentence == "box.json: line 2: found the byte 0xE9; the file must be UTF-8 text."


def test_refuses_half_a_surrogate_pair() -> None:
    assert sentence_for(b'{"a": "\\ud800"}').startswith("box.json: a: ")


def test_refuses_deep_brackets_but_not_brackets_in_text() -> None:
    assert "levels" in sentence_for(b"[" * 17 + b"]" * 17)
    assert "levels" in sentence_for(b'{"a":' * 100_000)
    assert content_of(b'["' + b"[" * 99 + b'\\"[[["]') == ["[" * 99 + '"[[[']


def test_looks_at_a_long_run_of_quotation_marks_only_once() -> None:
    assert sentence_for(b'["' + b'\\"' * 900_000).startswith("box.json: line 1")


def test_refuses_a_larger_file_than_any_box_needs() -> None:
    assert "2,000,000 bytes" in sentence_for(b'"' + b"a" * json_reader.MOST_BYTES + b'"')
