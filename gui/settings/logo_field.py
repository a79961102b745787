"""The shop's picture: chosen from a file, made small enough for every paper, shown, and taken away."""

from __future__ import annotations

import base64
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, Qt, Signal, Slot
from PySide6.QtGui import QColor, QImage, QImageReader, QPainter, QPixmap
from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from core.model import regular_files
from core.model.errors import WrongInput
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import stacked, words

MOST_PIXELS = 600
MOST_BYTES = 300_000
_FORMATS = (b"png", b"jpeg", b"jpg")
_PREVIEW_HIGH = theme.Length(9)
_QUALITIES = (92, 85, 75, 60, 40)


class LogoField(QWidget):
    """The picture as it stands, with buttons to choose another and to take it away."""

    chosen = Signal()
    """Another picture, or none."""
    refused = Signal(object)
    """A `WrongInput`: the file is no picture that papers can show."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("front-logo")
        self._text = ""
        self._shown = plain_label()
        self._shown.setObjectName("front-logo-shown")
        self._none = words(say("settings", "front-logo-none"), "small")
        self.choose = QPushButton(say("settings", "front-logo-choose"))
        self.choose.setObjectName("front-logo-choose")
        self.remove = QPushButton(say("settings", "front-logo-remove"))
        self.remove.setObjectName("front-logo-remove")
        self.choose.clicked.connect(self._ask)
        self.remove.clicked.connect(self._take_away)
        column = stacked(self)
        column.addWidget(self._shown)
        column.addWidget(self._none)
        column.addWidget(ButtonRow([self.choose, self.remove]))
        self.setFocusProxy(self.choose)
        self.show_text("")

    @property
    def text(self) -> str:
        """The picture in base64, or nothing."""
        return self._text

    def show_text(self, text: str) -> None:
        """Show a picture that is kept."""
        self._text = text
        image = QImage.fromData(QByteArray(base64.b64decode(text))) if text else QImage()
        has_one = not image.isNull()
        self._shown.setVisible(has_one)
        self._none.setVisible(not has_one)
        self.remove.setVisible(has_one)
        if has_one:
            high = min(_PREVIEW_HIGH.px, image.height())
            scaled = image.scaledToHeight(high, Qt.TransformationMode.SmoothTransformation)
            self._shown.setPixmap(QPixmap.fromImage(scaled))
            self._shown.setAccessibleName(
                say("settings", "front-logo-shown", wide=image.width(), high=image.height())
            )

    def take(self, path: str) -> None:
        """Take the picture of a file; `refused` when it is none."""
        try:
            self.show_text(encoded(Path(path)))
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        self.chosen.emit()

    @Slot()
    def _ask(self) -> None:
        dialog = QFileDialog(self, say("settings", "front-logo-choose"))
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setNameFilter(say("settings", "front-logo-files"))
        dialog.fileSelected.connect(self.take)
        dialog.open()

    @Slot()
    def _take_away(self) -> None:
        self.choose.setFocus()
        self.show_text("")
        self.chosen.emit()


def encoded(path: Path) -> str:
    """A PNG or JPEG file in base64, at most `MOST_PIXELS` on its longer side and `MOST_BYTES` large.

    The same file gives the same text. WrongInput when it cannot be read as such a picture.
    """
    regular_files.check(path, say("settings", "front-logo"), say("settings", "front-logo-accepted"))
    reader = QImageReader(str(path))
    reader.setDecideFormatFromContent(True)
    reader.setAutoTransform(True)  # a camera says in the file which way is up
    image = reader.read() if reader.canRead() and reader.format().data() in _FORMATS else QImage()
    if image.isNull():
        raise WrongInput(say("settings", "front-logo"), path.name, say("settings", "front-logo-accepted"))
    return base64.b64encode(_small(image)).decode("ascii")


def _small(image: QImage) -> bytes:
    """As PNG where that is small enough, else as JPEG on white, the best quality that is."""
    if max(image.width(), image.height()) > MOST_PIXELS:
        image = image.scaled(
            MOST_PIXELS,
            MOST_PIXELS,
            Qt.AspectRatioMode.KeepAspectRatio,
            Qt.TransformationMode.SmoothTransformation,
        )
    found = _saved(image, "PNG", -1)
    for quality in _QUALITIES:
        if len(found) <= MOST_BYTES:
            break
        found = _saved(_on_white(image), "JPEG", quality)
    return found


def _saved(image: QImage, kind: str, quality: int) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, kind, quality)  # type: ignore[call-overload]  # the stubs want bytes, Qt a str
    return bytes(buffer.data().data())


def _on_white(image: QImage) -> QImage:
    paper = QImage(image.size(), QImage.Format.Format_RGB32)
    paper.fill(QColor("white"))
    painter = QPainter(paper)
    painter.drawImage(0, 0, image)
    painter.end()
    return paper
