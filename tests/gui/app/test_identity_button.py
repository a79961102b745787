"""At the end of the moments: shop and person, the person alone, or initials, but never half a word."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFontMetrics
from pytestqt.qtbot import QtBot

from gui.app.identity_button import IdentityButton


@pytest.fixture
def identity(qtbot: QtBot) -> IdentityButton:
    made = IdentityButton()
    qtbot.addWidget(made)
    made.show_names("The Patient Reel", "Robin")
    return made


def test_the_shop_gives_way_first_and_whole(identity: IdentityButton) -> None:
    wide: QFontMetrics = identity.fontMetrics()
    whole, person = (wide.horizontalAdvance(each) for each in ("The Patient Reel · Robin", "Robin"))
    for room, shown in ((whole, "The Patient Reel · Robin"), (whole - 1, "Robin"), (person - 1, "R")):
        identity.resize(room, 30)
        identity.show()
        assert identity.text() == shown


def test_a_long_name_becomes_the_first_of_it_and_then_initials(identity: IdentityButton) -> None:
    identity.show_names("The Patient Reel", "Alexandria Montgomery-Fairweather")
    wide = identity.fontMetrics()
    for room, shown in ((wide.horizontalAdvance("Alexandria"), "Alexandria"), (30, "AM")):
        identity.resize(room, 30)
        identity.show()
        assert identity.text() == shown
    assert identity.minimumSizeHint().width() == wide.horizontalAdvance("AM")


def test_both_are_always_heard(identity: IdentityButton) -> None:
    identity.resize(10, 30)
    assert identity.accessibleName() == "The Patient Reel · Robin"
