"""The walkthrough in the pseudo-language: what stands outside its brackets is a literal left in code.

Its sentences are some 40 % longer than English, about as much as German needs for short ones (from memory):
what is cut off here is a layout to mend.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QLabel, QVBoxLayout, QWidget

from core.wording import messages
from gui.shop import about_chapter
from tests.support import demonstration, shown_texts, walked
from tests.support.unspoken import Data, unspoken
from tests.support.walked import StopSeen

_TYPED_ON_THE_WAY = ("vh", "Robin", "Sam", "Your shop")
"""What the walkthrough types, two invented people, and what a shop without a name is called."""


@pytest.fixture(scope="module")
def way(
    qapp: QApplication, pseudo_demonstration: Path, tmp_path_factory: pytest.TempPathFactory
) -> list[StopSeen]:
    """Every stop of the walkthrough in the pseudo-language."""
    shop = demonstration.copied(pseudo_demonstration, tmp_path_factory.mktemp("pseudo") / "demo").shop
    return walked.walk("xx", shop, demonstration.AFTERNOON)


@pytest.fixture(scope="module")
def data() -> Data:
    """What may be read on the way without having been translated."""
    return Data("Tapewright", about_chapter.changelog(), *_TYPED_ON_THE_WAY)


def test_every_text_on_the_way_comes_from_a_wording_file_or_is_data(way: list[StopSeen], data: Data) -> None:
    left = {
        f"{where}: {text}": (stop.name, words)
        for stop in way
        for where, text in stop.texts
        if (words := unspoken(text, data))
    }
    assert left == {}, "say these from resources/wording"


def test_nothing_is_cut_off_where_sentences_are_longer(way: list[StopSeen]) -> None:
    assert {each: stop.name for stop in way for each in stop.cut} == {}


def test_the_way_leads_past_every_screen_chapter_and_dialog(way: list[StopSeen]) -> None:
    seen = {stop.name.split("-", 2)[1] for stop in way}
    assert {"counter", "phone", "bench", "pickup", "shop", "customer", "packs", "look", "donor"} <= seen
    assert sum(len(stop.texts) for stop in way) > 2000


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("⟦Hààñđ bààçk⟧", []),
        ("Hand back", ["Hand", "back"]),
        ("⟦&Ñààméé⟧", []),
        ("⟦Ñöö Ottoline Marsh fööûûñđ⟧", []),
        ("⟦Ñöö deck fööûûñđ⟧", ["deck"]),
        ("Hààñđ bààçk", ["Hààñđ", "bààçk"]),
        ("⟦Čööpýý⟧ · Thu, Mar 12, 2:05 PM · 000018 001 4 · $12.50", []),
        ("⟦Ŧààpéé⟧ of Ottoline Marsh", ["of"]),
        ("Wednesday", []),
    ],
)
def test_what_is_a_literal_and_what_is_not(text: str, left: list[str]) -> None:
    assert unspoken(text, Data(but_counted=False)) == left


def test_a_planted_literal_is_found_in_every_place_a_text_can_be(qapp: QApplication) -> None:
    data = Data(but_counted=False)
    messages.use("xx")
    window = QWidget()
    column = QVBoxLayout(window)
    label = QLabel("planted on a label")
    label.setToolTip("planted in a tool tip")
    label.setAccessibleName("planted for the ear")
    column.addWidget(label)
    window.setWindowTitle("planted in a title")
    window.show()
    found = [text for _, text in shown_texts.texts(window) if unspoken(text, data)]
    window.close()
    assert sorted(found) == [
        "planted for the ear",
        "planted in a title",
        "planted in a tool tip",
        "planted on a label",
    ]
