"""At the end of the moments: shop and person, the person alone, or nothing, but never half a word."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFontMetrics
from pytestqt.qtbot import QtBot

from gui.app.standing import Standing


@pytest.fixture
def standing(qtbot: QtBot) -> Standing:
    made = Standing()
    qtbot.addWidget(made)
    made.name("The Patient Reel", "Robin")
    return made


def test_the_shop_gives_way_first_and_whole(standing: Standing) -> None:
    wide: QFontMetrics = standing.fontMetrics()
    whole, person = (wide.horizontalAdvance(each) for each in ("The Patient Reel · Robin", "Robin"))
    for room, shown in ((whole, "The Patient Reel · Robin"), (whole - 1, "Robin"), (person - 1, "")):
        standing.resize(room, 30)
        standing.show()
        assert standing.text() == shown


def test_both_are_always_heard(standing: Standing) -> None:
    standing.resize(10, 30)
    assert standing.accessibleName() == "The Patient Reel · Robin"
