"""What somebody agrees to, the place to sign, whose name it is, and a button that clears the ink."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt, Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from gui.customer_side.facing_page import inside
from gui.customer_side.page_scale import unit
from gui.customer_side.page_turner import TOUCH
from gui.customer_side.text_blocks import Paragraph, block
from gui.customer_side.text_rows import points
from gui.customer_side.text_sheet import TextSheet
from gui.toolkit import sizes, theme
from gui.toolkit.text import say
from gui.widgets.signature_pad import HIGH, WIDE, SignaturePad

_LARGEST = 1.6
"""Times the scale of the page: a larger pad is harder to sign on."""


class SignatureBox(QWidget):
    """A pen, a finger or the mouse is enough; nothing here ever takes the keyboard."""

    signed = Signal(object)
    """The strokes as they stand after each stroke; none after *Clear*."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("signature-box")
        self.consent = inside(self, TextSheet("signature-consent"))
        self.pad = inside(self, SignaturePad(takes_keyboard=False))
        self.pad.changed.connect(self._tell_ink)
        self.who = inside(self, TextSheet("signature-who"))
        self.clear_button = inside(self, QPushButton(say("pickup", "pad_clear")))
        self.clear_button.setObjectName("signing-clear")
        self.clear_button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.clear_button.setEnabled(False)
        self.clear_button.clicked.connect(self.pad.clear)

    def ask(self, consent: str, name: str) -> None:
        """Whose yes is asked for, to what."""
        self.consent.write((block(Paragraph(consent)),) if consent else ())
        words = say("customer", "sign_name", name=name) if name else ""
        self.who.write((block(Paragraph(words, sizes.SMALL, "muted")),) if words else ())

    def height_at(self, width: float, scale: float) -> float:
        """How high all of it is."""
        words = self.consent.natural_height(width, scale)
        foot = max(self._button_high(scale), self.who.natural_height(self._who_wide(width, scale), scale))
        return words + HIGH * self._pad_scale(width, scale) + foot + 2 * unit(scale)

    def lay(self, rect: QRectF, scale: float) -> None:
        """Give it its room on a page of this scale; the ink grows with the pad."""
        self.setGeometry(rect.toRect())
        width = float(self.width())
        words, size = self.consent.natural_height(width, scale), self._pad_scale(width, scale)
        self.consent.lay(QRectF(0, 0, width, words), scale)
        y = words + unit(scale)
        self.pad.resize_to(size)
        self.pad.move(0, round(y))
        y += self.pad.height() + unit(scale)
        high, wide = self._button_high(scale), 12 * unit(scale)
        self.clear_button.setFont(theme.font(points(sizes.SMALL, scale)))
        foot = min(y, self.height() - high)  # rounded pad and words may come out a pixel lower than the box
        self.clear_button.setGeometry(QRectF(self.pad.width() - wide, foot, wide, high).toAlignedRect())
        left = self._who_wide(width, scale)
        self.who.lay(QRectF(0, y, left, max(high, self.who.natural_height(left, scale))), scale)

    def _pad_scale(self, width: float, scale: float) -> float:
        return min(width / WIDE, _LARGEST * scale)

    def _who_wide(self, width: float, scale: float) -> float:
        return WIDE * self._pad_scale(width, scale) - 14 * unit(scale)

    def _button_high(self, scale: float) -> float:
        return max(float(TOUCH), 4.5 * unit(scale))

    @Slot()
    def _tell_ink(self) -> None:
        self.clear_button.setEnabled(not self.pad.is_empty)
        self.signed.emit(self.pad.strokes())
