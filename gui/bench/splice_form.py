"""Recording a joint: where, how much was cut away, how it was joined, and what that costs in seconds."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QComboBox, QLabel, QPushButton, QWidget

from core.model.deck_showing import NOTHING
from core.model.errors import TapewrightError, WrongInput
from core.model.names import Join, Look, Measure, Section
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from core.playtime import cuts, length_doubts, places
from core.playtime.places import Place
from core.wording import typed_amounts
from gui.bench.repair_sentences import lost, other_figure
from gui.toolkit.text import say
from gui.widgets.figure_field import FigureField
from gui.widgets.instant_buttons import InstantCheckBox
from gui.widgets.layouts import give_key, labelled, stacked, words


@dataclass(frozen=True, slots=True)
class SpliceEntry:
    """What the form holds when it is complete; the place is given in one of the two measures."""

    at: float
    measure: Measure
    cut_cm: float
    joined_with: Join
    section: Section | None
    """None: judged by its place."""
    redone: bool | None = None
    """Made again at the shop's own cost; None: judged by the last look."""

    @property
    def place(self) -> dict[str, float]:
        """The place as the step of a splice takes it."""
        return {"at_minutes" if self.measure is Measure.MINUTES else "at_metres": self.at}


class SpliceForm(QWidget):
    """A few fields and the answer of the geometry, before anything is kept."""

    recorded = Signal(object)
    """A `SpliceEntry` to be kept."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tape: TapeRecord | None = None
        self.measure = Measure.MINUTES
        self.at = FigureField("splice-at", say("repair", "at_minutes"))
        self.cut = FigureField("splice-cut", say("bench", "cut_cm"))
        self.switch = QPushButton()
        self.switch.setObjectName("splice-measure")
        self.switch.setProperty("role", "quiet")
        give_key(self.switch, "Alt+M")
        self.joined = _joins()
        self.section = _sections()
        self.redone = _redone_box()
        self.preview = words("", "time")
        self.preview.setObjectName("splice-preview")
        self.doubt = words("", "attention")
        self.doubt.setObjectName("splice-doubt")
        self._advice = words(say("bench", "adhesive_advice"), "attention")
        self._save = QPushButton(say("bench", "splice_save"))
        self._save.setObjectName("splice-save")
        self._save.setProperty("role", "main")
        self._lay_out()
        self._connect()
        self._name_measure()

    def begin(self, tape: TapeRecord) -> None:
        """Empty the form for a tape; the measure used last stays."""
        self._tape = tape
        self.at.clear()
        self.cut.clear()
        self.joined.setCurrentIndex(0)
        self.section.setCurrentIndex(0)
        self.redone.setVisible(bool(tape.splices))
        self.redone.setChecked(self._looked_bad)
        self._preview()

    @property
    def _looked_bad(self) -> bool:
        """Whether the last look at the splice in hand said that it has to be made again."""
        after = self._tape.after_repair if self._tape is not None and self._tape.splices else None
        return after is not None and after.look is Look.AGAIN

    @Slot()
    def record(self) -> None:
        """Hand over what the form holds, or say what is missing."""
        try:
            at, cm = self.at.figure_needed(), self.cut.figure_needed()
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        joined, section = self.joined.currentData(), self.section.currentData()
        told = self.redone.isChecked()
        redone = None if told is self._looked_bad else told
        self.recorded.emit(SpliceEntry(at, self.measure, cm, joined, section, redone))

    @Slot()
    def turn_measure(self) -> None:
        """Read the place in the other measure; what was typed stays the same place."""
        there = self._place()
        self.measure = Measure.METRES if self.measure is Measure.MINUTES else Measure.MINUTES
        if there is not None:
            figure = there.metres if self.measure is Measure.METRES else there.minutes
            self.at.show_figure(figure.likely, ".4g")
        self._name_measure()
        self.at.setFocus()
        self.at.selectAll()

    def _name_measure(self) -> None:
        metres = self.measure is Measure.METRES
        words = say("repair", "at_metres" if metres else "at_minutes")
        self._at_label.setText(words)
        self.at.setAccessibleName(words)
        self.at.name_place(words)
        self.switch.setText(say("repair", "use_minutes" if metres else "use_metres"))
        self._preview()

    @Slot()
    def _preview(self) -> None:
        self._advice.setVisible(self.joined.currentData() is Join.ADHESIVE)
        self.preview.setText(self._foretold())
        self.doubt.setText(self._doubted())
        self.doubt.setVisible(bool(self.doubt.text()))

    def _foretold(self) -> str:
        there, cm = self._place(), _typed(self.cut)
        if self._tape is None or there is None or cm is None:
            return say("repair", "preview_wait")
        try:
            joined, said = self.joined.currentData(), self.section.currentData()
            section = places.section(self._tape.draft, there, joined, said)
            cost = cuts.joint(self._tape.draft, cm, section)
        except TapewrightError as wrong:
            return wrong.sentence
        if section is Section.LEADER:
            return say("repair", "preview_leader")
        removed = lost(cost.seconds_removed, cost.removed)
        disturbed = lost(cost.seconds_disturbed, cost.disturbed)
        other = other_figure(there)
        key = "preview_programme" if cost.is_disturbed_known else "preview_unknown"
        return say("repair", key, other=other, removed=removed, disturbed=disturbed)

    def _doubted(self) -> str:
        """That the place lies beyond what is known of the tape; nothing where it does not."""
        there = self._place()
        if self._tape is None or there is None:
            return ""
        if there.measured is Measure.METRES:
            found = length_doubts.of_metres(self._tape.draft, there.metres.likely)
        else:
            found = length_doubts.of_minutes(
                self._tape.draft, there.minutes.likely, self._tape.shown or NOTHING
            )
        return found.words if found else ""

    def _place(self) -> Place | None:
        """The place typed so far, when there is such a place on the tape."""
        figure = _typed(self.at)
        if self._tape is None or figure is None:
            return None
        find = places.after_minutes if self.measure is Measure.MINUTES else places.after_metres
        try:
            return find(self._tape.draft, figure)
        except TapewrightError:
            return None

    def _lay_out(self) -> None:
        column = stacked(self)
        row = labelled(self.at, say("repair", "at_minutes"))
        label = row.findChild(QLabel)
        assert label is not None
        self._at_label: QLabel = label
        column.addWidget(row)
        column.addWidget(self.switch)
        column.addWidget(labelled(self.cut, say("bench", "cut_cm")))
        column.addWidget(labelled(self.joined, say("bench", "joined_with")))
        column.addWidget(labelled(self.section, say("repair", "section")))
        column.addWidget(self.redone)
        column.addWidget(self._advice)
        column.addWidget(self.doubt)
        column.addWidget(self.preview)
        column.addWidget(self._save)
        column.addStretch(1)

    def _connect(self) -> None:
        self.at.textChanged.connect(self._preview)
        self.cut.textChanged.connect(self._preview)
        self.joined.currentIndexChanged.connect(self._preview)
        self.section.currentIndexChanged.connect(self._preview)
        self.switch.clicked.connect(self.turn_measure)
        self.at.returnPressed.connect(self.cut.setFocus)
        self.cut.returnPressed.connect(self.record)
        self._save.clicked.connect(self.record)


def _joins() -> QComboBox:
    box = QComboBox()
    box.setObjectName("splice-joined")
    for join in Join:
        box.addItem(spoken(join), join)
    return box


def _redone_box() -> InstantCheckBox:
    box = InstantCheckBox(say("repair", "redone"))
    box.setObjectName("splice-redone")
    return box


def _sections() -> QComboBox:
    box = QComboBox()
    box.setObjectName("splice-section")
    box.addItem(say("repair", "section_judged"), None)
    for section in Section:
        box.addItem(say("repair", f"section_{section.value}"), section)
    return box


def _typed(field: FigureField) -> float | None:
    value = typed_amounts.number_of(field.text())
    return None if value is None else float(value)
