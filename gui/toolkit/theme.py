"""The look in one file: colours, type, space, and the style sheet made from them."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import lru_cache
from pathlib import Path

from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from core.model import resource_files

UNIT = 8
"""The grid: every gap and height is a multiple of it, in device-independent pixels."""

ROW = 4 * UNIT
"""Height of a table row: a target of at least 24 px (WCAG 2.2, 2.5.8)."""

SMALL, BODY, LEAD, GREAT = 10.5, 12.0, 16.0, 24.0
"""The four type sizes, in points."""

FAMILY = "Lato"


@dataclass(frozen=True, slots=True)
class Tokens:
    """Colours by what they are for, never by what they look like."""

    ground: str
    """The counter top."""
    slip: str
    """Paper the customer will hold."""
    tray: str
    """Where the tapes lie."""
    ink: str
    muted: str
    line: str
    """Rules and field edges."""
    edge: str
    """Edge of a control, 3:1 against what it stands on."""
    oxide: str
    """The house colour."""
    on_oxide: str
    time: str
    attention: str
    lit: str
    """Ground of the row or control that has the focus."""
    shell: str
    """The plastic of a cassette in the drawings."""
    shell_glass: str
    """The window in it."""
    band_dark: str
    band_light: str
    """The not-for-reuse band. Nothing else may use these two together."""


LIGHT = Tokens(
    ground="#F3ECDF",
    slip="#FFFDF8",
    tray="#FAF5EB",
    ink="#1F1B16",
    muted="#5F574D",
    line="#DCD1BE",
    edge="#8B7F6E",
    oxide="#8C3B1F",
    on_oxide="#FFF9F2",
    time="#1F5A6B",
    attention="#7A4D00",
    lit="#F4DFC9",
    shell="#2E2721",
    shell_glass="#7C6F60",
    band_dark="#1F1B16",
    band_light="#F2C14E",
)

DIM_BENCH = Tokens(
    ground="#1C1916",
    slip="#2A2622",
    tray="#231F1B",
    ink="#EFE6D8",
    muted="#B3A797",
    line="#463F37",
    edge="#8F8475",
    oxide="#E69169",
    on_oxide="#1C1410",
    time="#82C0D2",
    attention="#E5B45A",
    lit="#4A3324",
    shell="#9C8F80",
    shell_glass="#5A5147",
    band_dark="#14110E",
    band_light="#F2C14E",
)

HIGH_CONTRAST = Tokens(
    ground="#FFFFFF",
    slip="#FFFFFF",
    tray="#FFFFFF",
    ink="#000000",
    muted="#262626",
    line="#000000",
    edge="#000000",
    oxide="#6B1F00",
    on_oxide="#FFFFFF",
    time="#003C4D",
    attention="#593300",
    lit="#FFE9A8",
    shell="#000000",
    shell_glass="#6B6B6B",
    band_dark="#000000",
    band_light="#FFD84D",
)

LOOKS = {"counter light": LIGHT, "dim bench": DIM_BENCH, "high contrast": HIGH_CONTRAST}

TEXT_PAIRS = tuple(
    (ink, ground)
    for ink in ("ink", "muted", "oxide", "time", "attention")
    for ground in ("ground", "slip", "tray", "lit")
) + (("on_oxide", "oxide"), ("band_dark", "band_light"))
"""Pairs that carry text: at least 4.5:1 (WCAG 2.2, 1.4.3)."""

SIGN_PAIRS = tuple(
    (sign, ground) for sign in ("edge", "shell", "time", "oxide") for ground in ("ground", "slip", "tray")
) + (("shell", "lit"),)
"""Pairs that carry a sign or the edge of a control: at least 3:1 (WCAG 2.2, 1.4.11)."""


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21. Formula: WCAG 2.2, relative luminance."""
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def apply(app: QApplication, tokens: Tokens = LIGHT) -> None:
    """Give the whole program its fonts, palette and style sheet."""
    load_fonts()
    app.setStyle("Fusion")
    app.setFont(font(BODY))
    app.setPalette(_palette(tokens))
    app.setProperty("tokens", tuple(getattr(tokens, field.name) for field in fields(tokens)))
    app.setStyleSheet(style_sheet(tokens))


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


