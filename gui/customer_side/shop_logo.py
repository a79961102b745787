"""The shop's logo on the Customer side, hidden until there is one."""

from __future__ import annotations

import base64

from PySide6.QtCore import QByteArray, QSize, Qt
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QLabel

from gui.toolkit import theme
from gui.toolkit.text import say

_WIDE, _HIGH = 40 * theme.UNIT, 12 * theme.UNIT


class ShopLogo(QLabel):
    """As large as its room allows, in its own proportions."""

    def __init__(self) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setObjectName("customer-logo")
        self.setAccessibleName(say("customer", "logo"))
        self.hide()

    def show_logo(self, text: str) -> None:
        """Show a picture given as base64; nothing where there is none, or none that can be read."""
        image = QImage.fromData(QByteArray(base64.b64decode(text))) if text else QImage()
        self.setVisible(not image.isNull())
        if not image.isNull():
            kept, smooth = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
            self.setPixmap(QPixmap.fromImage(image.scaled(QSize(_WIDE, _HIGH), kept, smooth)))
