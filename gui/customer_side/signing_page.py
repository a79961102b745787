"""What the customer signs at drop-off, and the place to sign: the same words that the paper says.

Nothing here ever takes the keyboard; a pen, a finger or the mouse is enough.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from core.papers.booking.signing_sheet import SigningSheet
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import say
from gui.widgets.layouts import Columns, PaperFrame, empty, rule, scrolled, stacked
from gui.widgets.signature_pad import SignaturePad

PAD_SCALE = 1.3
_FOLD_BELOW = 900


class SigningPage(QWidget):
    """The sheet at the left, price, day and the pad at the right."""

    signed = Signal(object)
    """The strokes as they stand after each stroke; none after *Clear*."""

    def __init__(self, scale: float) -> None:
        super().__init__()
        self.setObjectName("signing-page")
        self._scale = scale
        self.pad = SignaturePad(scale=PAD_SCALE, takes_keyboard=False)
        self.pad.changed.connect(self._tell_ink)
        self._sheet = PaperFrame("signing-sheet")
        self._agreed = QWidget()
        self._agreed_column = stacked(self._agreed, 0)
        self._consent = self._label(theme.BODY)
        self._who = self._label(theme.SMALL, "muted")
        self._build()

    def show_sheet(self, sheet: SigningSheet) -> None:
        """Show what is to be signed, with an empty pad."""
        self.pad.clear()
        empty(self._sheet.column)
        empty(self._agreed_column)
        self._write_sheet(sheet)
        self._write_agreed(sheet)
        self._consent.setText(sheet.consent)
        self._who.setText(say("customer", "sign_name", name=sheet.name))

    @property
    def area_to_scroll(self) -> QScrollArea:
        """What Page Up and Page Down scroll: the sheet, or all of it where the columns are folded."""
        return self.columns if self.columns.is_folded else self.area

    # --- what is written -----------------------------------------------------------------

    def _write_sheet(self, sheet: SigningSheet) -> None:
        self._write(sheet.title, theme.LEAD, bold=True)
        self._write(sheet.name, theme.BODY)
        self._section(sheet.tapes_head)
        for tapes in sheet.tapes:
            self._write(say("customer", "sign_tapes", count=tapes.count, words=tapes.name), theme.BODY)
            self._write(tapes.expected, theme.SMALL, "muted")
        if sheet.told:
            self._section(sheet.told_head)
            self._write_all(sheet.told)
        self._section(sheet.terms_head)
        self._write_all(sheet.terms)
        self._sheet.column.addStretch(1)

    def _write_agreed(self, sheet: SigningSheet) -> None:
        said = sheet.price
        for text, size, ink in (
            (sheet.price_head, theme.SMALL, "muted"),
            (said.price, theme.GREAT, "ink"),
            (said.limit, theme.BODY, "ink"),
            (said.day_head, theme.SMALL, "muted"),
            (said.day, theme.GREAT, "time"),
            (said.chance, theme.BODY, "time"),
        ):
            if text == said.day_head:
                self._agreed_column.addSpacing(2 * theme.UNIT)
            if text:
                self._agreed_column.addWidget(self._label(size, ink, text, bold=size == theme.GREAT))

    def _section(self, heading: str) -> None:
        self._sheet.column.addWidget(rule())
        self._write(heading, theme.BODY, bold=True)

    def _write_all(self, sentences: Sequence[str]) -> None:
        for sentence in sentences:
            self._write(sentence, theme.SMALL)

    def _write(self, text: str, size: float, ink: str = "ink", *, bold: bool = False) -> None:
        self._sheet.column.addWidget(self._label(size, ink, text, bold=bold))

    def _label(self, size: float, ink: str = "ink", text: str = "", *, bold: bool = False) -> QLabel:
        label = plain_label(text)
        label.setWordWrap(True)
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setProperty("ink", ink)
        label.setFont(theme.font(size * self._scale, QFont.Weight.Bold if bold else QFont.Weight.Normal))
        return label

    # --- the pen -------------------------------------------------------------------------

    @Slot()
    def _tell_ink(self) -> None:
        self.clear_button.setEnabled(not self.pad.is_empty)
        self.signed.emit(self.pad.strokes())

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self.clear_button = QPushButton(say("pickup", "pad_clear"))
        self.clear_button.setObjectName("signing-clear")
        self.clear_button.setProperty("role", "quiet")
        self.clear_button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.clear_button.setEnabled(False)
        self.clear_button.clicked.connect(self.pad.clear)
        columns = self.columns = Columns(_FOLD_BELOW)
        self.area = scrolled(self._sheet, "signing-area")
        columns.add(self.area, 6)
        columns.add(self._beside(), 5)
        stacked(self, 0).addWidget(columns)

    def _beside(self) -> QWidget:
        beside = QWidget()
        column = QVBoxLayout(beside)
        column.setContentsMargins(3 * theme.UNIT, 0, 0, 0)
        column.setSpacing(theme.UNIT)
        column.addWidget(self._agreed)
        column.addStretch(1)
        column.addWidget(self._consent)
        column.addWidget(self.pad)
        below = QHBoxLayout()
        below.addWidget(self._who, 1)
        below.addWidget(self.clear_button)
        column.addLayout(below)
        return beside
