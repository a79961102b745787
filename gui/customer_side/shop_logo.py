"""The shop's logo on the Customer side, hidden until there is one."""

from __future__ import annotations

import base64

from PySide6.QtCore import QByteArray, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QLabel

from gui.toolkit.text import say


class ShopLogo(QLabel):
    """As large as its room allows, in its own proportions."""

    def __init__(self) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setObjectName("customer-logo")
        self.setAccessibleName(say("customer", "logo"))
        self._text = ""
        self._image = QImage()
        self.hide()

    @property
    def has_one(self) -> bool:
        """Whether there is a picture."""
        return not self._image.isNull()

    def show_logo(self, text: str) -> None:
        """Show a picture given as base64; nothing where there is none, or none that can be read."""
        if text != self._text:
            self._text = text
            self._image = QImage.fromData(QByteArray(base64.b64decode(text))) if text else QImage()
        self.setVisible(self.has_one)

    def size_in(self, wide: float, high: float) -> QSize:
        """How large the picture is in a room of this size."""
        room = QSize(round(wide), round(high))
        return self._image.size().scaled(room, Qt.AspectRatioMode.KeepAspectRatio)

    def lay(self, rect: QRectF) -> None:
        """Give it its room, in which it lies as a whole."""
        self.setGeometry(rect.toRect())
        smooth = Qt.TransformationMode.SmoothTransformation
        self.setPixmap(
            QPixmap.fromImage(self._image.scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio, smooth))
        )
