"""Phone: one box, and the answer to read out while the caller is still speaking."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget

from core.model.errors import TapewrightError
from core.model.inventory import CustomerDraft
from core.model.job_records import CallerMatch, Job
from core.services import calls, jobs, promises
from core.services.promises import Kept, is_done
from gui.phone.answer_slip import AnswerSlip
from gui.phone.consent_form import Agreed, AgreementForm
from gui.phone.customer_correction import CorrectionForm
from gui.phone.new_day import NewDayForm
from gui.toolkit import theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import day, say, times_in_twenty
from gui.widgets.layouts import Columns, give_key, labelled, stacked, words
from gui.widgets.tray import Tray
from gui.widgets.tray_rows import found_piece, tape_pieces, to_call_piece

_PAUSE = 90
"""Milliseconds after a key before the records are asked: below the tenth of a second that feels direct."""
_WHOLE = (6, 10)
"""Digits of a job number and of a tape's code: nothing more is coming, so nothing is waited for."""


class PhoneScreen(Screen):
    """A caller is answered in the time it takes to type four digits."""

    name = "Phone"
    kinds = frozenset({"jobs", "tapes", "shop"})

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self._found: tuple[CallerMatch, ...] = ()
        self._asked = 0
        self._chosen: CallerMatch | None = None
        self._to_call: tuple[Kept, ...] = ()
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE)
        self._pause.timeout.connect(self._ask)
        self._build()

    def take_focus(self) -> None:
        self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.box.selectAll()

    def refresh(self) -> None:
        self.desk.work.ask(promises.under_review, then=self._know_promises)
        if self.box.text().strip():
            self._ask()

    def _know_promises(self, reviewed: tuple[Kept, ...]) -> None:
        self._to_call = tuple(kept for kept in reviewed if kept.is_at_risk)
        if not self.box.text().strip():
            self._lay_matches()

    # --- asking --------------------------------------------------------------------------

    @Slot(str)
    def _typed(self, text: str) -> None:
        self._asked += 1  # what was asked before is no longer wanted
        digits = text.strip()
        if not digits:
            self._pause.stop()
            self._show(())
        elif digits.isdecimal() and len(digits) in _WHOLE:
            self._ask()
        else:
            self._pause.start()

    @Slot()
    def _ask(self) -> None:
        self._pause.stop()
        text = self.box.text().strip()
        if not text:
            return
        self._asked += 1
        self.desk.work.ask(
            calls.status,
            text,
            then=partial(self._answered, self._asked, text),
            otherwise=partial(self._failed, self._asked),
        )

    def _answered(self, asked: int, text: str, found: tuple[CallerMatch, ...]) -> None:
        if asked != self._asked:
            return
        if found:
            self._show(found)
        else:
            self._found = ()
            self._lay_matches()
            self.answer.say_nothing_found(text)

    def _failed(self, asked: int, failure: TapewrightError) -> None:
        if asked == self._asked:
            self.show_failure(failure)

    # --- answering -----------------------------------------------------------------------

    def _show(self, found: tuple[CallerMatch, ...]) -> None:
        self._found = found
        self._lay_matches()
        if not found:
            self.answer.wait()
            return
        self._choose(self.matches.current)

    @Slot(str)
    def _choose(self, number: str) -> None:
        chosen = next((one for one in self._found if one.job.number == number), None)
        if chosen is None:
            return
        self._chosen = chosen
        self.new_day_button.setVisible(not is_done(chosen.job))
        self.answer.tell(chosen)
        self.tapes.lay(tape_pieces(chosen.job.tapes, self.desk.clock()))
        self._tapes_words.show()
        self.tapes.show()

    def _lay_matches(self) -> None:
        waiting = not self.box.text().strip()
        if waiting:
            self.matches.lay([to_call_piece(kept) for kept in self._to_call])
            self._matches_words.setText(say("phone", "call_first"))
        else:
            self.matches.lay([found_piece(one) for one in self._found])
            self._matches_words.setText(say("phone", "others", count=len(self._found)))
        several = len(self.matches.pieces) > (0 if waiting else 1)
        self.matches.setVisible(several)
        self._matches_words.setVisible(several)
        self._tray_side.setVisible(several or bool(self._found))
        for button in (self.agree_button, self.correct_button):
            button.setVisible(bool(self._found))
        self._put_forms_away()
        if not self._found:
            self.new_day_button.hide()
            self.tapes.lay([])
            self.tapes.hide()
            self._tapes_words.hide()

    # --- what they agreed to -------------------------------------------------------------

    @Slot()
    def _begin_agreement(self) -> None:
        if self._chosen is not None and self._found:
            self._put_forms_away()
            self.agreement.show()
            self.agreement.begin(self._chosen.job)

    @Slot(object)
    def _agree(self, agreed: Agreed) -> None:
        if self._chosen is not None:
            self.desk.work.run(
                jobs.agree,
                self._chosen.job.number,
                agreed.words,
                agreed.who,
                ceiling_minor=agreed.ceiling_minor,
                then=partial(self._was_agreed, agreed.who),
                otherwise=self.show_failure,
            )

    def _was_agreed(self, who: str, _: Job) -> None:
        self._put_forms_away()
        self.take_focus()
        self.said.emit(say("phone", "agreed_said", who=who))

    # --- a new day -----------------------------------------------------------------------

    @Slot()
    def _begin_new_day(self) -> None:
        if self._chosen is not None and self._found:
            self._put_forms_away()
            self.new_day.show()
            self.new_day.begin(self._chosen.job)

    @Slot(str, str)
    def _promise_again(self, reason: str, who: str) -> None:
        if self._chosen is not None:
            self.desk.work.run(
                promises.renew,
                self._chosen.job.number,
                reason,
                agreed_with=who or None,
                then=self._was_promised,
                otherwise=self.show_failure,
            )

    def _was_promised(self, job: Job) -> None:
        self._put_forms_away()
        self.take_focus()
        assert job.promise.day is not None
        when, times = day(job.promise.day), times_in_twenty(job.promise.stated)
        self.said.emit(say("phone", "new_day_said", day=when, times=times, who=job.customer.name))

    # --- who they are --------------------------------------------------------------------

    @Slot()
    def _begin_correction(self) -> None:
        if self._chosen is not None and self._found:
            self._put_forms_away()
            self.correction.show()
            self.correction.begin(self._chosen.job.customer)

    @Slot(object)
    def _correct(self, draft: CustomerDraft) -> None:
        if self._chosen is not None:
            self.desk.work.run(
                jobs.correct_customer,
                self._chosen.job.number,
                draft,
                then=self._was_corrected,
                otherwise=self.show_failure,
            )

    def _was_corrected(self, job: Job) -> None:
        """The job is asked for by its number: what was typed may not find it any more."""
        self._put_forms_away()
        self.box.setText(job.number)
        self.take_focus()
        self.said.emit(say("phone", "correct_said", name=job.customer.name))

    @property
    def _forms(self) -> tuple[QWidget, ...]:
        return self.agreement, self.new_day, self.correction

    def _put_forms_away(self) -> None:
        for form in self._forms:
            form.hide()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and any(form.isVisible() for form in self._forms):
            self._put_forms_away()
            self.take_focus()
            return
        super().keyPressEvent(event)

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self._make_box()
        self.answer = AnswerSlip()
        self.matches = Tray("matches", say("phone", "matches_list"), always_lit=True)
        self.matches.moved.connect(self._choose)
        self.matches.taken.connect(self.box.setText)
        self._make_forms()
        self._matches_words = words("", "small")
        self.tapes = Tray("tapes", say("phone", "tapes_list"))
        self._tapes_words = words(say("phone", "tapes"), "small")
        self._lay_out()
        self._show(())

    def _make_box(self) -> None:
        self.box = QLineEdit()
        self.box.setObjectName("caller")
        self.box.setAccessibleName(say("phone", "ask"))
        self.box.setPlaceholderText(say("phone", "ask_hint"))
        self.box.setFont(theme.font(theme.LEAD))
        self.box.setMinimumHeight(6 * theme.UNIT)
        self.box.textChanged.connect(self._typed)
        self.box.returnPressed.connect(self._return_pressed)
        self.box.installEventFilter(self)

    def _make_forms(self) -> None:
        self.agree_button = _opener("agree", say("phone", "agree_button"), "F6")
        self.agree_button.clicked.connect(self._begin_agreement)
        self.agreement = AgreementForm()
        self.agreement.agreed.connect(self._agree)
        self.agreement.refused.connect(self.refused)
        self.new_day_button = _opener("new-day-button", say("phone", "new_day_button"), "F7")
        self.new_day_button.clicked.connect(self._begin_new_day)
        self.new_day = NewDayForm()
        self.new_day.wanted.connect(self._promise_again)
        self.new_day.refused.connect(self.refused)
        self.correct_button = _opener("correct", say("phone", "correct_button"), "F8")
        self.correct_button.clicked.connect(self._begin_correction)
        self.correction = CorrectionForm()
        self.correction.wanted.connect(self._correct)
        self.correction.refused.connect(self.refused)

    def _lay_out(self) -> None:
        outer = stacked(self)
        outer.addWidget(labelled(self.box, say("phone", "ask")))
        columns = Columns(fold_below=110 * theme.UNIT)
        answer = self._build_answer_side()
        columns.add(self._build_tray_side(), 6)
        columns.add(answer, 7, rank=1)
        outer.addWidget(columns, 1)

    def _build_answer_side(self) -> QWidget:
        side = QWidget()
        column = stacked(side)
        column.addWidget(self.answer, 1)
        buttons = QVBoxLayout()
        buttons.setSpacing(theme.UNIT // 2)
        for button in (self.agree_button, self.new_day_button, self.correct_button):
            buttons.addWidget(button)
        column.addLayout(buttons)
        for form in self._forms:
            column.addWidget(form)
        return side

    def _build_tray_side(self) -> QWidget:
        """Jobs it could be, when there are several, over the tapes of the one that is answered for."""
        self._tray_side = QWidget()
        column = stacked(self._tray_side)
        for tray_words, tray in ((self._matches_words, self.matches), (self._tapes_words, self.tapes)):
            column.addWidget(tray_words)
            column.addWidget(tray, 1)
        return self._tray_side

    # --- keys ----------------------------------------------------------------------------

    @Slot()
    def _return_pressed(self) -> None:
        self._ask()
        self.box.selectAll()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.box and isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            return self._key(event.key())
        return False

    def _key(self, key: int) -> bool:
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.matches.step(-1 if key == Qt.Key.Key_Up else 1)
            return True
        if key == Qt.Key.Key_Escape and self.box.text():
            self.box.clear()
            return True
        return False


def _opener(name: str, text: str, keys: str) -> QPushButton:
    """A button that opens its form with one key."""
    button = QPushButton(text)
    button.setObjectName(name)
    give_key(button, keys)
    button.setProperty("role", "deed")
    return button
