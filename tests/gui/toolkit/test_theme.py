"""The look: colours that carry meaning can be told apart, and the band stays one of a kind."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from PySide6.QtGui import QFont, QFontDatabase, QFontInfo, QFontMetricsF
from PySide6.QtWidgets import QApplication

import gui
from gui.toolkit import colors, style_sheet, theme

GUI = Path(gui.__file__).parent
MAY_BAND = {"colors.py", "not_for_reuse_strip.py"}
"""Where the two colours of the band may be named: their definition and the one place that paints them."""


@pytest.fixture(autouse=True)
def dressed(qapp: QApplication) -> None:
    theme.apply(qapp)


@pytest.mark.parametrize("look", theme.LOOKS)
@pytest.mark.parametrize(("ink", "ground"), colors.TEXT_PAIRS)
def test_text_is_read_on_its_ground(look: str, ink: str, ground: str) -> None:
    # WCAG 2.2, 1.4.3
    tokens = theme.LOOKS[look]
    assert colors.contrast(getattr(tokens, ink), getattr(tokens, ground)) >= 4.5


@pytest.mark.parametrize("look", theme.LOOKS)
@pytest.mark.parametrize(("sign", "ground"), colors.SIGN_PAIRS)
def test_a_sign_is_seen_on_its_ground(look: str, sign: str, ground: str) -> None:
    # WCAG 2.2, 1.4.11
    tokens = theme.LOOKS[look]
    assert colors.contrast(getattr(tokens, sign), getattr(tokens, ground)) >= 3.0


def test_contrast_is_measured_as_the_standard_says() -> None:
    # WCAG 2.2: black on white is 21:1; #767676 on white is the well-known 4.54:1.
    assert colors.contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert colors.contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.01)


def test_high_contrast_goes_beyond_the_minimum() -> None:
    # WCAG 2.2, 1.4.6: 7:1
    tokens = theme.HIGH_CONTRAST
    assert all(
        colors.contrast(getattr(tokens, ink), getattr(tokens, ground)) >= 7.0
        for ink, ground in colors.TEXT_PAIRS
    )


@pytest.mark.parametrize("look", theme.LOOKS)
def test_the_colours_of_the_band_are_the_colours_of_nothing_else(look: str) -> None:
    tokens = theme.LOOKS[look]
    others = {
        getattr(tokens, name)
        for name in tokens._fields
        if name != "band_light" and not name.startswith("band_dark")
    }
    assert tokens.band_light not in others
    assert tokens.band_light not in style_sheet.style_sheet(tokens)


def test_only_the_band_is_painted_in_the_colours_of_the_band() -> None:
    users = {
        file.name
        for file in GUI.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if _names_the_band(node)
    }
    assert users == MAY_BAND


def test_four_sizes_and_none_of_them_small() -> None:
    sizes = (theme.SMALL, theme.BODY, theme.LEAD, theme.GREAT)
    assert sorted(sizes) == list(sizes)
    assert min(sizes) >= 10.5


def test_the_house_face_is_bundled_and_its_figures_are_of_one_width() -> None:
    face = theme.font(theme.BODY)
    assert QFontInfo(face).family() == theme.FAMILY
    assert theme.FAMILY in QFontDatabase.families()
    for weight in (QFont.Weight.Normal, QFont.Weight.Bold):
        metrics = QFontMetricsF(theme.font(theme.BODY, weight))
        assert len({round(metrics.horizontalAdvance(figure * 20), 2) for figure in "0123456789"}) == 1


def test_changing_the_light_changes_what_everybody_asks_for(qapp: QApplication) -> None:
    theme.apply(qapp, theme.DIM_BENCH)
    assert theme.current_tokens() == theme.DIM_BENCH
    assert theme.DIM_BENCH.ground in qapp.styleSheet()


def test_nothing_moves_so_that_less_motion_is_what_everybody_has(qapp: QApplication) -> None:
    # WCAG 2.2, 2.3.3: motion from interaction can be turned off
    moving = ("QPropertyAnimation", "QVariantAnimation", "QTimeLine", "QMovie", "QSequentialAnimationGroup")
    sources = [file.read_text(encoding="utf-8") for file in GUI.rglob("*.py")]
    assert not any(name in source for name in moving for source in sources)
    assert not any(qapp.isEffectEnabled(effect) for effect in theme._MOVING)


def _names_the_band(node: ast.AST) -> bool:
    if isinstance(node, ast.Attribute):
        return node.attr in ("band_dark", "band_light")
    return isinstance(node, ast.Constant) and node.value in (
        theme.LIGHT.band_light,
        theme.HIGH_CONTRAST.band_light,
    )