def _luminance(colour: str) -> float:
    paint = QColor(colour)
    red, green, blue = (_linear(channel) for channel in (paint.redF(), paint.greenF(), paint.blueF()))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)


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


def style_sheet(tokens: Tokens) -> str:
    """Qt style sheet of the house. Widgets opt in by their ``role`` property."""
    values = {field.name: getattr(tokens, field.name) for field in fields(tokens)}
    values["tick"] = _tick(tokens).as_posix()
    return _SHEET.format(**values, small=SMALL, body=BODY, lead=LEAD, great=GREAT, row=ROW)


def _tick(tokens: Tokens) -> Path:
    """The tick of a checked box, dark or light as it stands on the house colour."""
    is_light = _luminance(tokens.on_oxide) > _luminance(tokens.oxide)
    return resource_files.path("pictures", "tick-light.svg" if is_light else "tick-dark.svg")


_SHEET = """
* {{ font-family: "Lato", "Noto Sans", "DejaVu Sans"; }}
QWidget {{ color: {ink}; }}
QMainWindow, QDialog, QWidget[role="ground"] {{ background: {ground}; }}
QLabel[role="small"] {{ font-size: {small}pt; color: {muted}; }}
QLabel[role="lead"] {{ font-size: {lead}pt; }}
QLabel[role="heading"] {{ font-size: {lead}pt; font-weight: 700; }}
QLabel[role="great"] {{ font-size: {great}pt; font-weight: 700; }}
QLabel[role="time"] {{ color: {time}; font-size: {lead}pt; font-weight: 700; }}
QLabel[role="attention"] {{ color: {attention}; font-weight: 700; }}
QLabel[ink="ink"] {{ color: {ink}; }}
QLabel[ink="muted"] {{ color: {muted}; }}
QLabel[ink="oxide"] {{ color: {oxide}; }}
QLabel[ink="time"] {{ color: {time}; }}
QLabel[ink="attention"] {{ color: {attention}; }}
QLabel[role="field"] {{ font-size: {small}pt; color: {muted}; }}

QLineEdit, QComboBox, QSpinBox, QDoubleSpinBox, QDateEdit, QPlainTextEdit, QTextEdit {{
    background: {slip}; border: 1px solid {edge}; border-radius: 2px; padding: 4px 8px; min-height: 22px;
    selection-background-color: {oxide}; selection-color: {on_oxide};
}}
QLineEdit[role="tall"] {{ min-height: 26px; }}
QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QDoubleSpinBox:focus, QDateEdit:focus,
QPlainTextEdit:focus {{
    border: 2px solid {oxide}; padding: 3px 7px; background: {slip};
}}
QSpinBox QLineEdit, QSpinBox QLineEdit:focus {{ border: none; padding: 0 6px; min-height: 0;
    background: transparent; }}
QSpinBox::up-button, QSpinBox::down-button {{ width: 0; border: none; }}
QLineEdit:disabled, QComboBox:disabled {{ background: {tray}; color: {muted}; border-color: {line}; }}
QLineEdit[wrong="true"] {{ border: 2px solid {attention}; }}
QComboBox::drop-down {{ border: none; width: 20px; }}
QComboBox QAbstractItemView {{ background: {slip}; border: 1px solid {edge}; outline: 0;
    selection-background-color: {lit}; selection-color: {ink}; }}

QPushButton {{ background: {slip}; border: 1px solid {edge}; border-radius: 2px; padding: 6px 16px;
    min-height: 22px; }}
QPushButton:hover {{ background: {tray}; }}
QPushButton:focus {{ border: 2px solid {oxide}; padding: 5px 15px; }}
QPushButton:disabled {{ color: {muted}; border-color: {line}; background: {ground}; }}
QPushButton[role="main"] {{ background: {oxide}; color: {on_oxide}; border: 1px solid {oxide};
    font-weight: 700; }}
QPushButton[role="main"]:focus {{ border: 2px solid {ink}; }}
QPushButton[role="main"]:disabled {{ background: {ground}; color: {muted}; border-color: {line}; }}
QPushButton[role="deed"] {{ text-align: left; padding: 4px 12px; min-height: 20px; }}
QPushButton[role="deed"]:focus {{ padding: 3px 11px; }}
QPushButton[role="answer"] {{ text-align: left; padding: 3px 12px; }}
QPushButton[role="answer"]:focus {{ padding: 2px 11px; }}
QPushButton[role="quiet"] {{ background: transparent; border: none; color: {time}; padding: 4px 8px;
    text-align: left; }}
QPushButton[role="word"] {{ background: transparent; border: none; color: {time}; padding: 0 8px;
    min-height: 24px; text-align: left; }}
QPushButton[role="caption"] {{ background: transparent; border: none; color: {time}; padding: 0 8px 10px 8px;
    min-height: 14px; }}
QPushButton[role="word"]:focus {{ border: 2px solid {oxide}; padding: 0 6px; }}
QPushButton[role="quiet"]:focus {{ border: 2px solid {oxide}; padding: 2px 6px; }}

QCheckBox, QRadioButton {{ spacing: 8px; min-height: 24px; }}
QCheckBox:focus, QRadioButton:focus {{ background: {lit}; }}
QCheckBox::indicator, QRadioButton::indicator {{ width: 16px; height: 16px; background: {slip};
    border: 1px solid {edge}; border-radius: 2px; }}
QCheckBox::indicator:checked {{ background: {oxide}; border-color: {oxide}; image: url({tick}); }}
QRadioButton::indicator {{ border-radius: 9px; }}
QRadioButton::indicator:checked {{ width: 8px; height: 8px; border: 5px solid {oxide}; }}
QCheckBox::indicator:disabled, QRadioButton::indicator:disabled {{ border-color: {line}; }}

QTableView, QListView, QTreeView {{
    background: {tray}; alternate-background-color: {tray}; border: 2px solid {line}; gridline-color: {line};
    selection-background-color: {lit}; selection-color: {ink}; outline: 0;
}}
QTableView:focus, QListView:focus {{ border: 2px solid {oxide}; }}
QTableView::item {{ padding: 0 8px; }}
QTableView QLineEdit {{ border-radius: 0; padding: 0 6px; min-height: 0; border: 2px solid {oxide}; }}
QHeaderView {{ background: {ground}; }}
QHeaderView::section {{ background: {ground}; color: {muted}; border: none; border-bottom: 1px solid {line};
    padding: 4px 8px; font-size: {small}pt; }}
QTableCornerButton::section {{ background: {ground}; border: none; }}

QFrame[role="slip"] {{ background: {slip}; border: 1px solid {line}; }}
QFrame[role="tray"] {{ background: {tray}; border: 1px solid {line}; }}
QFrame[role="rule"] {{ background: {line}; max-height: 1px; min-height: 1px; border: none; }}
QFrame[role="banner"] {{ background: {slip}; border: 2px solid {attention}; }}
QFrame[role="banner"][ink="time"] {{ border: 1px solid {time}; }}
QFrame[role="caution"] {{ background: {tray}; border: 1px solid {attention};
    border-left: 6px solid {attention}; }}
QScrollArea, QScrollArea > QWidget > QWidget {{ background: transparent; border: none; }}
QAbstractScrollArea::corner {{ background: transparent; border: none; }}
QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
QScrollBar::handle:vertical {{ background: {edge}; min-height: 32px; border-radius: 4px; margin: 1px; }}
QScrollBar:horizontal {{ background: transparent; height: 10px; margin: 0; }}
QScrollBar::handle:horizontal {{ background: {edge}; min-width: 32px; border-radius: 4px; margin: 1px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
QToolTip {{ background: {slip}; color: {ink}; border: 1px solid {edge}; padding: 4px; }}

QToolButton[role="moment"] {{ background: transparent; border: none; border-bottom: 3px solid transparent;
    padding: 6px 16px 5px 16px; font-size: {body}pt; color: {muted}; }}
QToolButton[role="moment"]:hover {{ color: {ink}; }}
QToolButton[role="moment"]:checked {{ color: {oxide}; border-bottom: 3px solid {oxide}; font-weight: 700; }}
QToolButton[role="moment"]:focus {{ background: {lit}; }}
"""
