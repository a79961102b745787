"""Signs that a terminal obeys, or that turn writing around, never reach it raw."""

from __future__ import annotations

import json
import unicodedata
from pathlib import Path

import pytest

from core.cli import terminal_text
from tests.support.inventories import changed
from tests.support.typed import Typist

OBEYED = ["\u009b", "\x7f", "\x1b", "\u202e", "\u2066", "\u200f", "\u2028", "\x00", "\x08", "\r", "\ue000"]


@pytest.mark.parametrize("sign", OBEYED)
def test_a_sign_without_a_shape_is_shown_by_its_number(sign: str) -> None:
    assert sign not in terminal_text.visible(f"Ada{sign}Fenwick")
    assert terminal_text.visible("\u202e") == "\\u202e"


def test_letters_of_any_script_stay_as_they_are() -> None:
    for text in ("Zoë Núñez\t4\n", "می\u200cخواهم", "👩\u200d👧", "עדה", "क्\u200dष"):
        assert terminal_text.visible(text) == text


def test_all_of_unicode_leaves_nothing_a_terminal_obeys() -> None:
    shown = terminal_text.visible("".join(map(chr, range(0x110000))))
    kinds = {unicodedata.category(each) for each in set(shown) - set("\n\t\u200c\u200d")}
    assert not kinds & {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}


@pytest.mark.parametrize("sign", ["\u009b", "\x7f", "\u202e"])
def test_a_customers_name_steers_no_terminal(typed: Typist, tmp_path: Path, sign: str) -> None:
    file = tmp_path / "box.json"
    name = f"Ada{sign}2JFenwick"
    file.write_bytes(json.dumps(changed("customer.name", name)).encode())
    for printed in (
        typed("book", file, as_json=False),
        typed("status", "Fenwick", as_json=False),
        typed("status", "Fenwick"),
        typed("correct", "000018", "--name", name, as_json=False),
        typed("move", name, "ready", as_json=False),
        typed("no-such-thing", name, as_json=False),
    ):
        assert sign not in printed.out + printed.err
