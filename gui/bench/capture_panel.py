"""The file recorded from a tape: name it, follow the reading, see what it holds, attach it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QFrame,
    QLineEdit,
    QProgressBar,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from core.capture.file_report import Report, Sound, clock
from core.model import regular_files
from core.model.errors import WrongInput
from gui.bench.file_timeline import FileTimeline
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import empty, give_key, labelled, stacked, words


class CapturePanel(QWidget):
    """Asks for the file, tells how far the reading is, and shows the report; does no reading itself."""

    wanted = Signal(object)
    """The `Path` to be read."""
    stop_wanted = Signal()
    attach_wanted = Signal(object)
    """The `Report` to be attached to the tape in hand."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.report: Report | None = None
        self.path = QLineEdit()
        self.path.setObjectName("capture-path")
        self.path.setPlaceholderText(say("capture", "path_hint"))
        self.choose = _button("capture-choose", say("capture", "choose"))
        self.bar = QProgressBar()
        self.bar.setObjectName("capture-progress")
        self.bar.setRange(0, 1000)
        self.bar.setTextVisible(False)
        self.progress = words("", "small")
        self.stop = _button("capture-stop", say("capture", "stop"))
        self.strip = FileTimeline()
        self.attach = _button("capture-attach", say("capture", "attach"), "main")
        self._dialog: QFileDialog | None = None
        self._build()
        self._connect()
        self.begin()

    @property
    def is_reading(self) -> bool:
        """Whether a file is being read."""
        return self.stop.isVisibleTo(self)

    @Slot()
    def begin(self) -> None:
        """Empty, for another tape."""
        self.report = None
        self.path.clear()
        self._show_reading(False)
        self._show_result(False)

    def show_start(self, path: Path) -> None:
        """A reading begins."""
        self.report = None
        self._name = path.name
        self._show_result(False)
        self._show_reading(True)
        self.show_progress(0.0)
        self.stop.setFocus()

    @Slot(float)
    def show_progress(self, share: float) -> None:
        """The share that is read, 0 to 1."""
        self.bar.setValue(round(1000 * share))
        self.progress.setText(say("capture", "reading", name=self._name, share=int(100 * share)))

    def show_end(self) -> None:
        """A reading ended without a report."""
        self._show_reading(False)
        self.path.setFocus()

    def show_report(self, report: Report) -> None:
        """What was found."""
        self.report = report
        self._show_reading(False)
        self.strip.show_report(report)
        empty(self._told)
        for line, role in told(report):
            self._told.addWidget(words(line, role))
        self._told.addStretch(1)
        self._show_result(True)
        self.attach.setFocus()

    @Slot()
    def read(self) -> None:
        """Ask for the file named in the field to be read."""
        name = self.path.text().strip().strip('"')
        if self.is_reading:
            return
        if not name:
            wrong = WrongInput(say("capture", "path"), name, say("capture", "name_it"))
            self.refused.emit(wrong)
            return
        self.wanted.emit(regular_files.expanded(name))

    @Slot()
    def ask_for_file(self) -> None:
        """Open the system's own window for choosing a file."""
        self._dialog = QFileDialog(self, say("capture", "choose_title"))
        self._dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        self._dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._dialog.fileSelected.connect(self.take_file)
        self._dialog.open()

    @Slot(str)
    def take_file(self, name: str) -> None:
        """A file was chosen: read it at once."""
        self.path.setText(name)
        self.read()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.is_reading:
            self.stop_wanted.emit()
            return
        super().keyPressEvent(event)

    def _build(self) -> None:
        self._name = ""
        column = stacked(self)
        column.addWidget(labelled(self.path, say("capture", "path")))
        column.addWidget(self.choose)
        column.addWidget(self.progress)
        column.addWidget(self.bar)
        column.addWidget(self.stop)
        column.addWidget(self._build_result(), 1)
        self._rest = QWidget()
        column.addWidget(self._rest, 1)

    def _build_result(self) -> QWidget:
        self._result, self._lines = QWidget(), QWidget()
        column: QVBoxLayout = stacked(self._result)
        self._told = stacked(self._lines, 4)
        column.addWidget(self.strip)
        column.addWidget(self.attach)
        column.addWidget(self._build_lines(), 1)
        return self._result

    def _build_lines(self) -> QWidget:
        """A bad tape has many stretches: they scroll, with the arrows once Tab has gone there."""
        area = QScrollArea()
        area.setObjectName("capture-lines")
        area.setWidget(self._lines)
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        area.setAccessibleName(say("capture", "stretches"))
        area.setMinimumHeight(16 * theme.UNIT)
        area.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Ignored)
        return area

    def _connect(self) -> None:
        self.path.returnPressed.connect(self.read)
        self.choose.clicked.connect(self.ask_for_file)
        self.stop.clicked.connect(self.stop_wanted)
        self.attach.clicked.connect(self._attach)
        give_key(self.choose, "Alt+O")

    @Slot()
    def _attach(self) -> None:
        if self.report is not None:
            self.attach_wanted.emit(self.report)

    def _show_reading(self, reading: bool) -> None:
        for shown in (self.bar, self.progress, self.stop):
            shown.setVisible(reading)
        for field in (self.path, self.choose):
            field.setEnabled(not reading)
        self.bar.setAccessibleName(say("capture", "reading", name=self._name, share=0))

    def _show_result(self, shown: bool) -> None:
        self._result.setVisible(shown)
        self._rest.setVisible(not shown)


def told(report: Report) -> list[tuple[str, str]]:
    """The report line by line with the role of each: remarks, then what is charged, then the stretches."""
    lines = [(remark, "attention") for remark in report.remarks]
    size = spelled_size(report.size_bytes)
    lines.append((say("capture", "facts", length=clock(report.seconds), size=size), ""))
    lines.append((say("capture", "bill", minutes=f"{report.billable_minutes:.1f}"), "time"))
    lines.append((_kept(report), ""))
    if report.sound is Sound.PRESENT:
        lines.append((say("capture", "sound_present"), ""))
    odd = [stretch.words for stretch in report.stretches] or [say("capture", "nothing_odd")]
    return [*lines, (say("capture", "stretches"), "field"), *((line, "") for line in odd)]


def spelled_size(size_bytes: int) -> str:
    """``4.69 GB``, ``480 MB``; decimal, as sticks and discs count."""
    if size_bytes >= 10**9:
        return say("capture", "gigabytes", n=f"{size_bytes / 1e9:.2f}")
    return say("capture", "megabytes", n=f"{size_bytes / 1e6:.0f}")


def _kept(report: Report) -> str:
    if not report.keep_to:
        return say("capture", "nothing_kept")
    if not report.is_trimmed:
        return say("capture", "keep_all")
    return say("capture", "keep", start=clock(report.keep_from), end=clock(report.keep_to))


def _button(name: str, text: str, role: str = "") -> QPushButton:
    button = QPushButton(text)
    button.setObjectName(name)
    button.setAccessibleName(text.split("   ")[0])
    if role:
        button.setProperty("role", role)
    return button
