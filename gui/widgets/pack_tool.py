"""Reading packs through the window: two radii become minutes run, minutes to go, and what that may mean."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QComboBox, QDialog, QHBoxLayout, QPushButton, QWidget

from core.catalogue.formats import catalogue
from core.catalogue.markings import bare
from core.model.errors import Refused, TapewrightError, WrongInput
from core.model.inventory import TapeLine
from core.model.names import TvSystem
from core.playtime import pack_reading, packs
from core.playtime.pack_reading import PackReading, WoundTo
from core.wording.locale_figures import percent
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.figure_field import FigureField
from gui.widgets.guided_look import fit_into
from gui.widgets.layouts import Columns, give_key, labelled, scrolled, slip, stacked, words
from gui.widgets.pack_drawing import RUN, STEP_MM, TO_COME, PackDrawing
from gui.widgets.pack_sentences import fit_words, meaning_words, reel_words, share_words


@dataclass(frozen=True, slots=True)
class PackRadii:
    """What was read, ready to be kept."""

    to_come_mm: float | None
    run_mm: float | None
    marking: str | None


class PackTool(QDialog):
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
        self.reading: PackReading | None = None
        self._build()
        self._connect()

    def begin(self, key: str, title: str, line: TapeLine, tv: TvSystem | None) -> None:
        """Open for one cassette; what was read of it before Esc is still there."""
        is_same = key == self._key and self._line is not None and self._line.format == line.format
        self._line, self._tv, self._key = line, tv, key
        heading = say("packs", "heading", title=title)
        self._heading.setText(heading)
        self.setWindowTitle(heading)
        self._offer_markings(line)
        if not is_same:
            for field in self.fields:
                field.clear()
        self._read()
        self.open()
        (self.fields[TO_COME] if self._asks.isVisibleTo(self) else self.close_button).setFocus()

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
        self._asks.show()
        held = "held_lid" if catalogue().format(line.format).anatomy.has_lid else "held_edge"
        self._held.setText(f"{say('packs', held)} {say('packs', 'sides')}")
        radii = (self._figure(TO_COME), self._figure(RUN))
        try:
            self.reading = pack_reading.read(
                line.format,
                self.marking.currentData(),
                to_come_mm=radii[TO_COME],
                run_mm=radii[RUN],
                speed=line.speed,
                tv=line.tv or self._tv,
            )
        except TapewrightError as failure:
            nothing = radii == (None, None)
            self._wait(say("packs", "wait") if nothing else failure.sentence, wrong=not nothing)
            self.drawing.show_packs(reels, (_within(reels, radii[0]), _within(reels, radii[1])))
            return
        self._show_reading(self.reading)

    def _figure(self, pack: int) -> float | None:
        """What is typed, as far as it is a figure already."""
        text = self.fields[pack].text().strip().replace(",", ".")
        try:
            return float(text) if text else None
        except ValueError:
            return None

    def _show_reading(self, found: PackReading) -> None:
        both = (found.to_come, found.run)
        left, right = ((reel.radius_mm if reel.was_read else None) for reel in both)
        self.drawing.show_packs(found.reels, (left, right), (both[0].radius_mm, both[1].radius_mm))
        for label, reel in zip(self._figures, both, strict=True):
            label.setText(reel_words(reel))
        self._share.setText(share_words(found))
        self._means.setText(meaning_words(found))
        sentence, is_wrong = fit_words(found)
        self._fit.setText(sentence)
        self._wear(self._fit, "attention" if is_wrong else "muted")
        self._off.setText(self._doubts(found))
        self._sources.setText("\n".join(f"· {source}" for source in found.sources))
        self._answer.show()
        self._waiting.hide()
        self._offer(found)

    def _doubts(self, found: PackReading) -> str:
        assert self._line is not None
        doubts = [say("packs", "off", thin=f"{found.reels.thin_um:g}", thick=f"{found.reels.thick_um:g}")]
        if self._line.speed is None and len(found.reels.form.speeds) > 1:
            doubts.append(say("packs", "speed_open"))
        if found.reels.form.sides == 2:
            doubts.append(say("packs", "one_side"))
        return " ".join(doubts)

    def _offer(self, found: PackReading) -> None:
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

    def _wait(self, sentence: str, *, wrong: bool) -> None:
        self._answer.hide()
        self._waiting.setText(sentence)
        self._wear(self._waiting, "attention" if wrong else "muted")
        self._waiting.show()
        self.main.hide()
        self.here.hide()

    def _show_refusal(self, refusal: Refused) -> None:
        reason = say("packs", "refused", reason=refusal.sentence)
        self._wait(f"{reason}\n\n{say('packs', 'refused_more')}", wrong=False)
        self._asks.hide()

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

    # --- keys ----------------------------------------------------------------------------

    @Slot(int, object)
    def _edge_moved(self, pack: int, radius: float | None) -> None:
        self.fields[pack].setText("" if radius is None else f"{radius:.1f}")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Up and Down in a field move the edge as they do in the drawing; Return goes on to the next."""
        if not isinstance(event, QKeyEvent) or event.type() is not QEvent.Type.KeyPress:
            return False
        pack = self.fields.index(watched) if watched in self.fields else None
        if pack is None:
            return False
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            step = STEP_MM if event.key() == Qt.Key.Key_Up else -STEP_MM
            self.drawing.move_edge(pack, self.drawing.edge(pack) + step)
            return True
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers():
            self.focusNextChild()
            return True
        return False

    def showEvent(self, event: QShowEvent) -> None:
        fit_into(self)
        super().showEvent(event)

    def sizeHint(self) -> QSize:
        return QSize(124 * theme.UNIT, 82 * theme.UNIT)

    # --- building ------------------------------------------------------------------------

    def _offer_markings(self, line: TapeLine) -> None:
        self.marking.blockSignals(True)
        self.marking.clear()
        self.marking.addItem(say("packs", "no_marking"), None)
        for each in catalogue().format(line.format).markings:
            self.marking.addItem(each.name, each.name)
        wanted = bare(line.marking or "")
        names = [bare(self.marking.itemText(row)) for row in range(self.marking.count())]
        self.marking.setCurrentIndex(names.index(wanted) if wanted in names else 0)
        self.marking.blockSignals(False)

    def _build(self) -> None:
        self._heading = words("", "heading")
        self.drawing = PackDrawing()
        self.fields = (
            FigureField("pack-to-come", say("packs", "to_come").replace("&", "")),
            FigureField("pack-run", say("packs", "run").replace("&", "")),
        )
        self.marking = QComboBox()
        self.marking.setObjectName("pack-marking")
        self.main = _button("pack-take", "main")
        self.here = _button("pack-here")
        self.close_button = _button("pack-close")
        self.close_button.setText(say("packs", "close"))
        columns = Columns(fold_below=88 * theme.UNIT)
        columns.add(self._build_asks(), 6, rank=1)
        columns.add(scrolled(self._build_answer(), "pack-answer"), 5)
        outer = stacked(self)
        margin = 2 * theme.UNIT
        outer.setContentsMargins(margin, margin, margin, margin)
        outer.addWidget(self._heading)
        outer.addWidget(columns, 1)
        outer.addWidget(ButtonRow((self.main, self.here, self.close_button)))

    def _build_asks(self) -> QWidget:
        self._asks = QWidget()
        column = stacked(self._asks)
        column.addWidget(words(say("packs", "how")))
        self._held = words("", "small")
        column.addWidget(self._held)
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for field, key in zip((*self.fields, self.marking), ("to_come", "run", "marking"), strict=True):
            row.addWidget(labelled(field, say("packs", key)), 1)
        column.addLayout(row)
        column.addWidget(self.drawing, 1)
        column.addWidget(words(say("packs", "keys"), "small"))
        return self._asks

    def _build_answer(self) -> QWidget:
        paper, column = slip("pack-slip")
        self._waiting = words("", "lead")
        column.addWidget(self._waiting)
        self._answer = QWidget()
        inside = stacked(self._answer)
        self._figures = (words("", "time"), words("", "time"))
        for head, label in zip(("to_come_head", "run_head"), self._figures, strict=True):
            inside.addWidget(words(say("packs", head), "field"))
            inside.addWidget(label)
        self._share, self._means, self._fit = words("", "heading"), words(), words()
        self._off, self._sources = words("", "small"), words("", "small")
        for part in (self._share, self._means, self._fit, self._off):
            inside.addWidget(part)
        inside.addWidget(words(say("packs", "sources"), "field"))
        inside.addWidget(self._sources)
        column.addWidget(self._answer)
        column.addStretch(1)
        return paper

    def _connect(self) -> None:
        for field in self.fields:
            field.textChanged.connect(self._read)
            field.installEventFilter(self)
        self.marking.currentIndexChanged.connect(self._read)
        self.drawing.moved.connect(self._edge_moved)
        self.main.clicked.connect(self.take)
        self.here.clicked.connect(self.take_here)
        self.close_button.clicked.connect(self.reject)
        give_key(self.main, "Ctrl+Return")
        give_key(self.here, "Alt+S")

    @staticmethod
    def _wear(label: QWidget, ink: str) -> None:
        label.setProperty("ink", ink)
        label.style().unpolish(label)
        label.style().polish(label)


def _within(reels: packs.Reels, radius: float | None) -> float | None:
    """A radius that can be drawn; None for one that cannot be."""
    try:
        reels.check("pack", radius if radius is not None else -1.0)
    except WrongInput:
        return None
    return radius


def _button(name: str, role: str = "") -> QPushButton:
    button = QPushButton()
    button.setObjectName(name)
    button.setAutoDefault(False)
    if role:
        button.setProperty("role", role)
    return button
