"""The guided look-over: step by step with a drawing beside it, ending in all findings in one go."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from core.catalogue import inspection
from core.catalogue.inspection import LookStep
from core.model.errors import WrongInput
from core.model.names import AnyFinding
from gui.inspection.look_layout import LookLayout, caption, step_spoken
from gui.inspection.look_progress import LookProgress, LookSubject
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.fitted_dialog import FittedDialog
from gui.widgets.layouts import scroll_by_page


class LookOver(FittedDialog):
    """Letters mark, Space goes on, Backspace goes back, Ctrl+Return keeps; Esc leaves it for later."""

    kept = Signal(object)
    """`LookResult`, when the look-over was ended."""

    def __init__(self, parent: QWidget, *, short: bool) -> None:
        super().__init__(parent)
        self.setObjectName("look-over")
        self._short = short
        self._subject: LookSubject | None = None
        self._progress = LookProgress(())
        self._left: dict[str, LookProgress] = {}
        self._digits = False
        parts = self._parts = LookLayout(self.column(), short=short)
        self.art, self.page, self.chooser = parts.art, parts.page, parts.chooser
        self.on, self.back, self.other = parts.on, parts.back, parts.other
        self.keep_button = parts.keep
        self._connect()

    # --- coming and going ----------------------------------------------------------------

    def begin(self, subject: LookSubject) -> None:
        """Open for one cassette; one that was broken off goes on where it was."""
        self._subject = subject
        look = inspection.short_steps if self._short else inspection.steps
        before = self._left.get(subject.key, LookProgress((), frozenset(subject.known)))
        self._progress = replace(before, steps=look(subject.format))
        self.page.temperature.setText(before.temperature)
        key = "heading_short" if self._short else "heading"
        self._parts.heading.setText(say("inspection", key, title=subject.title))
        self.setWindowTitle(self._parts.heading.text())
        self._show()
        self.open()
        self._take_keyboard()

    @property
    def found(self) -> tuple[AnyFinding, ...]:
        """Everything marked so far, what changes most first."""
        return () if self._subject is None else self._progress.ranked(self._subject.format)

    @property
    def step(self) -> LookStep | None:
        """The step on show; None at the end."""
        return self._progress.step

    @Slot()
    def go_on(self) -> None:
        """This step is done; a finding that stops the look-over leads to its end at once."""
        if self.step is None:
            self.keep()
            return
        try:
            self.page.degrees()
        except WrongInput as wrong:
            self._say_wrong(wrong)
            return
        self._go_to(self._progress.advanced())

    @Slot()
    def go_back(self) -> None:
        """One step back; from the end, to the last step that was looked at."""
        self._go_to(self._progress.stepped_back())

    @Slot()
    def keep(self) -> None:
        """End the look-over and hand over everything found."""
        subject = self._subject
        try:
            degrees = self.page.degrees()
        except WrongInput as wrong:
            self._say_wrong(wrong)
            return
        if subject is None:
            return
        self._left.pop(subject.key, None)
        self.accept()
        note = inspection.waiting(degrees) if degrees is not None else ""
        self.kept.emit(self._progress.result(subject.format, note))

    def reject(self) -> None:
        """Leave it for later: what was seen so far is there when the cassette comes back."""
        if self._subject is not None:
            temperature = self.page.temperature.text()
            self._left[self._subject.key] = replace(self._progress, temperature=temperature)
        super().reject()

    @Slot()
    def look_elsewhere(self) -> None:
        """Turn to the list of everything that can be wrong."""
        if self._subject is None:
            return
        self._parts.turn(self.chooser)
        self.chooser.begin(self._progress.found, self._subject.format)
        self.chooser.field.setFocus()

    # --- showing -------------------------------------------------------------------------

    def _go_to(self, progress: LookProgress) -> None:
        self._progress = progress
        self._show()
        self._take_keyboard()

    def _show(self) -> None:
        progress, subject, parts = self._progress, self._subject, self._parts
        assert subject is not None
        step, format = progress.step, subject.format
        parts.wrong.hide()
        count = len(progress.steps)
        parts.place.setText(say("inspection", "step", n=progress.at + 1, of=count) if step else "")
        parts.title.setText(step.title if step else say("inspection", "last"))
        parts.title.setAccessibleName(step_spoken(step) if step else parts.title.text())
        self.art.point_at(format, step.part if step else "", step.lamp if step else "")
        parts.drawn.setText(caption(format, short=self._short))
        parts.turn(self.page if step else parts.end)
        if step is not None:
            self.page.show_step(step, format, progress.found, short=self._short)
        else:
            parts.end.write(progress, format, self.page.waiting.text())
        parts.back.setEnabled(progress.at > 0)
        parts.tell_found(progress, self.found)

    def _say_wrong(self, wrong: WrongInput) -> None:
        self._progress = self._progress.at_step(inspection.COLD)
        self._show()
        self._parts.wrong.setText(wrong.sentence)
        self._parts.wrong.show()
        self.page.temperature.setFocus()

    def _take_keyboard(self) -> None:
        self._parts.title.setFocus() if self.step is not None else self.keep_button.setFocus()
        self._parts.scroll_to_top()

    # --- marking -------------------------------------------------------------------------

    @Slot(object, bool)
    def _mark(self, finding: AnyFinding, seen: bool) -> None:
        self._progress = self._progress.marked(finding, seen)
        self._parts.tell_found(self._progress, self.found)
        for row in self.page.rows:
            if row.finding is finding:
                self._parts.bring_into_view(row)

    @Slot(object)
    def _add(self, finding: AnyFinding) -> None:
        self._go_to(self._progress.marked(finding, seen=True))

    # --- keys ----------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._parts.is_choosing:
            self._go_to(self._progress)
        elif not self._steered(event) and not scroll_by_page(self._parts.area_on_show, event):
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
        if not plain or self._parts.is_choosing:
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

    def sizeHint(self) -> QSize:
        return QSize(120 * theme.UNIT, 82 * theme.UNIT)

    def _connect(self) -> None:
        self.page.marked.connect(self._mark)
        self.page.temperature.installEventFilter(self)
        self.chooser.chosen.connect(self._add)
        self.on.clicked.connect(self.go_on)
        self.back.clicked.connect(self.go_back)
        self.other.clicked.connect(self.look_elsewhere)
        self.keep_button.clicked.connect(self.keep)
