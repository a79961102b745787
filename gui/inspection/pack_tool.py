"""Reading packs through the window: two radii become minutes run, minutes to go, and what that may mean."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QSize, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import Refused, TapewrightError, WrongInput
from core.model.inventory import TapeLine
from core.model.names import TvSystem
from core.playtime import pack_reading, packs
from core.playtime.pack_reading import PackMeasurement, WoundTo
from core.wording.locale_figures import percent
from gui.inspection.pack_answer import PackAnswer
from gui.inspection.pack_drawing import RUN, TO_COME
from gui.inspection.pack_measures import PackMeasures
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.fitted_dialog import FittedDialog, dialog_button
from gui.widgets.layouts import Columns, give_key, scrolled, words


@dataclass(frozen=True, slots=True)
class PackRadii:
    """What was read, ready to be kept."""

    to_come_mm: float | None
    run_mm: float | None
    marking: str | None


class PackTool(FittedDialog):
    """Two fields, a drawing to scale, and the answer on a slip. Ctrl+Return takes it over."""

    fill_taken = Signal(object)
    """`core.playtime.pack_reading.Recorded`, to be taken over into the line."""
    kept = Signal(object)
    """`PackRadii`, to be kept in the history of the tape."""

    def __init__(self, parent: QWidget, *, takes_fill: bool) -> None:
        super().__init__(parent)
        self.setObjectName("pack-tool")
        self._takes_fill = takes_fill
        self._line: TapeLine | None = None
        self._tv: TvSystem | None = None
        self._key = ""
        self.reading: PackMeasurement | None = None
        self._measures = PackMeasures()
        self.fields, self.marking = self._measures.fields, self._measures.marking
        self.drawing = self._measures.drawing
        self._answer = PackAnswer()
        self._build_buttons()
        self._lay_out()
        self._measures.changed.connect(self._read)

    def begin(self, key: str, title: str, line: TapeLine, tv: TvSystem | None) -> None:
        """Open for one cassette; what was read of it before Esc is still there."""
        is_same = key == self._key and self._line is not None and self._line.format == line.format
        self._line, self._tv, self._key = line, tv, key
        heading = say("packs", "heading", title=title)
        self._heading.setText(heading)
        self.setWindowTitle(heading)
        self._measures.offer_markings(line)
        if not is_same:
            self._measures.clear()
        self._read()
        self.open()
        can_be_read = self._measures.isVisibleTo(self)
        (self.fields[TO_COME] if can_be_read else self.close_button).setFocus()

    @property
    def radii(self) -> PackRadii:
        """What stands in the fields; WrongInput for what is no figure."""
        left, right = (field.figure() for field in self.fields)
        return PackRadii(left, right, self.marking.currentData())

    # --- reading -------------------------------------------------------------------------

    @Slot()
    def _read(self) -> None:
        line, self.reading = self._line, None
        assert line is not None
        try:
            reels = packs.reels(line.format, self.marking.currentData())
        except Refused as refusal:
            self._show_refusal(refusal)
            return
        self._measures.show()
        self._measures.say_how_held(line.format)
        radii = self._measures.radii_so_far
        try:
            self.reading = self._reading_of(line, radii)
        except TapewrightError as failure:
            nothing = radii == (None, None)
            self._wait(say("packs", "wait") if nothing else failure.sentence, is_wrong=not nothing)
            self.drawing.show_packs(reels, (_within(reels, radii[0]), _within(reels, radii[1])))
            return
        self._show_reading(self.reading, line)

    def _reading_of(self, line: TapeLine, radii: tuple[float | None, float | None]) -> PackMeasurement:
        return pack_reading.read(
            line.format,
            self.marking.currentData(),
            to_come_mm=radii[TO_COME],
            run_mm=radii[RUN],
            speed=line.speed,
            tv=line.tv or self._tv,
        )

    def _show_reading(self, found: PackMeasurement, line: TapeLine) -> None:
        both = (found.to_come, found.run)
        left, right = ((reel.radius_mm if reel.was_read else None) for reel in both)
        self.drawing.show_packs(found.reels, (left, right), (both[0].radius_mm, both[1].radius_mm))
        self._answer.show_reading(found, line)
        self._offer(found)

    def _offer(self, found: PackMeasurement) -> None:
        """What can be taken over now, with its figure on the button."""
        if not self._takes_fill:
            self.main.setText(say("packs", "keep"))
            self.main.show()
            return
        share = percent(found.share_run.likely)
        self.main.setText(say("packs", "take_least", share=share))
        self.here.setText(say("packs", "take_here", share=share))
        self.main.setVisible(found.place is WoundTo.ON_THE_WAY)
        self.here.setVisible(found.place is not WoundTo.AT_THE_BEGINNING)

    def _wait(self, sentence: str, *, is_wrong: bool) -> None:
        self._answer.wait(sentence, is_wrong=is_wrong)
        self.main.hide()
        self.here.hide()

    def _show_refusal(self, refusal: Refused) -> None:
        reason = say("packs", "refused", reason=refusal.sentence)
        self._wait(f"{reason}\n\n{say('packs', 'refused_more')}", is_wrong=False)
        self._measures.hide()

    # --- taking over ---------------------------------------------------------------------

    @Slot()
    def take(self) -> None:
        """The main way: at least so far, or keep it with the tape."""
        found = self.reading
        if found is None or not self.main.isVisibleTo(self):
            return
        if not self._takes_fill:
            self._finish()
            self.kept.emit(self.radii)
            return
        self._finish()
        self.fill_taken.emit(pack_reading.recorded_at_least(found))

    @Slot()
    def take_here(self) -> None:
        """The recording stops where the tape stands."""
        found = self.reading
        if found is not None and self.here.isVisibleTo(self):
            self._finish()
            self.fill_taken.emit(pack_reading.recorded_to_here(found))

    def _finish(self) -> None:
        self._key = ""
        self.accept()

    def sizeHint(self) -> QSize:
        return QSize(124 * theme.UNIT, 82 * theme.UNIT)

    # --- building ------------------------------------------------------------------------

    def _build_buttons(self) -> None:
        self.main = dialog_button("pack-take", role="main")
        self.here = dialog_button("pack-here")
        self.close_button = dialog_button("pack-close", say("packs", "close"))
        self.main.clicked.connect(self.take)
        self.here.clicked.connect(self.take_here)
        self.close_button.clicked.connect(self.reject)
        give_key(self.main, "Ctrl+Return")
        give_key(self.here, "Alt+S")

    def _lay_out(self) -> None:
        self._heading = words("", "heading")
        columns = Columns(fold_below=88 * theme.UNIT)
        columns.add(self._measures, 6, rank=1)
        columns.add(scrolled(self._answer.paper, "pack-answer"), 5)
        outer = self.column()
        outer.addWidget(self._heading)
        outer.addWidget(columns, 1)
        outer.addWidget(ButtonRow((self.main, self.here, self.close_button)))


def _within(reels: packs.Reels, radius: float | None) -> float | None:
    """A radius that can be drawn; None for one that cannot be."""
    try:
        reels.check("pack", radius if radius is not None else -1.0)
    except WrongInput:
        return None
    return radius
