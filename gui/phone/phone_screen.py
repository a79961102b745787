"""Phone: one box, and the answer to read out while the caller is still speaking."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from core.model.job_records import CallerMatch
from core.services import decks, promises
from core.services.promises import Kept
from gui.phone.answer_slip import AnswerSlip
from gui.phone.caller_search import CallerSearch
from gui.phone.job_forms import JobForms
from gui.phone.matches_panel import MatchesPanel
from gui.toolkit import theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import Columns, labelled, stacked


class PhoneScreen(Screen):
    """A caller is answered in the time it takes to type four digits."""

    name = "Phone"
    kinds = frozenset({"jobs", "tapes", "shop"})

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self._found: tuple[CallerMatch, ...] = ()
        self._at_risk: tuple[Kept, ...] = ()
        self.box = _box()
        self.search = CallerSearch(desk.work, self)
        self.panel = MatchesPanel()
        self.answer = AnswerSlip()
        self.forms = JobForms(desk.work)
        self._lay_out()
        self._connect()
        self._show_nobody()

    def take_focus(self) -> None:
        self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.box.selectAll()

    def refresh(self) -> None:
        self.desk.work.ask(promises.under_review, then=self._keep_promises)
        self.desk.work.ask(decks.settings, then=self.forms.correction.keep_country)
        self.search.ask()

    def _keep_promises(self, reviewed: tuple[Kept, ...]) -> None:
        self._at_risk = tuple(kept for kept in reviewed if kept.is_at_risk)
        if not self.box.text().strip():
            self.panel.show_to_call(self._at_risk)

    # --- asking and answering ------------------------------------------------------------

    @Slot(str)
    def _typed(self, text: str) -> None:
        self.search.follow(text)
        if not text.strip():
            self._show_nobody()

    def _show_nobody(self) -> None:
        """Nobody is calling: whom to call instead."""
        self._found = ()
        self._close_job()
        self.panel.show_to_call(self._at_risk)
        self.answer.show_start()

    @Slot(str, object)
    def _answered(self, text: str, found: tuple[CallerMatch, ...]) -> None:
        self._found = found
        self.forms.close_forms()
        self.panel.show_matches(found)
        if found:
            self._choose(self.panel.matches.current)
        else:
            self._close_job()
            self.answer.show_nothing_found(text)

    def _close_job(self) -> None:
        self.forms.close_forms()
        self.forms.show_job(None)

    @Slot(str)
    def _choose(self, number: str) -> None:
        """Answer for the order with this number; the customers to call are no answers yet."""
        chosen = next((one for one in self._found if one.job.number == number), None)
        if chosen is not None:
            self.forms.show_job(chosen.job)
            self.answer.show_match(chosen)
            self.panel.show_tapes(chosen.job, self.desk.clock())

    @Slot(str)
    def _recorded(self, sentence: str) -> None:
        self.take_focus()
        self.said.emit(sentence)

    # --- building ------------------------------------------------------------------------

    def _lay_out(self) -> None:
        outer = stacked(self)
        outer.addWidget(labelled(self.box, say("phone", "ask")))
        side = QWidget()
        column = stacked(side)
        column.addWidget(self.answer, 1)
        column.addWidget(self.forms)
        columns = Columns(fold_below=110 * theme.UNIT)
        columns.add(self.panel, 6)
        columns.add(side, 7, rank=1)
        outer.addWidget(columns, 1)

    def _connect(self) -> None:
        self.box.textChanged.connect(self._typed)
        self.box.returnPressed.connect(self._return_pressed)
        self.box.installEventFilter(self)
        self.search.answered.connect(self._answered)
        self.search.failed.connect(self.show_failure)
        self.panel.matches.moved.connect(self._choose)
        self.panel.matches.taken.connect(self.box.setText)
        self.forms.recorded.connect(self._recorded)
        self.forms.customer_corrected.connect(self.box.setText)
        self.forms.failed.connect(self.show_failure)

    # --- keys ----------------------------------------------------------------------------

    @Slot()
    def _return_pressed(self) -> None:
        self.search.ask()
        self.box.selectAll()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.forms.close_forms():
            self.take_focus()
            return
        super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.box and isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            return self._key(event.key())
        return False

    def _key(self, key: int) -> bool:
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.panel.matches.step(-1 if key == Qt.Key.Key_Up else 1)
            return True
        if key == Qt.Key.Key_Escape and self.box.text():
            self.box.clear()
            return True
        return False


def _box() -> QLineEdit:
    box = QLineEdit()
    box.setObjectName("caller")
    box.setAccessibleName(say("phone", "ask"))
    box.setPlaceholderText(say("phone", "ask_hint"))
    box.setFont(theme.font(theme.LEAD))
    box.setMinimumHeight(6 * theme.UNIT)
    return box
