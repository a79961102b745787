"""A format of the shop's own on the command line: set, priced, asked about, booked, told apart when wrong."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from core.catalogue import formats
from core.cli import entry
from tests.support.booked import set_up
from tests.support.pdf import words

NOON = "2026-03-03T12:00:00-05:00"
PLATES = '{ like = "slides", words = { name = "Glass plates" } }'
BOX = {
    "customer": {"name": "Ada Fenwick", "phone": "(303) 555-0142", "email": None},
    "tapes": [{"count": 2, "format": "glass-plates", "marking": "36"}],
}


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    file = tmp_path / "shop.sqlite"
    set_up(file)
    return file


class Typed:
    """The command line; every call knows only what it reads for itself, as a process of its own."""

    def __init__(self, capsys: pytest.CaptureFixture[str], shop: Path) -> None:
        self._capsys, self._shop = capsys, shop

    def __call__(self, *typed: str, code: int = 0) -> Any:
        formats.put_in_force(())
        found = entry.run([*typed, "--json", "--shop", str(self._shop), "--now", NOON])
        told = self._capsys.readouterr()
        assert found == code, told.err
        return json.loads(told.out) if code == 0 else told.err


@pytest.fixture
def typed(capsys: pytest.CaptureFixture[str], shop: Path) -> Typed:
    return Typed(capsys, shop)


def take_in(typed: Typed) -> None:
    typed("shop", "set", "format.glass-plates", PLATES)
    typed("shop", "set", "prices.capture.glass-plates", '{ way = "per-unit", price = "2.50" }')
    typed("shop", "set", "deck.VHS 1.plays", '["vhs", "glass-plates"]')


def test_from_the_setting_to_the_papers(typed: Typed, tmp_path: Path) -> None:
    take_in(typed)
    assert typed("playtime", "--format", "glass-plates", "--marking", "36")["full_minutes"] == pytest.approx(
        18
    )
    file = tmp_path / "box.json"
    file.write_text(json.dumps(BOX), encoding="utf-8")

    booked = typed("book", str(file), "--paper", str(tmp_path / "papers"))
    assert booked["quote"]["charges"][0]["amount_minor"]["likely"] == 2 * 36 * 250
    papers = [words(Path(path).read_bytes()) for path in booked["papers"]]
    assert all("Glass plates" in paper for paper in papers)
    assert any("2 boxes of pictures" in paper for paper in papers)
    assert "two boxes of pictures" in typed("status", booked["number"])["jobs"][0]["spoken"]


def test_its_price_has_a_row_in_the_csv(typed: Typed, tmp_path: Path) -> None:
    take_in(typed)
    file = tmp_path / "prices.csv"
    typed("shop", "prices-out", str(file))
    text = file.read_text(encoding="utf-8")
    assert "capture,glass-plates,Glass plates,per-unit,2.50" in text
    file.write_bytes(text.replace("per-unit,2.50", "per-unit,2.75").encode())

    typed("shop", "prices-in", str(file))
    assert typed("shop", "show")["prices"]["capture"]["glass-plates"]["price"] == "2.75"


def test_an_unknown_format_is_still_named_with_all_that_are_known(typed: Typed) -> None:
    take_in(typed)
    assert "glass-plates" in typed("playtime", "--format", "wax", code=2)


def test_what_does_not_fit_changes_nothing(typed: Typed) -> None:
    told = typed("shop", "set", "format.glass-plates", '{ like = "wax", words = { name = "Glass" } }', code=2)

    assert "format 1, like: found 'wax'" in told
    assert typed("shop", "show")["format"] == []
