"""The Qt style sheet of the program. Widgets opt in by their ``role`` and ``ink`` properties."""

from __future__ import annotations

import re
from pathlib import Path

from core.model import resource_files
from gui.toolkit.colors import Tokens, luminance
from gui.toolkit.sizes import BODY, GREAT, LEAD, SMALL, UNIT

_PADDING = re.compile(r"padding: ([^;}]*)")
_LENGTH = re.compile(r"((?:height|width|spacing|border-radius|border): )(\d+)px")
_LEAST = 5
"""Pixels under which a border or a corner stays as it is."""


def style_sheet(tokens: Tokens, unit: int = UNIT) -> str:
    """The sheet in these colors, on a grid of ``unit`` pixels."""
    values = tokens._asdict()
    values["tick"] = _tick(tokens).as_posix()
    points = {"small": SMALL, "body": BODY, "lead": LEAD, "great": GREAT}
    values |= {name: f"{size * unit / UNIT:g}" for name, size in points.items()}
    sheet = _SHEET.format(**values)
    return sheet if unit == UNIT else _grown(sheet, unit)


def _grown(sheet: str, unit: int) -> str:
    """Lengths in the measure of the grid; paddings by as much each, so that a wider border of less takes the
    same room."""
    more = round(4 * (unit / UNIT - 1))

    def pad(found: re.Match[str]) -> str:
        wider = re.sub(r"(\d+)px", lambda each: f"{int(each[1]) + more}px", found[1])
        return f"padding: {wider}"

    def stretch(found: re.Match[str]) -> str:
        plain = int(found[2])
        return f"{found[1]}{plain if plain < _LEAST else round(plain * unit / UNIT)}px"

    return _LENGTH.sub(stretch, _PADDING.sub(pad, sheet))


def _tick(tokens: Tokens) -> Path:
    """The tick of a checked box, dark or light as it stands on the brand color."""
    is_light = luminance(tokens.on_oxide) > luminance(tokens.oxide)
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
    selection-background-color: {oxide}; selection-color: {on_oxide}; placeholder-text-color: {muted};
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
QPushButton[role="main"]:focus {{ border: 1px solid {oxide}; padding: 6px 16px; outline: 2px solid {on_oxide};
    outline-radius: 2px; }}
QPushButton[role="main"]:disabled {{ background: {ground}; color: {muted}; border-color: {line}; }}
QPushButton[role="action"] {{ text-align: left; padding: 4px 12px; min-height: 20px; }}
QPushButton[role="action"]:focus {{ padding: 3px 11px; }}
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
QCheckBox, QRadioButton {{ border: 2px solid transparent; }}
QCheckBox:focus, QRadioButton:focus {{ border: 2px solid {oxide}; border-radius: 2px; background: {lit}; }}
QCheckBox::indicator, QRadioButton::indicator {{ width: 16px; height: 16px; background: {slip};
    border: 1px solid {edge}; border-radius: 2px; }}
QCheckBox::indicator:checked {{ background: {oxide}; border-color: {oxide}; image: url({tick}); }}
QRadioButton::indicator {{ border-radius: 9px; }}
QRadioButton::indicator:checked {{ width: 8px; height: 8px; border: 5px solid {oxide}; }}
QCheckBox::indicator:disabled, QRadioButton::indicator:disabled {{ border-color: {line}; }}

QTableView, QListView, QTreeView {{
    background: {tray}; alternate-background-color: {tray}; border: 1px solid {line}; margin: 1px;
    gridline-color: {line};
    selection-background-color: {lit}; selection-color: {ink}; outline: 0;
}}
QTableView:focus, QListView:focus, QTreeView:focus {{ border: 2px solid {oxide}; margin: 0; }}
QTableView::item {{ padding: 0 8px; }}
QTableView QLineEdit {{ border-radius: 0; padding: 0 6px; min-height: 0; border: 2px solid {oxide}; }}
QHeaderView {{ background: {ground}; }}
QHeaderView::section {{ background: {ground}; color: {muted}; border: none; border-bottom: 1px solid {line};
    padding: 4px 7px; font-size: {small}pt; }}
QTableCornerButton::section {{ background: {ground}; border: none; }}

