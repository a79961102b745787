"""The answer to a caller: the sentence to read out, the promised day, and how to be sure who is calling."""

from __future__ import annotations

from PySide6.QtCore import Slot
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from core.model import box_standing
from core.model.job_records import CallerMatch, Job
from core.wording import shop_clock
from gui.toolkit import text, theme
from gui.toolkit.text import day, say, short_day, times_in_twenty
from gui.widgets.layouts import rule, words
from gui.widgets.tray_rows import matched_words
from gui.widgets.twenty_dots import PromiseDots

_LEAST = 0.05
"""A chance below one in 20 is worded as no."""


class AnswerSlip(QFrame):
    """A sentence in large type, the promised day with its dots, what was agreed, and the identity check."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("answer")
        self.setProperty("role", "slip")
        self._said = ""
        self._is_short = False
        self._facts: tuple[QWidget, ...] = ()
        """What stands below the sentence as far as there is room."""
        self._head = words("", "field")
        self._spoken = words()
        self._spoken.setObjectName("spoken")
        self._spoken.setFont(theme.font(theme.LEAD + 4))
        self._promise = words("", "time")
        self._promise.setObjectName("promise")
        self._chance = words("", "small")
        self._dots = PromiseDots(1.25)
        self._agreed = words("", "small")
        self._notes = words("", "small")
        self._notes.setObjectName("notes")
        self._sure = words()
        self._sure.setObjectName("sure")
        self._rule = rule()
        self._lay_out()
        self.show_start()

    @property
    def _below(self) -> tuple[QWidget, ...]:
        """What may stand under the sentence, from top to bottom."""
        facts = (self._promise, self._dots, self._chance, self._notes, self._agreed)
        return (*facts, self._rule, self._sure)

    @property
    def spoken(self) -> str:
        """The sentence to read out."""
        return self._said

    def show_start(self) -> None:
        """Show how to begin: nobody is calling yet."""
        self._write("", say("phone", "start"))

    def show_nothing_found(self, text: str) -> None:
        """Show that no order matches ``text``."""
        self._write("", say("phone", "none", text=text))

    def show_looking(self, text: str) -> None:
        """Show that the records are being asked: what stood here was about somebody else."""
        self._write("", say("phone", "looking", text=text))

    def show_unsure(self, found: CallerMatch) -> None:
        """Show whose order it is, and nothing about it: the caller is to be asked first."""
        name, number = found.job.customer.name, str(found.job.number)
        self._write(say("phone", "unsure_head", name=name, number=number), say("phone", "unsure"))

    def show_match(self, found: CallerMatch) -> None:
        """Show what to say about an order, what was promised, and how to check the caller."""
        job = found.job
        head = say(
            "phone", "head", name=job.customer.name, number=str(job.number), matched=matched_words(found)
        )
        self._write(head, found.spoken)
        is_promise = job.is_open and not box_standing.waits_for_owner(job)
        self._show_promise(job)
        self._notes.setText("\n".join(found.notes))
        self._agreed.setText("\n".join(_agreements(job)))
        self._sure.setText(identity_check(found))
        told = {
            self._promise: is_promise,
            self._dots: is_promise and job.promise.day is not None,
            self._chance: is_promise and bool(self._chance.text()),
            self._notes: bool(found.notes),
            self._agreed: bool(job.agreements),
            self._rule: job.is_open,
            self._sure: True,
        }
        self._facts = tuple(widget for widget, is_told in told.items() if is_told)
        self._show_facts()

    @Slot(bool)
    def shorten(self, is_short: bool) -> None:
        """Show the sentence alone while a form is open below it, so that both are in sight."""
        self._is_short = is_short
        self._show_facts()

    def _show_facts(self) -> None:
        for widget in self._facts:
            widget.setVisible(not self._is_short)

    def _show_promise(self, job: Job) -> None:
        promise = job.promise
        if promise.day is None:
            self._promise.setText(say("phone", "no_date", why="; ".join(promise.held_by)))
            self._chance.setText("")
            return
        self._promise.setText(say("phone", "promised", day=day(promise.day)))
        times = times_in_twenty(promise.stated)
        kept = promise.stated >= _LEAST
        said = times in self.spoken  # not twice on one slip
        now = "" if said else say("phone", "chance_now", times=times)
        self._chance.setText(now if kept else say("phone", "chance_gone"))
        self._dots.show_promise(promise)

    def _write(self, head: str, spoken: str) -> None:
        self._head.setText(head)
        self._said = spoken
        self._spoken.setText(text.unbroken(spoken))
        self._head.setVisible(bool(head))
        self._facts = ()
        for widget in self._below:
            widget.hide()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, spoken))

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        margin = 3 * theme.UNIT
        column.setContentsMargins(margin, 2 * theme.UNIT, margin, 2 * theme.UNIT)
        column.setSpacing(theme.UNIT)
        for widget in (self._head, self._spoken, *self._below):
            column.addWidget(widget)
        column.addStretch(1)


def identity_check(found: CallerMatch) -> str:
    """What to ask to be sure who is calling, never what the caller has just said."""
    customer = found.job.customer
    digits = last_digits(customer.phone)
    if found.matched == "phone" or not (digits or "name" in found.matched):
        return say("phone", "sure_name", name=customer.name)
    if "name" not in found.matched:
        return say("phone", "sure_both", name=customer.name, digits=digits)
    return say("phone", "sure_phone", digits=digits) if digits else say("phone", "sure_nothing")


def _agreements(job: Job) -> list[str]:
    return [
        say(
            "phone",
            "agreed_line",
            who=each.who_agreed,
            day=short_day(shop_clock.day(each.at)),
            what=each.words,
        )
        for each in job.agreements
    ]


def last_digits(phone: str | None) -> str:
    """The last four digits of a phone number, or nothing."""
    return "".join(sign for sign in phone or "" if sign.isdigit())[-4:]
