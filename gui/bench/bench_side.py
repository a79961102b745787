"""The right hand of the bench: move on, add a finding, record a splice, say that the label is on."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from core.capture.check_records import TapeCheck
from core.capture.file_report import CapturedFile
from core.catalogue.next_steps import Around
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from gui.bench.after_repair import AfterRepairPanel
from gui.bench.capture_panel import CapturePanel
from gui.bench.disposition_form import DispositionForm
from gui.bench.entry_withdrawal import WithdrawalForm
from gui.bench.file_check_panel import FileCheckPanel
from gui.bench.incident_form import IncidentForm
from gui.bench.next_station import NextStationForm
from gui.bench.repair_form import RepairForm
from gui.bench.splice_form import SpliceForm
from gui.bench.tool_shelf import ToolShelf
from gui.toolkit.text import say
from gui.widgets.finding_field import FindingChooser
from gui.widgets.form_button import FormButton
from gui.widgets.layouts import Pages, stacked, words

_LABEL_WORDS = {False: ("bench", "label_button"), True: ("repair", "label_off")}
"""What the key of the label says, while the label is missing and while it no longer belongs there."""


class BenchSide(QWidget):
    """Rests on the ways on; a key turns it to findings or to a splice, Esc turns it back."""

    found = Signal(object)
    spliced = Signal(object)
    labelled = Signal()
    wants_label = Signal()
    """The not-for-reuse mark is to be printed."""
    taken_back = Signal(object)
    look_wanted = Signal()
    """The guided look-over of the tape in hand."""
    packs_wanted = Signal()
    """Its packs are to be read through the window."""
    check_wanted = Signal()
    """What was found in its files is to be shown."""
    rested = Signal()
    """Turned back: the keyboard belongs to the box again."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tape: TapeRecord | None = None
        self._files: tuple[CapturedFile, ...] = ()
        self.moves = NextStationForm()
        self.findings = FindingChooser()
        self.splice = SpliceForm()
        self.repair = RepairForm()
        self.after = AfterRepairPanel()
        self.take_back = WithdrawalForm()
        self.became = DispositionForm()
        self.incident = IncidentForm()
        self.file = CapturePanel()
        self.check = FileCheckPanel()
        self._pages = Pages(
            *(self.moves.aside, self.findings, self.splice, self.repair, self.take_back),
            *(self.file, self.check, self.became, self.incident),
        )
        self._build_buttons()
        self._back = words(say("bench", "back_to_box"), "small")
        self._lay_out()
        self._connect()
        self.setEnabled(False)
        self.hide()

    def offer(self, tape: TapeRecord, decks: Sequence[str], around: Around) -> None:
        """Everything that can be done to this tape now; ``decks`` are free and could play it."""
        if self._tape is None or self._tape.code != tape.code:
            self._files = ()
            self.tools.put_away()
        self._tape = tape
        self.setProperty("code", str(tape.code))
        self.setEnabled(True)
        self.show()
        self.moves.offer(tape, decks, around)
        self.print_button.setVisible(tape.not_for_reuse)
        self.after.offer(tape)
        self._offer_taking_back(tape)
        self.file_button.setVisible(tape.station.may_have_files)
        self.label_button.setText(say(*_LABEL_WORDS[tape.label_astray]))
        is_missing = tape.not_for_reuse and tape.marked_at is None
        self.label_button.setVisible(is_missing or tape.label_astray)
        self.tools.arrange(tape)

    def know_files(self, files: tuple[CapturedFile, ...]) -> None:
        """The files recorded from the tape in hand, oldest first."""
        self._files = files
        self.moves.know(files=len(files))
        if self._tape is not None:
            self._offer_taking_back(self._tape)
            self.tools.arrange(self._tape)

    def _offer_taking_back(self, tape: TapeRecord) -> None:
        is_there = tape.station in (Station.BEING_CHECKED, Station.READY)
        self.check_button.setVisible(bool(self._files) and is_there and not tape.is_settled)
        entries = tape.findings or tape.splices or tape.tried or self._files
        self.back_button.setVisible(bool(entries) or tape.is_settled)
        has_incident = tape.disposition is not None and tape.disposition.needs_incident
        self.became_button.setVisible(has_incident or not tape.is_settled)

    @Slot()
    def rest(self) -> None:
        """Turn back to the ways on."""
        self._turn(self.moves.aside)

    @Slot()
    def begin_finding(self) -> None:
        """Turn to the list of findings."""
        if self._tape is not None:
            self.findings.begin(frozenset(self._tape.findings), self._tape.format)
            self._turn(self.findings)
            self.findings.field.setFocus()

    @Slot()
    def begin_splice(self) -> None:
        """Turn to the form of a splice."""
        if self._tape is not None:
            self.splice.begin(self._tape)
            self._turn(self.splice)
            self.splice.at.setFocus()

    @Slot()
    def begin_repair(self) -> None:
        """Turn to what was done besides a splice."""
        if self._tape is not None:
            self.repair.begin(self._tape)
            self._turn(self.repair)
            self.repair.field.setFocus()

    @Slot()
    def begin_take_back(self) -> None:
        """Turn to what can be taken back."""
        if self._tape is not None:
            self.take_back.begin(self._tape, self._files)
            self._turn(self.take_back)
            self.take_back.reason.setFocus()

    @Slot()
    def begin_settling(self) -> None:
        """Turn to what became of the tape; to what is written down, where it was lost or damaged."""
        if self._tape is None:
            return
        if self._tape.is_settled:
            self.incident.begin()
            self._turn(self.incident)
            self.incident.field.setFocus()
        else:
            self.became.begin(self._tape)
            self._turn(self.became)
            self.became.field.setFocus()

    @Slot()
    def begin_file(self) -> None:
        """Turn to the file recorded from the tape."""
        if self._tape is not None:
            self._turn(self.file)
            self.file.path.setFocus()

    def show_check(self, found: TapeCheck, name: str) -> None:
        """Turn to what was found in the files, to be signed off by ``name``."""
        self._turn(self.check)
        self.check.begin(found, name)

    @property
    def form_on_show(self) -> QWidget | None:
        """The form that is open, or None."""
        return None if self._pages.on_show is self.moves.aside else self._pages.on_show

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.form_on_show is not None:
            self.rest()
            self.rested.emit()
            return
        super().keyPressEvent(event)

    def _turn(self, page: QWidget) -> None:
        """Show a page; a form has the room of the buttons, whose keys go on working."""
        is_form = page is not self.moves.aside
        self._pages.turn(page)
        self.moves.step_back(is_form)
        self._buttons.setVisible(not is_form)
        self._back.setVisible(is_form)

    def _build_buttons(self) -> None:
        self._buttons = QWidget()
        self.look_button = FormButton(self, "look-over-tape", say("inspection", "button"), "Ctrl+L")
        self.packs_button = FormButton(self, "measure-packs", say("packs", "button"), "Ctrl+M")
        self.find_button = FormButton(self, "find", say("bench", "finding_button"), "F6")
        self.splice_button = FormButton(self, "splice", say("bench", "splice_button"), "F7")
        self.repair_button = FormButton(self, "what-was-done", say("repair", "button"), "Ctrl+R")
        self.label_button = FormButton(self, "label-is-on", say("bench", "label_button"), "F8")
        self.print_button = FormButton(self, "print-label", say("bench", "print_button"), "F12")
        self.back_button = FormButton(self, "take-back", say("bench", "back_button"), "F10")
        self.file_button = FormButton(self, "read-file", say("capture", "button"), "Ctrl+O")
        self.check_button = FormButton(self, "check-copy", say("checking", "button"), "Ctrl+B")
        self.became_button = FormButton(self, "what-became", say("bench", "became_button"), "Ctrl+T")
        self.tools = ToolShelf(
            [
                *(self.look_button, self.packs_button, self.find_button, self.splice_button),
                *(self.repair_button, self.file_button, self.check_button, self.print_button),
                *(self.label_button, self.became_button, self.back_button),
            ]
        )

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(self.moves)
        inside = stacked(self._buttons)
        inside.addWidget(self.after)
        inside.addWidget(self.tools)
        column.addWidget(self._buttons)
        column.addWidget(self._pages, 1)
        column.addWidget(self._back)
        self._back.hide()
        self._turn(self.moves.aside)

    def _connect(self) -> None:
        self.file_button.clicked.connect(self.begin_file)
        self.became_button.clicked.connect(self.begin_settling)
        self.became.refused.connect(self.refused)
        self.incident.refused.connect(self.refused)
        self.file.refused.connect(self.refused)
        self.check_button.clicked.connect(self.check_wanted)
        self.check.refused.connect(self.refused)
        self.look_button.clicked.connect(self.look_wanted)
        self.packs_button.clicked.connect(self.packs_wanted)
        self.find_button.clicked.connect(self.begin_finding)
        self.splice_button.clicked.connect(self.begin_splice)
        self.repair_button.clicked.connect(self.begin_repair)
        self.repair.refused.connect(self.refused)
        self.label_button.clicked.connect(self.labelled)
        self.print_button.clicked.connect(self.wants_label)
        self.back_button.clicked.connect(self.begin_take_back)
        self.take_back.wanted.connect(self.taken_back)
        self.take_back.refused.connect(self.refused)
        self.findings.chosen.connect(self.found)
        self.splice.recorded.connect(self.spliced)
        self.splice.refused.connect(self.refused)
        self.moves.refused.connect(self.refused)
