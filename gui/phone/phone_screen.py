"""Phone: one box, and the answer to read out while the caller is still speaking."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from core.model.agreement_records import WaitingAnswer
from core.model.errors import Refused
from core.model.job_records import CallerMatch
from core.services import decks, promises
from core.services.after_ready import caller_check, telling
from core.services.after_ready.telling import ToTell
from core.services.agreement import ceiling_watch
from core.services.copies import downloads
from core.services.copies.downloads import Download
from core.services.promises import Kept
from gui.phone import match_menus
from gui.phone.answer_slip import AnswerSlip
from gui.phone.caller_check_form import CallerCheckForm
from gui.phone.caller_search import CallerSearch
from gui.phone.forms_area import FormsArea
from gui.phone.handover_forms import HandoverForms
from gui.phone.job_forms import JobForms
from gui.phone.matches_panel import MatchesPanel
from gui.toolkit import theme
from gui.toolkit.screen import Screen, is_typed_in
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import Columns, labelled, stacked
from gui.widgets.named_buttons import name_for_order


class PhoneScreen(Screen):
    """A caller is answered in the time it takes to type four digits."""

    name = "Phone"
    kinds = frozenset({"jobs", "tapes", "shop"})
    amend_wanted = Signal(object)
    """The `JobNumber` of an order that is to be changed at the Counter."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self._found: tuple[CallerMatch, ...] = ()
        self._at_risk: tuple[Kept, ...] = ()
        self._to_tell: tuple[ToTell, ...] = ()
        self._to_delete: tuple[Download, ...] = ()
        self._query = ""
        """What the answer on show is about."""
        self._sure: set[str] = set()
        """Orders of which this caller may hear: asked, and right."""
        self._waiting: tuple[WaitingAnswer, ...] = ()
        self.box = _box()
        self.search = CallerSearch(desk.work, self)
        self.panel = MatchesPanel()
        self.answer = AnswerSlip()
        self.check = CallerCheckForm(desk.work)
        self.forms = JobForms(desk)
        self.handover = HandoverForms(desk.work)
        self._lay_out()
        self._connect()
        self._show_nobody()

    def take_focus(self) -> None:
        self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.box.selectAll()

    def bars(self, name: str) -> str:
        return say("commands", "nobody-on-the-phone") if not self.forms.has_job else ""

    def refresh(self) -> None:
        self.desk.work.ask(ceiling_watch.to_call, then=self._keep_waiting)
        self.desk.work.ask(promises.under_review, then=self._keep_promises)
        self.desk.work.ask(telling.to_tell, then=self._keep_to_tell)
        self.desk.work.ask(downloads.standing, due=True, then=self._keep_to_delete)
        self.desk.work.ask(decks.settings, then=self.forms.keep_shop)
        self.search.ask()

    def holds_typing(self) -> bool:
        """A form belongs to the answer on show, which a new one would close."""
        return self.forms.has_open_form or self.handover.has_open_form

    def hear_scan(self, code: str) -> bool:
        """Answer for its order; what is typed in a form about another one is finished first."""
        if self.holds_typing() and is_typed_in(self._area):
            self.show_failure(Refused(say("phone", "scan_waits")))
            return True
        self.box.setText(code)
        self.search.ask()
        self.take_focus()
        return True

    def _keep_waiting(self, waiting: tuple[WaitingAnswer, ...]) -> None:
        self._waiting = waiting
        self._list_whom_to_call()

    def _keep_promises(self, reviewed: tuple[Kept, ...]) -> None:
        self._at_risk = tuple(kept for kept in reviewed if kept.is_at_risk)
        self._list_whom_to_call()

    def _keep_to_tell(self, due: tuple[ToTell, ...]) -> None:
        self._to_tell = due
        self._list_whom_to_call()

    def _keep_to_delete(self, due: tuple[Download, ...]) -> None:
        self._to_delete = due
        self._list_whom_to_call()

    def _list_whom_to_call(self) -> None:
        """While nobody is calling."""
        if not self.box.text().strip():
            self.panel.show_to_call(self._waiting, self._at_risk)
            self.panel.show_to_tell(self._to_tell, self._to_delete)

    # --- asking and answering ------------------------------------------------------------

    @Slot(str)
    def _typed(self, text: str) -> None:
        wanted = text.strip()
        if wanted != self._query:
            self._query = wanted
            self._forget_caller(wanted)
        self.search.follow(text)

    def _forget_caller(self, wanted: str) -> None:
        """Another question: nothing of the last answer stays, whoever the next caller is."""
        self._sure.clear()
        if not wanted:
            self._show_nobody()
            return
        self._found = ()
        self._close_job()
        self.panel.hide()
        self.answer.show_looking(wanted)

    def _show_nobody(self) -> None:
        """Nobody is calling: whom to call instead."""
        self._found = ()
        self._close_job()
        self._list_whom_to_call()
        self.answer.show_start()

    @Slot(str, object)
    def _answered(self, text: str, found: tuple[CallerMatch, ...]) -> None:
        self._found = found
        self._close_forms()
        self.panel.hide_to_tell()
        self.panel.show_matches(found)
        if found:
            self._choose(self.panel.matches.current)
        else:
            self._close_job()
            self.answer.show_nothing_found(text)

    def _close_job(self) -> None:
        self._close_forms()
        self.forms.show_job(None)
        self.handover.show_match(None)
        self.check.show_match(None)

    def _close_forms(self) -> bool:
        """Close the open form; returns whether there was one."""
        return any([self.forms.close_forms(), self.handover.close_forms()])

    @Slot(str)
    def _choose(self, number: str) -> None:
        """Answer for the order with this number; the customers to call are no answers yet."""
        chosen = next((one for one in self._found if one.job.number == number), None)
        if chosen is None:
            return
        if not self._is_sure(chosen):
            self._close_job()
            self.panel.hide_tapes()
            self.answer.show_unsure(chosen)
            self.check.show_match(chosen)
            return
        self.check.show_match(None)
        self.forms.show_job(chosen.job)
        self.handover.show_match(chosen)
        for part in (self.forms, self.handover):
            name_for_order(part, chosen.job.number)
        self.answer.show_match(chosen)
        self.panel.show_tapes(chosen.job, self.desk.clock())

    def _is_sure(self, found: CallerMatch) -> bool:
        """Whether anything may be said: nothing is asked, or it was answered, maybe by what was typed."""
        if found.asks == caller_check.NO or found.job.number in self._sure:
            return True
        is_by_digits = found.asks == caller_check.DIGITS
        return is_by_digits and caller_check.is_told_by(self._query, found.job.customer)

    @Slot(str)
    def _be_sure(self, number: str) -> None:
        self._sure.add(number)
        self._choose(number)
        self.take_focus()

    @Slot(object)
    def _show_form(self, form: QWidget) -> None:
        """Bring a form that was opened below into sight, once it has its place."""
        for area in (self._area, self._columns):
            QTimer.singleShot(0, form, partial(area.ensureWidgetVisible, form))

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
        column.addWidget(self.check)
        parts = (self.handover, self.forms)
        self._area = FormsArea(parts, [form for part in parts for form in part.every])
        self._area.opened.connect(self.answer.shorten)
        column.addWidget(self._area)
        columns = self._columns = Columns(fold_below=110 * theme.UNIT)
        columns.folded.connect(self._area.unroll)
        columns.add(self.panel, 6)
        columns.add(side, 7, rank=1)
        outer.addWidget(columns, 1)

    def _connect(self) -> None:
        self.box.textChanged.connect(self._typed)
        match_menus.attach(self.panel, self._area, self.wants_moment)
        self.box.returnPressed.connect(self._return_pressed)
        self.box.installEventFilter(self)
        self.search.answered.connect(self._answered)
        self.search.failed.connect(self.show_failure)
        self.panel.matches.moved.connect(self._choose)
        self.panel.matches.taken.connect(self.box.setText)
        self.panel.to_tell.taken.connect(self.box.setText)
        self.check.sure.connect(self._be_sure)
        for part in (self.check, self.handover):
            part.failed.connect(self.show_failure)
        self.handover.recorded.connect(self._recorded)
        self.forms.recorded.connect(self._recorded)
        self.forms.customer_corrected.connect(self.box.setText)
        self.forms.failed.connect(self.show_failure)
        self.forms.amend_wanted.connect(self.amend_wanted)
        self.forms.form_opened.connect(self._show_form)

    # --- keys ----------------------------------------------------------------------------

    @Slot()
    def _return_pressed(self) -> None:
        if self.check.isVisible():
            self.check.answer.setFocus()
            return
        self.search.ask()
        self.box.selectAll()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._close_forms():
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
