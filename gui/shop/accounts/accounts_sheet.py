"""The sheet on money: the drawer, then what was taken and invoiced today, this month or this year."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from core.model.accounts.taking_records import Takings
from core.services.accounts import account_words
from core.wording import locale_figures
from gui.shop.accounts.drawer_form import DrawerForm
from gui.toolkit import theme
from gui.toolkit.text import money, say
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import PaperFrame, empty, rule, words

_SHOWN = 12
"""Invoices that are listed; the journal has all."""


class AccountsSheet(PaperFrame):
    """What lies in the drawer comes first: it is counted every day."""

    span_wanted = Signal(str)
    """``day``, ``month`` or ``year``."""
    journal_wanted = Signal()

    def __init__(self) -> None:
        super().__init__("chapter-accounts")
        self.drawer = DrawerForm()
        self.head = words("", "heading")
        self.head.setObjectName("takings-head")
        self.spans = {
            "day": key_button("takings-day", "Alt+D", say("accounts", "show-day")),
            "month": key_button("takings-month", "Alt+M", say("accounts", "show-month")),
            "year": key_button("takings-year", "Alt+Y", say("accounts", "show-year")),
        }
        self.journal = key_button("takings-journal", "F7", say("accounts", "write-journal"))
        self._facts = QVBoxLayout()
        self._lay_out()
        for span, button in self.spans.items():
            button.clicked.connect(lambda _=False, span=span: self.span_wanted.emit(span))
        self.journal.clicked.connect(self.journal_wanted)

    def show_takings(self, found: Takings) -> None:
        """The books of some days."""
        span = locale_figures.span(found.first, found.last)
        self.head.setText(say("accounts", "head-taken", span=span))
        facts = FactList(20 * theme.UNIT)
        if not found.by_method and not found.invoices:
            facts.add("", [say("accounts", "told-none", span=span)])
        self._tell_taken(facts, found)
        self._tell_invoiced(facts, found)
        empty(self._facts)
        self._facts.addWidget(facts)

    def _tell_taken(self, facts: FactList, found: Takings) -> None:
        currency = found.currency
        lines = [account_words.taken(each, currency) for each in found.by_method]
        facts.add(say("accounts", "fact-taken"), lines)
        if len(lines) > 1:
            facts.add(say("accounts", "fact-all"), [money(found.taken_minor, currency)], "figure")
        if found.rounding_minor:
            facts.add(say("accounts", "fact-rounding"), [money(found.rounding_minor, currency)])

    def _tell_invoiced(self, facts: FactList, found: Takings) -> None:
        currency = found.currency
        if found.invoices:
            told = account_words.invoiced(found.due_minor, found.net_minor, currency)
            facts.add(say("accounts", "fact-invoiced"), [told])
        taxes = [account_words.tax(each, currency) for each in found.taxes if each.words]
        facts.add(say("accounts", "fact-taxes"), taxes)
        given = [account_words.invoice(each) for each in found.invoices[-_SHOWN:]]
        more = len(found.invoices) - len(given)
        facts.add(
            say("accounts", "fact-papers"), [*given, *([say("accounts", "more", n=more)] if more else [])]
        )

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("shop", "accounts"), "heading"))
        self.column.addWidget(self.drawer)
        self.column.addWidget(rule())
        self.column.addWidget(self.head)
        self.column.addWidget(ButtonRow([*self.spans.values(), self.journal]))
        self.column.addLayout(self._facts)
        self.column.addWidget(words(say("accounts", "law"), "small"))
