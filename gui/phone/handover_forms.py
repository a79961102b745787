"""What a call may add to an order about its handover: the call itself, who was told, what they wish."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.model import box_standing
from core.model.handover_records import HandoverWishes, NotedCall, ToldHow, ToldResult
from core.model.job_records import CallerMatch
from core.services.after_ready import handover_wishes, noted_calls, telling, telling_text
from core.services.after_ready.telling import ToTell
from core.services.after_ready.telling_text import TellingText
from gui.phone.told_form import ToldForm
from gui.phone.wishes_form import TypedWishes, WishesForm
from gui.toolkit.text import say
from gui.toolkit.workers import Work
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.keyed_form import close_all
from gui.widgets.layouts import stacked


class HandoverForms(QWidget):
    """Three keys; a call is noted at once, the other two open a form."""

    recorded = Signal(str)
    """What was recorded, as a sentence; the form is closed."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work) -> None:
        super().__init__()
        self._work = work
        self._found: CallerMatch | None = None
        self.note_button = key_button("note-call", "F12", say("phone", "note_call", keys="F12"))
        self.told_button = key_button("told", "Ctrl+R", say("phone", "told_button", keys="Ctrl+R"))
        self.wish_button = key_button("wishes", "Ctrl+W", say("phone", "wish_button", keys="Ctrl+W"))
        self.told = ToldForm()
        self.wishes = WishesForm()
        self._lay_out()
        self._connect()
        self.show_match(None)

    def show_match(self, found: CallerMatch | None) -> None:
        """Offer what can be added to this order, or nothing."""
        self._found = found
        self.setVisible(found is not None)
        ready = found is not None and box_standing.may_be_collected(found.job)
        self.told_button.setVisible(ready)
        self.wish_button.setVisible(found is not None and found.job.is_open)

    @property
    def has_open_form(self) -> bool:
        return any(form.isVisible() for form in self.every)

    def close_forms(self) -> bool:
        """Close the open form; returns whether there was one."""
        return close_all(self.every)

    # --- the call ------------------------------------------------------------------------

    @Slot()
    def _note(self) -> None:
        if self._found is not None:
            number, said = self._found.job.number, self._found.spoken
            self._work.run(noted_calls.note, number, said, then=self._was_noted, otherwise=self.failed.emit)

    def _was_noted(self, call: NotedCall) -> None:
        self._tell(say("phone", "call_noted", name=call.caller))

    # --- told ----------------------------------------------------------------------------

    @Slot()
    def _begin_telling(self) -> None:
        if self._found is not None:
            number = self._found.job.number
            self._work.ask(telling_text.text, number, then=self._offer, otherwise=self.failed.emit)

    def _offer(self, text: TellingText) -> None:
        self.close_forms()
        self.told.show()
        self.told.begin(text)

    @Slot(object, object)
    def _record(self, how: ToldHow, result: ToldResult) -> None:
        if self._found is not None:
            self._work.run(
                telling.tell,
                self._found.job.number,
                how,
                result,
                then=self._was_told,
                otherwise=self.failed.emit,
            )

    def _was_told(self, due: ToTell) -> None:
        is_through = due.round is None
        key = "told_said" if is_through else "told_again"
        self._tell(say("phone", key, name=due.job.customer.name))

    # --- wishes --------------------------------------------------------------------------

    @Slot()
    def _begin_wishes(self) -> None:
        if self._found is not None:
            self.close_forms()
            self.wishes.show()
            self.wishes.begin(self._found.wishes)

    @Slot(object)
    def _keep(self, typed: TypedWishes) -> None:
        if self._found is not None:
            self._work.run(
                handover_wishes.wish,
                self._found.job.number,
                how=typed.how,
                collector=typed.collector,
                pass_phrase=typed.pass_phrase,
                then=self._were_kept,
                otherwise=self.failed.emit,
            )

    def _were_kept(self, _: HandoverWishes) -> None:
        self._tell(say("phone", "wish_said"))

    def _tell(self, sentence: str) -> None:
        self.close_forms()
        self.recorded.emit(sentence)

    # --- building ------------------------------------------------------------------------

    @property
    def every(self) -> tuple[QWidget, ...]:
        return self.told, self.wishes

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """The three keys, as they stand in a row."""
        return self.note_button, self.told_button, self.wish_button

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(ButtonRow(self.buttons))
        for form in self.every:
            column.addWidget(form)
            form.hide()

    def _connect(self) -> None:
        self.note_button.clicked.connect(self._note)
        self.told_button.clicked.connect(self._begin_telling)
        self.wish_button.clicked.connect(self._begin_wishes)
        self.told.chosen.connect(self._record)
        self.told.said.connect(self.recorded)
        self.wishes.submitted.connect(self._keep)
        self.wishes.refused.connect(self.failed)
