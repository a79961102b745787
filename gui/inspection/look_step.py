"""One step of the look-over: what to do, in what light, and what can be found, each under its letter."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QCheckBox, QFrame, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from core.catalogue import condition, inspection
from core.catalogue.inspection import Change, LookStep
from core.model.errors import WrongInput
from core.model.names import AnyFinding, Finding, FormatName, Outcome
from core.model.spoken_names import spoken
from core.wording import typed_amounts
from gui.toolkit import theme
from gui.toolkit.text import minutes_range, say
from gui.widgets.caution_frame import caution_frame
from gui.widgets.layouts import empty, labelled, stacked, words

LETTERS: dict[AnyFinding, str] = {
    Finding.SNAPPED: "S",
    Finding.OFF_HUB: "O",
    Finding.CHEWED: "C",
    Finding.STRETCHED: "T",
    Finding.CREASED: "R",
    Finding.SCRATCHED: "H",
    Finding.EDGE_DAMAGE: "E",
    Finding.MOULD: "M",
    Finding.STICKY: "K",
    Finding.SHELL_BROKEN: "B",
    Finding.REEL_BROKEN: "L",
    Finding.LID_DAMAGED: "D",
    Finding.SOUND_MISSING: "N",
    Finding.CRUSHED: "U",
    Finding.COMMERCIAL_RECORDING: "P",
    Finding.TORN_PERFORATION: "F",
    Finding.SHRUNKEN: "I",
    Finding.VINEGAR: "V",
    Finding.NITRATE: "X",
    Finding.FADED: "A",
    Finding.DISC_SCRATCHED: "G",
}
"""The same letter in every step, so that the hand learns it."""


class StepPage(QWidget):
    """Shows one step at a time. Letters tick; the keys that go on belong to the look-over around it."""

    marked = Signal(object, bool)
    """A `Finding`, and whether it was seen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("look-step")
        self.rows: tuple[FindingRow, ...] = ()
        self.temperature = QLineEdit()
        self.temperature.setObjectName("tape-temperature")
        self.temperature.setPlaceholderText(say("inspection", "temperature_hint"))
        self._temperature_row = labelled(self.temperature, say("inspection", "temperature"))
        self.waiting = words("", "attention")
        self.waiting.setObjectName("waiting")
        self.temperature.textChanged.connect(self._foretell)
        self._column = stacked(self)
        self._text = QWidget()
        self._text_column = stacked(self._text)
        for part in (self._text, self._temperature_row, self.waiting):
            self._column.addWidget(part)
        self._finds = QWidget()
        self._finds_column = stacked(self._finds, 4)
        self._column.addWidget(self._finds)
        self.why, self._source = self._make_source()
        self._column.addStretch(1)

    def _make_source(self) -> tuple[QPushButton, QLabel]:
        """Where a step comes from, behind a key at the counter."""
        why, source = QPushButton(say("inspection", "why")), words("", "small")
        why.setObjectName("look-why")
        why.setCheckable(True)
        why.toggled.connect(source.setVisible)
        self._column.addWidget(why, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(source)
        return why, source

    def show_step(
        self, step: LookStep, name: FormatName, found: Iterable[AnyFinding], *, short: bool
    ) -> None:
        """Write the page of one step; ``found`` is ticked already.

        At the counter (``short``) the source stands behind *Why?*: a customer is there.
        """
        empty(self._text_column)
        for sentence in (step.ask,) if short and step.ask else step.how:
            self._text_column.addWidget(words(sentence, "lead" if short else ""))
        if step.light and not short:
            self._text_column.addWidget(words(say("inspection", "light", light=step.light), "small"))
        if step.cautions:
            self._text_column.addWidget(caution_frame(step.cautions))
        self._temperature_row.setVisible(step.key == inspection.COLD)
        self._foretell()
        self.waiting.setVisible(step.key == inspection.COLD)
        self._lay_findings(step, name, frozenset(found))
        self._source.setText(say("inspection", "source", source=step.source.words))
        self.why.setVisible(short)
        self.why.setChecked(False)
        self._source.setVisible(not short)

    def tick(self, letter: str) -> bool:
        """Turn the finding under this letter on or off; says whether there is one."""
        for row in self.rows:
            if row.letter.casefold() == letter.casefold():
                row.box.toggle()
                return True
        return False

    def degrees(self) -> float | None:
        """The temperature in °C, None when nothing was typed; WrongInput when it cannot be."""
        return celsius(self.temperature.text())

    @Slot()
    def _foretell(self) -> None:
        try:
            degrees = self.degrees()
        except WrongInput:
            self.waiting.setText("")
            return
        self.waiting.setText("" if degrees is None else inspection.waiting(degrees))

    def _lay_findings(self, step: LookStep, name: FormatName, found: frozenset[AnyFinding]) -> None:
        empty(self._finds_column)
        self.rows = tuple(
            FindingRow(inspection.change(finding, name), finding in found, step.stop)
            for finding in step.looks_for
        )
        if step.looks_for:
            self._finds_column.addWidget(words(say("inspection", "look_for"), "field"))
        elif step.key != inspection.COLD:
            self._finds_column.addWidget(words(say("inspection", "nothing_to_find"), "small"))
        for row in self.rows:
            row.marked.connect(self.marked)
            self._finds_column.addWidget(row)


class FindingRow(QFrame):
    """A finding that may be seen here; ticked, it says what it changes and what to tell the customer."""

    marked = Signal(object, bool)

    def __init__(self, change: Change, is_ticked: bool, stop: str) -> None:
        super().__init__()
        self.finding = change.finding
        self.letter = LETTERS[change.finding]
        name = spoken(change.finding)
        seen = condition.how_seen(change.finding)
        self.box = QCheckBox(f"{self.letter}   {name[:1].upper()}{name[1:]}")
        self.box.setObjectName(f"seen-{change.finding.value}")
        self.box.setAccessibleName(f"{name}: {seen}")
        self.box.setChecked(is_ticked)
        self._seen = words(seen, "small")
        self._more = words(told(change, stop))
        self._more.setProperty("ink", "attention")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 2)
        column.setSpacing(2)
        column.addWidget(self.box)
        for label in (self._seen, self._more):
            label.setIndent(3 * theme.UNIT)
            column.addWidget(label)
        self._more.setVisible(is_ticked)
        self.box.toggled.connect(self._toggled)

    @Slot(bool)
    def _toggled(self, is_ticked: bool) -> None:
        self._more.setVisible(is_ticked)
        self.marked.emit(self.finding, is_ticked)


