"""A finding of the shop's own on the command line: set, priced, booked, moved with, told to a caller."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from core.cli import entry
from core.model.own_shop import shop_additions
from tests.support.booked import set_up
from tests.support.pdf import words

NOON = "2026-03-03T12:00:00-05:00"
TOLD = "It smells of smoke, so we air it out."
BOX: dict[str, Any] = {
    "customer": {"name": "Ada Fenwick", "phone": "(303) 555-0142", "email": None},
    "tapes": [
        {"count": 1, "format": "vhs", "marking": "T-120", "findings": ["smoke", "creased"]},
        {"count": 1, "format": "vhs", "marking": "T-120"},
    ],
    "deliver": [{"as": "files", "on": "gift-stick"}],
}


class Typed:
    """The command line; every call knows only what it reads for itself, as a process of its own."""

    def __init__(self, capsys: pytest.CaptureFixture[str], shop: Path) -> None:
        self._capsys, self._shop = capsys, shop

    def __call__(self, *typed: str, code: int = 0) -> Any:
        shop_additions.put_in_force(shop_additions.NOTHING_ADDED)
        found = entry.run([*typed, "--json", "--shop", str(self._shop), "--now", NOON])
        told = self._capsys.readouterr()
        assert found == code, told.err
        return json.loads(told.out) if code == 0 else told.err


@pytest.fixture
def typed(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Typed:
    set_up(tmp_path / "shop.sqlite")
    called = Typed(capsys, tmp_path / "shop.sqlite")
    called("shop", "set", "repair.air-out", '{ words = "air out the cassette", minutes = [5, 10, 20] }')
    finding = f'{{ words = "smells of smoke", told = "{TOLD}", outcome = "repair", repairs = ["air-out"] }}'
    called("shop", "set", "finding.smoke", finding)
    called("shop", "set", "medium.gift-stick", '{ words = "gift stick", gigabytes = 64 }')
    called("shop", "set", "prices.repair.air-out", '{ words = "Airing out", price = "7.50" }')
    called("shop", "set", "prices.media.gift-stick", '{ words = "Gift stick", price = "19" }')
    return called


def test_from_the_setting_to_the_papers_and_the_caller(typed: Typed, tmp_path: Path) -> None:
    file = tmp_path / "box.json"
    file.write_text(json.dumps(BOX), encoding="utf-8")

    booked = typed("book", str(file), "--paper", str(tmp_path / "papers"))

    charges = {each["code"]: each["amount_minor"]["likely"] for each in booked["quote"]["charges"]}
    assert (charges["repair-air-out"], charges["media-gift-stick"]) == (750, 1900)
    papers = [words(Path(path).read_bytes()) for path in booked["papers"]]
    assert any(TOLD in paper for paper in papers)
    assert any("smells of smoke" in paper for paper in papers)

    first, second = (tape["code"] for tape in booked["tapes"])
    moved = typed("move", second, "asking-the-customer", "--finding", "smoke")
    assert (moved["findings"], moved["findings_words"]) == (["smoke"], ["smells of smoke"])
    typed("move", first, "asking-the-customer")
    assert "smells of smoke" in typed("status", booked["number"])["jobs"][0]["spoken"]


def test_an_unknown_finding_is_named_with_all_that_are_known(typed: Typed, tmp_path: Path) -> None:
    file = tmp_path / "box.json"
    file.write_text(
        json.dumps({**BOX, "tapes": [{**BOX["tapes"][0], "findings": ["wax"]}]}), encoding="utf-8"
    )
    told = typed("quote", str(file), code=2)
    assert "'wax'" in told
    assert "smoke" in told
    assert "'wax'; accepted are" in typed("move", "0000180014", "looked-over", "--finding", "wax", code=2)


def test_its_price_has_a_row_in_the_csv(typed: Typed, tmp_path: Path) -> None:
    file = tmp_path / "prices.csv"
    typed("shop", "prices-out", str(file))
    text = file.read_text(encoding="utf-8")
    assert "repair,air-out,Airing out,,7.50" in text
    file.write_bytes(text.replace("Airing out,,7.50", "Airing out,,8.25").encode())

    typed("shop", "prices-in", str(file))

    assert typed("shop", "show")["prices"]["repair"]["air-out"]["price"] == "8.25"
