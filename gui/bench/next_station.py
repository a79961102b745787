"""Where a tape goes next: the usual station under the main button, the others beside their keys."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.catalogue import condition, next_steps
from core.catalogue.next_steps import Around, NextStep
from core.model.deck_showing import NOTHING, Shown
from core.model.errors import WrongInput
from core.model.stations import Station, allowed_moves
from core.model.tape_records import TapeRecord
from core.playtime.deck_readings import found
from gui.bench.deck_readout import DeckReadout
from gui.bench.station_buttons import LeadingButton, StationButton
from gui.toolkit import theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import say
from gui.widgets.button_row import side_by_side
from gui.widgets.figure_field import FigureField
from gui.widgets.instant_buttons import InstantCheckBox
from gui.widgets.layouts import empty, give_key, labelled, stacked, words
from gui.widgets.named_buttons import name_for_tape

_LETTERS = {
    Station.LOOKED_OVER: "L",
    Station.AT_THE_BENCH: "B",
    Station.CLEARED_TO_PLAY: "C",
    Station.PLAYING: "P",
    Station.BEING_CHECKED: "H",
    Station.READY: "R",
    Station.ASKING_THE_CUSTOMER: "A",
    Station.KEPT_APART: "K",
    Station.CANNOT_BE_PLAYED: "N",
}


class NextStationForm(QWidget):
    """The way on from the station of the tape in hand."""

    wanted = Signal(object)
    """The `Station` to move to."""
    step_wanted = Signal(object)
    """What is next and is no move, a `Doing`."""
    seen = Signal(object)
    """What the deck shows of the tape that still plays, a `Shown`."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.minutes = FigureField("played-minutes", say("bench", "minutes_place"))
        self.minutes.returnPressed.connect(self.go_on)
        self.note = QLineEdit()
        self.note.setObjectName("note")
        self.tell = InstantCheckBox(say("bench", "note_tell"))
        self.tell.setToolTip(tip(say("bench", "note_tell_hint")))
        self.tell.setObjectName("note-is-told")
        self.deck = QComboBox()
        self.deck.setObjectName("deck")
        self.instead = QLineEdit()
        self.instead.setObjectName("instead-of-splice")
        self._minutes_row = labelled(self.minutes, say("bench", "played_minutes"))
        self.readout = DeckReadout()
        self._readout_before = self.readout.shown
        self._shown_words = words(say("bench", "shown"), "small")
        self.seen_button = self._build_seen_button()
        self._tape: TapeRecord | None = None
        self._around: Around | None = None
        self._usual = LeadingButton()
        self._deck_row = labelled(self.deck, say("bench", "deck"))
        self._instead_row = labelled(self.instead, say("bench", "no_splice"))
        self._lay_out()
        self.aside = self._build_aside()

    def _lay_out(self) -> None:
        self._usual.picked.connect(self._want_step)
        column = stacked(self)
        first = QHBoxLayout()
        first.addWidget(self._minutes_row, 1)
        first.addWidget(self.seen_button, 0, Qt.AlignmentFlag.AlignBottom)
        column.addLayout(first)
        for widget in (self._shown_words, self.readout, self._deck_row, self._usual):
            column.addWidget(widget)
        self.setTabOrder(self.deck, self.seen_button)  # minutes, then what the deck showed, without a stop

    def _build_seen_button(self) -> QPushButton:
        """What the deck shows may be told while the tape still plays."""
        button = QPushButton(say("agreeing", "seen_button"))
        button.setObjectName("shows-now")
        button.setProperty("role", "action")
        give_key(button, "Ctrl+W")
        button.clicked.connect(self._tell_seen)
        return button

    def _build_aside(self) -> QWidget:
        """The other ways, and the note; stands elsewhere than the usual way."""
        aside, others = QWidget(), QWidget()
        column = stacked(aside)
        self._others_words = words(say("bench", "move_other"), "field")
        self._others = stacked(others, 2)
        column.addWidget(self._others_words)
        column.addWidget(others)
        column.addWidget(self._instead_row)
        column.addLayout(side_by_side(labelled(self.note, say("bench", "note")), self.tell))
        column.addStretch(1)
        return aside

    def offer(self, tape: TapeRecord, decks: Sequence[str], around: Around) -> None:
        """Show the ways on from where this tape is; ``decks`` are free and could play it."""
        for field in (self.minutes, self.note, self.instead):
            field.clear()
        self.tell.setChecked(False)
        self._offer_decks(tape, decks)
        missing = condition.must_be_spliced(tape.findings) and not tape.splices
        self._instead_row.setVisible(missing and tape.station is Station.AT_THE_BENCH)
        self._offer_readout(tape)
        if self._around is not None and self._tape is not None and self._tape.code == tape.code:
            around = replace(around, files=self._around.files, is_over=self._around.is_over)
        self._tape, self._around = tape, around
        self._lead()

    def know(self, *, files: int | None = None, is_over: bool | None = None) -> None:
        """What was asked of the records about the tape in hand besides; None: nothing new of it."""
        if self._around is None:
            return
        known = self._around
        files, is_over = (
            known.files if files is None else files,
            known.is_over if is_over is None else is_over,
        )
        self._around = replace(known, files=files, is_over=is_over)
        if self._around != known:
            self._lead()

    def _lead(self) -> None:
        """The next right step leads; every other station the tape may go to stands aside."""
        tape, around = self._tape, self._around
        assert tape is not None
        assert around is not None
        step = next_steps.next_step(tape, around)
        self._usual.setVisible(step is not None)
        if step is not None:
            self._usual.lead_to(step, _key_of(step.station) if step.station is not None else "")
        gone = tape.is_settled or tape.left_out_in is not None
        moves = () if gone else allowed_moves(tape.station)
        self._offer_others([each for each in moves if step is None or each is not step.station], step)
        for part in (self, self.aside):
            name_for_tape(part, tape.code)

    def _offer_others(self, stations: Sequence[Station], step: NextStep | None) -> None:
        self._others_words.setVisible(bool(stations))
        self._others_words.setText(say("bench", "move_other" if step is not None else "move_where"))
        empty(self._others)
        for station in stations:
            button = StationButton()
            button.lead_to(station, _key_of(station))
            button.picked.connect(self._want)
            self._others.addWidget(button)

    @property
    def is_begun(self) -> bool:
        """Whether something was typed or chosen about the tape since it was offered."""
        fields = (self.minutes, self.note, self.instead)
        is_told = self.tell.isChecked() or self.readout.shown != self._readout_before
        return is_told or any(field.text() for field in fields)

    def _offer_readout(self, tape: TapeRecord) -> None:
        """Minutes and what the deck showed are asked of a tape that plays."""
        self.readout.begin(tape.draft if tape.shown is None else found(tape.draft, tape.shown))
        self._readout_before = self.readout.shown
        is_playing = tape.station is Station.PLAYING
        for widget in (self._minutes_row, self.readout):
            widget.setVisible(is_playing)
        for told in (self._shown_words, self.seen_button):
            told.setVisible(is_playing and self.readout.offers_any)

    def _offer_decks(self, tape: TapeRecord, decks: Sequence[str]) -> None:
        self.deck.clear()
        self.deck.addItem(say("bench", "deck_not_named"), None)
        for name in decks:
            self.deck.addItem(name, name)
        self._deck_row.setVisible(tape.station is Station.CLEARED_TO_PLAY and bool(decks))

    def deck_for(self, station: Station) -> str | None:
        """The deck chosen for a tape that starts playing."""
        chosen: str | None = self.deck.currentData()
        return chosen if station is Station.PLAYING else None

    @property
    def instead_of_splice(self) -> str | None:
        """What was done where a splice was to be expected."""
        said = self.instead.text().strip()
        return said if said and self._instead_row.isVisibleTo(self.aside) else None

    def played_minutes(self) -> float | None:
        """Minutes typed, when the tape comes from playing; WrongInput when they are no figure."""
        return self.minutes.figure() if self._minutes_row.isVisibleTo(self) else None

    def shown(self) -> Shown:
        """What the deck showed, when the tape comes from playing."""
        return self.readout.shown if self.readout.isVisibleTo(self) else NOTHING

    def step_back(self, is_back: bool) -> None:
        """Let a form lead that stands below; the way on stays, its key too, without the weight."""
        theme.set_style_property(self._usual, "role", "plain" if is_back else "main")

    @Slot()
    def go_on(self) -> None:
        """Take the usual way."""
        if self._usual.isVisibleTo(self):
            self._usual.click()

    @Slot()
    def _tell_seen(self) -> None:
        self.seen.emit(self.shown())

    @Slot(object)
    def _want_step(self, step: NextStep) -> None:
        if step.station is not None:
            self._want(step.station)
        else:
            self.step_wanted.emit(step.doing)

    @Slot(object)
    def _want(self, station: Station) -> None:
        try:
            self.played_minutes()
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        self.wanted.emit(station)


def _key_of(station: Station) -> str:
    return f"Alt+{_LETTERS[station]}"
