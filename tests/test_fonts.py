"""The bundled lettering is really there: with no font files Qt draws blank text without complaint."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QFont, QFontDatabase, QRawFont
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

FONTS = sorted((Path(__file__).parents[1] / "resources" / "fonts").glob("Lato-*.ttf"))
FEWEST_COLOURS = 50
"""Smoothed letters give 160 and more shades, a blank label two."""


@pytest.mark.parametrize("file", FONTS, ids=lambda file: file.stem)
def test_a_label_in_the_bundled_font_shows_letters(qtbot: QtBot, file: Path) -> None:
    number = QFontDatabase.addApplicationFont(str(file))
    family = QFontDatabase.applicationFontFamilies(number)[0]
    label = QLabel("Łódź, 12 cassettes, not for reuse")
    qtbot.addWidget(label)
    label.setFont(QFont(family, 18))
    label.resize(label.sizeHint())

    assert _colours(label) > FEWEST_COLOURS
    QFontDatabase.removeApplicationFont(number)


@pytest.mark.parametrize("file", FONTS, ids=lambda file: file.stem)
def test_the_bundled_font_holds_the_letters_and_signs_the_papers_use(qapp: object, file: Path) -> None:
    font = QRawFont(QByteArray(file.read_bytes()), 16)

    missing = [sign for sign in "ŁódźñÉßçø’–—…×½€£¥0123456789" if not font.supportsCharacter(ord(sign))]
    assert missing == []


def test_all_three_weights_are_bundled_with_their_licence() -> None:
    assert [file.stem for file in FONTS] == ["Lato-Bold", "Lato-Medium", "Lato-Regular"]
    assert "SIL OPEN FONT LICENSE" in (FONTS[0].parent / "OFL.txt").read_text().upper()


def test_the_fonts_for_other_scripts_are_bundled_with_their_licences() -> None:
    folder = FONTS[0].parent
    for font, licence in (
        ("DejaVuSans.ttf", "DejaVu-licence.txt"),
        ("Lohit-Devanagari.ttf", "Lohit-licence.txt"),
        ("DroidSansFallback.ttf", "DroidSansFallback-licence.txt"),
    ):
        assert (folder / font).stat().st_size > 100_000
        assert font.split(".")[0].split("Sans")[0] in (folder / licence).read_text()


def _colours(label: QLabel) -> int:
    picture = label.grab().toImage()
    return len({picture.pixel(x, y) for x in range(picture.width()) for y in range(picture.height())})
