"""The look as the widgets ask for it: sizes, fonts, and the colors that the program wears now."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from core.model import resource_files
from gui.toolkit import sizes
from gui.toolkit.colors import DIM_BENCH, HIGH_CONTRAST, LIGHT, LOOKS, Tokens
from gui.toolkit.sizes import Length, scaled
from gui.toolkit.style_sheet import style_sheet

__all__ = [
    "BODY",
    "DIM_BENCH",
    "FAMILY",
    "GREAT",
    "HIGH_CONTRAST",
    "LEAD",
    "LIGHT",
    "LOOKS",
    "ROW",
    "SMALL",
    "UNIT",
    "Length",
    "Tokens",
    "apply",
    "current_tokens",
    "dress",
    "font",
    "grow",
    "load_fonts",
    "scaled",
    "set_style_property",
]

FAMILY = "Lato"
_MOVING = (
    *(Qt.UIEffect.UI_AnimateMenu, Qt.UIEffect.UI_FadeMenu, Qt.UIEffect.UI_AnimateCombo),
    *(Qt.UIEffect.UI_AnimateTooltip, Qt.UIEffect.UI_FadeTooltip, Qt.UIEffect.UI_AnimateToolBox),
)
"""What Qt would move by itself. Nothing here moves, so that who asked the desktop for less motion has it."""
UNIT, ROW = sizes.UNIT, 4 * sizes.UNIT
"""The grid as it is worn now, and a table row on it: a target of at least 24 px (WCAG 2.2, 2.5.8)."""
SMALL, BODY, LEAD, GREAT = sizes.SMALL, sizes.BODY, sizes.LEAD, sizes.GREAT
"""The four type sizes as they are worn now, in points. What is kept longer than a moment asks a `Length`."""


def apply(app: QApplication, tokens: Tokens = LIGHT) -> None:
    """Give the whole program its fonts, palette and style sheet."""
    load_fonts()
    app.setStyle("Fusion")
    for effect in _MOVING:
        app.setEffectEnabled(effect, False)
    app.setPalette(_palette(tokens))
    app.setProperty("tokens", tuple(tokens))
    dress(app, tokens)


def dress(app: QApplication, tokens: Tokens) -> None:
    """Give the program type and style sheet on the grid that is worn now."""
    app.setFont(font(BODY))
    app.setStyleSheet(style_sheet(tokens, UNIT))


def grow(unit: int) -> None:
    """Wear another grid, ``unit`` pixels wide, and type in its measure; `growth` lays out what is there."""
    global UNIT, ROW, SMALL, BODY, LEAD, GREAT
    UNIT, ROW, Length.now = unit, 4 * unit, unit
    plain = (sizes.SMALL, sizes.BODY, sizes.LEAD, sizes.GREAT)
    SMALL, BODY, LEAD, GREAT = (points * unit / sizes.UNIT for points in plain)


def current_tokens(app: QApplication | None = None) -> Tokens:
    """The tokens the program wears now."""
    app = app or QApplication.instance()  # type: ignore[assignment]  # the stubs say QCoreApplication
    worn = app.property("tokens") if app is not None else None
    return _tokens(tuple(worn)) if worn else LIGHT


@lru_cache(maxsize=8)
def _tokens(worn: tuple[str, ...]) -> Tokens:
    return Tokens(*worn)


def set_style_property(widget: QWidget, name: str, value: object) -> None:
    """Set a property that the style sheet looks at, and let it be seen."""
    if widget.property(name) != value:
        widget.setProperty(name, value)
        widget.style().unpolish(widget)
        widget.style().polish(widget)


def load_fonts() -> None:
    """Register the bundled faces once."""
    if FAMILY in QFontDatabase.families():
        return
    for face in sorted(resource_files.path("fonts").glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(face))


def font(size: float, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
    """The house face at one of the four sizes. Lato's figures are tabular as they come."""
    return QFont(_font(size, weight))  # a copy of its own for everybody: a QFont can be changed


@lru_cache(maxsize=64)
def _font(size: float, weight: QFont.Weight) -> QFont:
    face = QFont(FAMILY)
    face.setFamilies([FAMILY, "Noto Sans", "DejaVu Sans"])
    face.setPointSizeF(size)
    face.setWeight(weight)
    return face


def _palette(tokens: Tokens) -> QPalette:
    palette = QPalette()
    role = QPalette.ColorRole
    for which, colour in (
        (role.Window, tokens.ground),
        (role.WindowText, tokens.ink),
        (role.Base, tokens.slip),
        (role.AlternateBase, tokens.tray),
        (role.Text, tokens.ink),
        (role.Button, tokens.slip),
        (role.ButtonText, tokens.ink),
        (role.Highlight, tokens.oxide),
        (role.HighlightedText, tokens.on_oxide),
        (role.ToolTipBase, tokens.slip),
        (role.ToolTipText, tokens.ink),
        (role.PlaceholderText, tokens.muted),
        (role.Link, tokens.time),
    ):
        palette.setColor(which, QColor(colour))
    for which in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, which, QColor(tokens.muted))
    return palette
