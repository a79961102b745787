"""The guided look-over: step by step with a drawing beside it, ending in all findings in one go."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QSizePolicy, QStackedWidget, QWidget

from core.catalogue import inspection
from core.catalogue.formats import catalogue
from core.catalogue.inspection import LookStep
from core.model.errors import WrongInput
from core.model.names import Finding, FormatName
from core.model.spoken_names import spoken
from gui.toolkit import theme
from gui.toolkit.text import say, sentence_case
from gui.widgets.button_row import ButtonRow
from gui.widgets.finding_field import FindingChooser
from gui.widgets.layouts import Columns, empty, give_key, scroll_by_page, scrolled, stacked, words
from gui.widgets.look_step import LETTERS, StepPage, careful, changes
from gui.widgets.shell_drawing import ShellArt


@dataclass(frozen=True, slots=True)
class LookResult:
    """What a look-over found."""

    findings: tuple[Finding, ...]
    looked: int
    """Steps gone through."""
    of: int
    note: str
    """How long the tape waits before it is played, when it came in cold or hot."""


@dataclass(frozen=True, slots=True)
class Subject:
    """The cassette that is looked over. A look-over broken off goes on when its subject comes back."""

    key: str
    title: str
    format: FormatName
    known: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class _Progress:
    """How far a look-over came."""

    at: int = 0
    furthest: int = 0
    found: frozenset[Finding] = frozenset()
    stopped: bool = False
    temperature: str = ""


class LookOver(QDialog):
    """Letters mark, Space goes on, Backspace goes back, Ctrl+Return keeps; Esc leaves it for later."""

    kept = Signal(object)
    """`LookResult`, when the look-over was ended."""

    def __init__(self, parent: QWidget, *, short: bool) -> None:
        super().__init__(parent)
        self.setObjectName("look-over")
        self._short = short
        self._subject: Subject | None = None
        self._steps: tuple[LookStep, ...] = ()
        self._at = 0
        self._furthest = 0
        self._found: frozenset[Finding] = frozenset()
        self._stopped = False
        self._left: dict[str, _Progress] = {}
        self._digits = False
        self._build()
        self._connect()

    # --- coming and going ----------------------------------------------------------------

    def begin(self, subject: Subject) -> None:
        """Open for one cassette; one that was broken off goes on where it was."""
        self._subject = subject
        look = inspection.short_steps if self._short else inspection.steps
        self._steps = look(subject.format)
        before = self._left.get(subject.key, _Progress(found=frozenset(subject.known)))
        self._at, self._furthest = before.at, before.furthest
        self._found, self._stopped = before.found, before.stopped
        self.page.temperature.setText(before.temperature)
        self._heading.setText(
            say("inspection", "heading_short" if self._short else "heading", title=subject.title)
        )
        self.setWindowTitle(self._heading.text())
        self._show()
        self.open()
        self._take_keyboard()

    @property
    def found(self) -> tuple[Finding, ...]:
        """Everything marked so far, what changes most first."""
        if self._subject is None:
            return ()
        return tuple(each.finding for each in inspection.ranked(self._found, self._subject.format))

    @property
    def step(self) -> LookStep | None:
        """The step on show; None at the end."""
        return self._steps[self._at] if self._at < len(self._steps) else None

    @Slot()
    def go_on(self) -> None:
        """This step is done; a finding that stops the look-over leads to its end at once."""
        step = self.step
        if step is None:
            self.keep()
            return
        try:
            self.page.degrees()
        except WrongInput as wrong:
            self._say_wrong(wrong)
            return
        self._furthest = max(self._furthest, self._at + 1)
        self._stopped = bool(step.stop) and not self._found.isdisjoint(step.looks_for)
        self._at = len(self._steps) if self._stopped else self._at + 1
        self._show()
        self._take_keyboard()

    @Slot()
    def go_back(self) -> None:
        """One step back; from the end, to the last step that was looked at."""
        if self.step is None:
            self._at = max(self._furthest - 1, 0)
        elif self._at:
            self._at -= 1
        self._show()
        self._take_keyboard()

    @Slot()
    def keep(self) -> None:
        """End the look-over and hand over everything found."""
        try:
            degrees = self.page.degrees()
        except WrongInput as wrong:
            self._say_wrong(wrong)
            return
        note = inspection.waiting(degrees) if degrees is not None else ""
        looked = max(self._furthest, self._at + 1) if self.step is not None else self._furthest
        seen = LookResult(self.found, looked, len(self._steps), note)
        if self._subject is not None:
            self._left.pop(self._subject.key, None)
        self.accept()
        self.kept.emit(seen)

    def reject(self) -> None:
        """Leave it for later: what was seen so far is there when the cassette comes back."""
        if self._subject is not None:
            temperature = self.page.temperature.text()
            self._left[self._subject.key] = _Progress(
                self._at, self._furthest, self._found, self._stopped, temperature
            )
        super().reject()

    @Slot()
    def look_elsewhere(self) -> None:
        """Turn to the list of everything that can be wrong."""
        self._turn(self.chooser)
        self.chooser.begin(self._found)
        self.chooser.field.setFocus()

    # --- showing -------------------------------------------------------------------------

    def _show(self) -> None:
        step, subject = self.step, self._subject
        assert subject is not None
        self._wrong.hide()
        count = len(self._steps)
        self._place.setText(say("inspection", "step", n=self._at + 1, of=count) if step else "")
        self._title.setText(step.title if step else say("inspection", "last"))
        self._title.setAccessibleName(_spoken(step) if step else self._title.text())
        self.art.point_at(subject.format, step.part if step else "", step.lamp if step else "")
        self._drawn.setText(caption(subject.format))
        self._turn(self.page if step else self._end)
        if step is not None:
            self.page.show_step(step, subject.format, self._found, short=self._short)
        else:
            self._write_end(subject.format)
        self.back.setEnabled(self._at > 0)
        self._tell_found()

    def _turn(self, page: QWidget) -> None:
        """Only the page on show decides how much room there must be."""
        free, bound = QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred
        for each in (self.page, self._end, self.chooser):
            each.setSizePolicy(free, bound if each is page else free)
        self._pages.setCurrentWidget(page)

    def _write_end(self, name: FormatName) -> None:
        empty(self._end_column)
        told = inspection.ranked(self._found, name)
        if not told:
            looked = say("inspection", "nothing_found", looked=self._furthest, of=len(self._steps))
            self._end_column.addWidget(words(looked, "lead"))
        if self._stopped:
            stop = next(step.stop for step in self._steps if step.stop)
            self._end_column.addWidget(words(stop, "attention"))
        for each in told:
            self._end_column.addWidget(words(sentence_case(spoken(each.finding)), "heading"))
            self._end_column.addWidget(words(" ".join(changes(each))))
            self._end_column.addWidget(words(say("inspection", "say", means=each.means)))
        careful_of = inspection.cautions(self._found, name)
        if careful_of and not self._short:
            self._end_column.addWidget(careful(careful_of))
        if self.page.waiting.text():
            self._end_column.addWidget(words(self.page.waiting.text(), "attention"))
        self._end_column.addStretch(1)

    def _tell_found(self) -> None:
        found = [spoken(finding) for finding in self.found]
        so_far = say("inspection", "so_far", findings=", ".join(found)) if found else ""
        self._so_far.setText(so_far or say("inspection", "none_so_far"))
        self._so_far.setVisible(self.step is not None)
        step = self.step
        here = step is not None and not self._found.isdisjoint(step.looks_for)
        nothing_to_find = step is not None and not step.looks_for and step.key != inspection.COLD
        key = "on" if here else "done" if nothing_to_find else "fine"
        self.on.setText(say("inspection", key))
        self.on.setVisible(step is not None)
        keep = "keep_none" if not found else "keep_one" if len(found) == 1 else "keep_many"
        self.keep_button.setText(say("inspection", keep, count=len(found)))
        for button, is_main in ((self.on, step is not None), (self.keep_button, step is None)):
            button.setProperty("role", "main" if is_main else "")
            button.style().unpolish(button)
            button.style().polish(button)

    def _say_wrong(self, wrong: WrongInput) -> None:
        self._at = next(n for n, step in enumerate(self._steps) if step.key == inspection.COLD)
        self._show()
        self._wrong.setText(wrong.sentence)
        self._wrong.show()
        self.page.temperature.setFocus()

    def _take_keyboard(self) -> None:
        self._title.setFocus() if self.step is not None else self.keep_button.setFocus()
        for area in (self._columns, self._area):
            area.verticalScrollBar().setValue(0)

    # --- marking -------------------------------------------------------------------------

    @Slot(object, bool)
    def _mark(self, finding: Finding, seen: bool) -> None:
        self._found = self._found | {finding} if seen else self._found - {finding}
        self._tell_found()
        for row in self.page.rows:
            if row.finding is finding:
                self._columns.ensureWidgetVisible(row, 0, theme.UNIT)
                self._area.ensureWidgetVisible(row, 0, theme.UNIT)

    @Slot(object)
    def _add(self, finding: Finding) -> None:
        self._found |= {finding}
        self._show()
        self._take_keyboard()

    # --- keys ----------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._pages.currentWidget() is self.chooser:
            self._show()
            self._take_keyboard()
        elif not self._steered(event) and not self._turned(event):
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """In the field of the temperature, Return goes on like everywhere."""
        is_return = isinstance(event, QKeyEvent) and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if is_return and event.type() is QEvent.Type.KeyPress:
            self.go_on()
            return True
        return False

    def _steered(self, event: QKeyEvent) -> bool:
        plain = not event.modifiers() & ~(
            Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier
        )
        if not plain or self._is_choosing:
            return False
        scanned, self._digits = self._digits, event.text().isdigit()
        if event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if not scanned:  # a scanner ends its digits with Return; nobody looked at anything
                self.go_on()
        elif event.key() == Qt.Key.Key_Backspace:
            self.go_back()
        else:
            return self.step is not None and self.page.tick(event.text() or "\0")
        return True

    def _turned(self, event: QKeyEvent) -> bool:
        """Page Up and Page Down scroll the step, or the whole where the room is narrow."""
        return scroll_by_page(self._columns if self._columns.is_folded else self._area, event)

    @property
    def _is_choosing(self) -> bool:
        return self._pages.currentWidget() is self.chooser

    def sizeHint(self) -> QSize:
        return QSize(120 * theme.UNIT, 82 * theme.UNIT)

    def showEvent(self, event: QShowEvent) -> None:
        fit_into(self)
        super().showEvent(event)

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self._heading = words("", "small")
        self._place = words("", "time", wrap=False)
        self._title = words("", "heading")
        self._title.setObjectName("step-title")
        self._title.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.art = ShellArt()
        self.page = StepPage()
        self.chooser = FindingChooser()
        self._end = QWidget()
        self._end_column = stacked(self._end)
        self._pages = QStackedWidget()
        for page in (self.page, self._end, self.chooser):
            self._pages.addWidget(page)
        self._wrong = words("", "attention")
        self._so_far = words("", "small")
        self._so_far.setObjectName("found-so-far")
        self.on = _button("look-on")
        self.back = _button("look-back", say("inspection", "back"))
        self.other = _button("look-other", say("inspection", "other"))
        self.keep_button = _button("look-keep")
        self._lay_out()

    def _lay_out(self) -> None:
        columns = self._columns = Columns(fold_below=88 * theme.UNIT)
        columns.add(self._lay_art(), 5)
        self._area = scrolled(self._pages, "look-area")
        columns.add(self._area, 6, rank=1)
        outer = stacked(self)
        margin = 2 * theme.UNIT
        outer.setContentsMargins(margin, margin, margin, margin)
        outer.addWidget(self._heading)
        head = QHBoxLayout()
        head.addWidget(self._title, 1)
        head.addWidget(self._place)
        outer.addLayout(head)
        outer.addWidget(columns, 1)
        outer.addWidget(self._wrong)
        outer.addWidget(self._so_far)
        outer.addWidget(ButtonRow((self.on, self.back, self.other, self.keep_button)))

    def _lay_art(self) -> QWidget:
        side = QWidget()
        column = stacked(side, 2)
        column.addWidget(self.art, 1)
        self._drawn = words("", "small")
        column.addWidget(self._drawn)
        column.addWidget(words(say("inspection", "keys"), "small"))
        return side

    def _connect(self) -> None:
        self.page.marked.connect(self._mark)
        self.page.temperature.installEventFilter(self)
        self.chooser.chosen.connect(self._add)
        self.on.clicked.connect(self.go_on)
        self.back.clicked.connect(self.go_back)
        self.other.clicked.connect(self.look_elsewhere)
        self.keep_button.clicked.connect(self.keep)
        give_key(self.other, "F6")
        give_key(self.keep_button, "Ctrl+Return")


def fit_into(dialog: QDialog) -> None:
    """As large as it wants to be, as far as the window it belongs to has room."""
    parent = dialog.parentWidget()
    room = parent.window().size() if parent is not None else dialog.sizeHint()
    dialog.resize(dialog.sizeHint().boundedTo(room))


def _spoken(step: LookStep) -> str:
    """A whole step for a screen reader."""
    seen = (f"{LETTERS[finding]}: {spoken(finding)}" for finding in step.looks_for)
    return " ".join((step.title, *step.how, *step.cautions, *seen))


def caption(name: FormatName) -> str:
    """How the drawing is held, and how far it is to be trusted."""
    way = "lid_away" if catalogue().format(name).anatomy.has_lid else "edge_near"
    return f"{say('inspection', way)} {say('inspection', 'drawn')}"


def _button(name: str, text: str = "") -> QPushButton:
    button = QPushButton(text)
    button.setObjectName(name)
    button.setAutoDefault(False)
    return button