QFrame[role="slip"] {{ background: {slip}; border: 1px solid {line}; }}
QFrame[role="tray"] {{ background: {tray}; border: 1px solid {line}; }}
QFrame[role="rule"] {{ background: {line}; max-height: 1px; min-height: 1px; border: none; }}
QFrame[role="banner"] {{ background: {slip}; border: 2px solid {attention}; }}
QFrame[role="banner"][ink="time"] {{ border: 1px solid {time}; }}
QFrame[role="practice"] {{ background: {oxide}; border: none; border-bottom: 3px double {on_oxide}; }}
QFrame[role="practice"] QLabel {{ color: {on_oxide}; }}
QFrame[role="practice"] QPushButton {{ color: {on_oxide}; }}
QFrame[role="caution"] {{ background: {tray}; border: 1px solid {attention};
    border-left: 6px solid {attention}; }}
QScrollArea, QScrollArea > QWidget > QWidget {{ background: transparent; border: none; }}
QAbstractScrollArea::corner {{ background: transparent; border: none; }}
QScrollBar:vertical {{ background: transparent; width: 14px; margin: 0; }}
QScrollBar::handle:vertical {{ background: {edge}; min-height: 32px; border-radius: 4px; margin: 1px; }}
QScrollBar:horizontal {{ background: transparent; height: 14px; margin: 0; }}
QScrollBar::handle:hover {{ background: {muted}; }}
QMenu {{ background: {slip}; color: {ink}; border: 1px solid {edge}; padding: 4px 0; }}
QMenu::item {{ padding: 5px 24px 5px 16px; min-height: 18px; }}
QMenu::item:selected {{ background: {lit}; color: {ink}; }}
QMenu::item:disabled {{ color: {muted}; }}
QWidget[role="row"]:hover {{ background: {tray}; }}
QWidget[role="row"]:focus {{ background: {lit}; }}
QScrollBar::handle:horizontal {{ background: {edge}; min-width: 32px; border-radius: 4px; margin: 1px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
QToolTip {{ background: {slip}; color: {ink}; border: 1px solid {edge}; padding: 4px; }}

QTabBar#moments {{ font-size: {body}pt; }}
QTabBar#moments::tab {{ background: transparent; border: none; border-bottom: 3px solid transparent;
    padding: 3px 16px 2px 16px; color: {muted}; }}
QTabBar#moments::tab:hover {{ color: {ink}; }}
QTabBar#moments::tab:selected {{ color: {oxide}; border-bottom: 3px solid {oxide}; font-weight: 700; }}
QToolButton[role="moment"] {{ background: transparent; border: none; border-bottom: 3px solid transparent;
    padding: 6px 16px 5px 16px; font-size: {body}pt; color: {muted}; }}
QToolButton[role="moment"]:hover {{ color: {ink}; }}
QToolButton[role="moment"]:checked {{ color: {oxide}; border-bottom: 3px solid {oxide}; font-weight: 700; }}
QToolButton[role="moment"]:focus {{ background: {lit}; border: 2px solid {oxide};
    border-bottom: 3px solid {oxide}; padding: 4px 14px 5px 14px; }}
QToolButton[role="in-sight"] {{ background: transparent; border: none; padding: 4px 8px; font-size: {small}pt;
    color: {time}; }}
QToolButton[role="in-sight"]:hover {{ color: {ink}; }}
QToolButton[role="in-sight"]:focus {{ border: 2px solid {oxide}; padding: 2px 6px; }}
QFrame[role="drawer"] {{ background: {ground}; border: none; border-top: 3px solid {oxide}; }}
QFrame[role="drawer"] QListView {{ background: {ground}; border: none; }}
QFrame[role="drawer-front"] {{ background: {oxide}; border: none; border-top: 3px double {on_oxide}; }}
QFrame[role="drawer-front"] QLabel {{ color: {on_oxide}; }}
QFrame[role="drawer-front"] QLineEdit:focus {{ border: 2px solid {ink}; }}
QToolButton[role="identity"] {{ background: transparent; border: none; font-size: {small}pt;
    color: {muted}; }}
QToolButton[role="identity"]:hover {{ color: {ink}; }}
"""