def told(change: Change, stop: str = "") -> str:
    """What to do at once, what it changes, and the sentence for the customer."""
    customer = say("inspection", "say", means=change.means)
    return "\n".join(part for part in (stop, " ".join(changes(change)), customer) if part)


def changes(change: Change) -> tuple[str, ...]:
    """What a finding changes, most important first, in short sentences."""
    outcome = {
        Outcome.CANNOT: "change_cannot",
        Outcome.PARTLY: "change_partly",
        Outcome.REPAIR: "change_repair",
        Outcome.PLAYS: "change_plays",
    }[change.outcome]
    if change.hold is not None:
        outcome = f"change_{change.hold.value}"
    told = [say("inspection", "change_harms")] if change.harms else []
    if change.decides:
        told.append(say("inspection", outcome))
    if change.not_for_reuse:
        told.append(say("inspection", "change_reuse"))
    if change.repairs:
        told.append(say("inspection", "change_price", repairs=", ".join(change.repairs)))
        told.append(say("inspection", "change_date", minutes=minutes_range(change.bench_minutes)))
    return tuple(told)


def celsius(text: str) -> float | None:
    """``-5``, ``−5 °C`` or ``40 F`` in °C; None for nothing; WrongInput for what is no such temperature."""
    plain = text.strip().replace("−", "-").replace("°", "").casefold()
    if not plain:
        return None
    figure = plain.rstrip("cf ")
    size = typed_amounts.number_of(figure.removeprefix("-"))
    read = float("nan") if size is None else float(-size if figure.startswith("-") else size)
    degrees = (read - 32) / 1.8 if plain.endswith("f") else read
    if not -40 <= degrees <= 70:
        place = say("inspection", "temperature_place")
        raise WrongInput(place, text.strip(), say("inspection", "temperature_accepted"))
    return degrees
