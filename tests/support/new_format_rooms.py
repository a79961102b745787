"""Every room of a house to which one file was added, `tests.support.invented_format`.

Not collected here: `tests.flows.test_new_format` runs it in a copy of the house that holds that file.
"""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

import core
from core.catalogue import bench_cards, condition, inspection
from core.catalogue.formats import catalogue
from core.cli import entry
from core.model.inventory import TapeLine
from core.model.names import Finding, FormatName
from core.model.typed_draft import TypedRow
from core.playtime import evidence, learning, possibilities, starting_beliefs
from core.playtime.explanations import Played
from core.playtime.habits import STARTING
from core.playtime.possibilities import Facts
from core.scheduling import deck_choice
from core.services import decks, figure_sources
from core.services.records_door import Shop
from gui.counter import accepted_words, typed_box
from gui.inspection.pack_tool import PackTool
from gui.inspection.shell_drawing import ShellArt
from gui.widgets.cassette_drawing import paint_cassette
from tests.support.booked import set_up
from tests.support.invented_format import HUB_MM, METRES, MM_S, NAME, THICKNESS_UM, TRACK_MM
from tests.support.pdf import words
from tests.support.shops import deck

PEBBLE = FormatName(NAME)
LINE = TapeLine(2, PEBBLE, "PB-45", findings=(Finding.SNAPPED,))
BOX = {
    "customer": {"name": "Ada Fenwick", "phone": "(303) 555-0142", "email": None},
    "tv": "ntsc",
    "tapes": [{"count": 2, "format": NAME, "marking": "PB-45", "findings": ["snapped"]}],
}
PLAYER = deck("Pebble player", NAME, speeds="sp")
ON_ITS_WAY = ("looked-over", "at-the-bench", "cleared-to-play", "playing", "being-checked", "ready")
NOON = "2026-03-03T12:00:00-05:00"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A new shop with a deck for the new format."""
    file = tmp_path / "shop.sqlite"
    set_up(file)
    with Shop.open(file) as opened:
        fitted = opened.ask(decks.settings)
        opened.run(decks.refit, replace(fitted, decks=(*fitted.decks, PLAYER)))
    return file


class Typed:
    """The command line, without a process of its own."""

    def __init__(self, capsys: pytest.CaptureFixture[str], shop: Path) -> None:
        self._capsys, self._shop = capsys, shop

    def __call__(self, *words: str) -> Any:
        code = entry.run([*words, "--json", "--shop", str(self._shop), "--now", NOON])
        told = self._capsys.readouterr()
        assert code == 0, told.err
        return json.loads(told.out)


@pytest.fixture
def typed(capsys: pytest.CaptureFixture[str], shop: Path) -> Typed:
    return Typed(capsys, shop)


@pytest.fixture
def box(tmp_path: Path) -> str:
    file = tmp_path / "box.json"
    file.write_text(json.dumps(BOX), encoding="utf-8")
    return str(file)


def test_this_is_the_copy() -> None:
    assert Path(core.__file__).is_relative_to(Path.cwd())
    assert PEBBLE in catalogue().names


def test_playtime(typed: Typed) -> None:
    told = typed("playtime", "--format", NAME, "--marking", "pb45")

    assert told["full_minutes"] == pytest.approx(45)
    assert told["metres"] == pytest.approx(METRES)
    assert typed("playtime", "--format", NAME)["minutes"]["high"] > 40


def test_cut(typed: Typed) -> None:
    told = typed("cut", "--format", NAME, "--cm", "5")

    assert told["seconds_removed"] == pytest.approx(50 / MM_S)
    assert told["seconds_disturbed"] == pytest.approx((50 + TRACK_MM) / MM_S)


def test_pack(typed: Typed) -> None:
    told = typed("pack", "--format", NAME, "--radius-mm", "9")

    assert told["metres"] == pytest.approx(math.pi * (81 - HUB_MM**2) / THICKNESS_UM)


def test_quote(typed: Typed, box: str) -> None:
    told = typed("quote", box)

    assert [tape["format"] for tape in told["tapes"]] == [NAME, NAME]
    assert told["tapes"][0]["not_for_reuse"]
    assert told["promise"]["date"]
    assert (
        sum(charge["amount_minor"]["likely"] for charge in told["charges"]) == told["net_minor"]["likely"] > 0
    )


def test_from_the_booking_to_the_receipt(typed: Typed, box: str, tmp_path: Path) -> None:
    papers = tmp_path / "papers"
    booked = typed("book", box, "--paper", str(papers))
    told = [words(Path(path).read_bytes()) for path in booked["papers"]]

    assert len(told) >= 2
    assert all("Pebble" in each for each in told)
    codes = [tape["code"] for tape in booked["tapes"]]
    assert len(typed("status", booked["number"])["jobs"][0]["tapes"]) == 2
    for code in codes:
        typed("splice", code, "--at-minutes", "10", "--cut-cm", "2", "--joined-with", "tape")
        typed("mark", code)
        for station in (
            "looked-over",
            "at-the-bench",
            "cleared-to-play",
            "playing",
            "being-checked",
            "ready",
        ):
            played = ("--minutes", "30") if station == "being-checked" else ()
            typed("move", code, station, *played)
    receipt = typed("pickup", booked["number"], "--signed-by", "Ada Fenwick", "--paper", str(papers))[
        "receipt"
    ]
    assert "Pebble" in words(Path(receipt).read_bytes())


def test_bench_card_and_look_over() -> None:
    card = bench_cards.card(PEBBLE)
    (lid,) = [step for step in inspection.steps(PEBBLE) if step.key == "lid"]

    assert (card.title, card.opening) == ("Pebble", ("Nobody opens it.",))
    assert any("screws" in caution for caution in card.cautions)
    assert lid.how == ("Leave the pebble shut.",)
    assert inspection.cautions([Finding.SNAPPED], PEBBLE)
    small, usual = (condition.repair("splice", name).minutes for name in (PEBBLE, FormatName("vhs")))
    assert small.high > usual.high


def test_habits() -> None:
    played = Played("box", Facts(PEBBLE, "PB-45"), 40.0, recorded_as=PEBBLE)
    taught = learning.learned((played,))

    assert evidence.evidence_of((played,), learning.learned((played,)))
    assert sum(
        taught.weights(starting_beliefs.fill_group(catalogue().format(NAME))).values()
    ) == pytest.approx(1)
    assert possibilities.system_weights(catalogue().format(NAME), STARTING) == {PEBBLE: 1.0}
    assert any("Pebble" in each.whose for each in evidence.unseen(()))


def test_deck_choice() -> None:
    assert deck_choice.suited((deck("VHS", "vhs"), PLAYER), PEBBLE, None, None, None).decks == (1,)


def test_the_owners_figures() -> None:
    told = [
        fact.what
        for fact in (*figure_sources.of_format(catalogue().format(NAME)), *figure_sources.of_packs())
    ]

    assert "hub radius, PB-30, PB-45" in told
    assert any("Pebble" in what for what in told)


def test_a_row_of_the_counter() -> None:
    read = typed_box.read_row(TypedRow(count="2", format="pebble", marking="pb 45"))

    assert read.wrong == ()
    assert read.line is not None
    assert read.line.format == PEBBLE
    assert "Pebble" in [choice.words for choice in accepted_words.formats_offered()]
    assert [choice.words for choice in accepted_words.markings_offered("Pebble")] == ["PB-30", "PB-45"]


def drawn(name: str) -> QImage:
    image = QImage(300, 200, QImage.Format.Format_ARGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    paint_cassette(painter, QRectF(image.rect()), FormatName(name))
    painter.end()
    return image


def test_the_silhouette(qtbot: QtBot) -> None:
    assert drawn(NAME) != drawn("minidv")


def test_the_drawing_of_the_look_over(qtbot: QtBot) -> None:
    art = ShellArt()
    qtbot.addWidget(art)
    for step in inspection.steps(PEBBLE):
        art.point_at(PEBBLE, step.part, step.lamp)
        assert not art.grab().isNull()
        assert "Pebble" in art.accessibleName()


def test_the_pack_tool(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    tool = PackTool(window, takes_fill=True)
    tool.begin("row", "Pebble", LINE, None)
    tool.fields[0].setText("10")
    tool.fields[1].setText("9")

    assert tool.reading is not None
    assert not tool.grab().isNull()
    tool.close()
