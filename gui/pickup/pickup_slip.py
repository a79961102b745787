"""The slip of a pickup: what to say, what is due, who signs. It becomes the receipt."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.model.errors import WrongInput
from core.model.folding import folded
from core.model.handover_records import HandoverWishes
from core.model.job_records import Job
from core.model.quote_records import Price
from core.model.signatures import Signature
from core.model.tape_records import TapeRecord
from gui.pickup import pickup_sentences
from gui.pickup.amount_list import AmountList
from gui.pickup.signature_form import SignatureForm
from gui.toolkit import theme
from gui.toolkit.text import money, say
from gui.widgets.figure_field import MoneyField
from gui.widgets.layouts import PaperFrame, empty, give_key, hinted, labelled, rule, stacked, words


class PickupSlip(PaperFrame):
    """Everything that is said, paid and signed at one pickup."""

    hand_back_wanted = Signal()

    def __init__(self) -> None:
        super().__init__("pickup-slip")
        self.sentences: tuple[str, ...] = ()
        """What the clerk says to the customer now."""
        self._customer = words("", "heading")
        self._number = words("", "small", wrap=False)
        self._told = QWidget()
        self._told_column = stacked(self._told)
        self.amounts = AmountList()
        self.paid = MoneyField("paid")
        self.signer = QLineEdit()
        self.signer.setObjectName("signer")
        self.shown = QLineEdit()
        self.shown.setObjectName("shown")
        hinted(self.shown, say("pickup", "shown_hint"))
        self._collector = words("", "small")
        self._customer_name = ""
        self.signing = SignatureForm()
        self.button = QPushButton()
        self.button.setObjectName("hand-back")
        self.button.setProperty("role", "main")
        give_key(self.button, "Ctrl+Return")
        self.button.clicked.connect(self.hand_back_wanted)
        self._lay_out()
        self.show_checked("")

    def begin(self, job: Job) -> None:
        """Show the head of the slip for a job; nobody has signed yet."""
        self._customer.setText(job.customer.name)
        self._number.setText(say("pickup", "whole_job", number=job.number))
        self._customer_name = job.customer.name
        self.shown.clear()
        self._collector.hide()
        self.signer.setText(job.customer.name)
        self.signing.clear()

    def show_wishes(self, wishes: HandoverWishes) -> None:
        """Show who was named beforehand to collect, if anybody was."""
        named = wishes.collector
        if named is not None:
            told = say("pickup", "named", who=named.words, said_by=named.said_by, by=named.by)
            self._collector.setText(told)
        self._collector.setVisible(named is not None)

    @property
    def what_was_shown(self) -> str:
        """What somebody else than the customer showed, in words."""
        return "" if self._shown_field.isHidden() else self.shown.text().strip()

    @Slot(str)
    def _signer_changed(self, name: str) -> None:
        """Somebody else than the customer is asked what they show."""
        self._shown_field.setHidden(folded(name) == folded(self._customer_name))

    def show_sentences(self, tapes: Sequence[TapeRecord], copies: Sequence[str] = ()) -> None:
        """Show what to say about these tapes, and the sentences about copies."""
        self.sentences = pickup_sentences.sentences(tapes, copies)
        empty(self._told_column)
        for sentence in self.sentences:
            self._told_column.addWidget(words(sentence, "lead"))

    def show_amounts(self, price: Price, paid_before: int) -> None:
        """Show price, payments in minor units, and balance; the balance is proposed as the payment."""
        due = price.due.likely - paid_before
        currency = self.paid.currency = price.currency
        total = say("pickup", "price_with_tax", tax=price.tax_words or "none")
        sums = [(total, price.gross.likely)]
        if price.is_rounded:
            sums.append((say("pickup", "rounding"), price.rounding.likely))
        sums.append((say("pickup", "paid_before"), paid_before))
        self.amounts.show_amounts(
            tuple((what, money(minor, currency)) for what, minor in sums),
            (say("pickup", "due"), money(due, currency)),
        )
        self.paid.show_minor(max(due, 0))

    def show_checked(self, summary: str) -> None:
        """Name on the button what is checked off, as `Checklist.summary`."""
        text = say("pickup", "hand_back_these", what=summary) if summary else say("pickup", "hand_back")
        self.button.setText(text)

    def signature(self) -> Signature:
        """Who signed and how; WrongInput without a name, Refused while nobody has signed."""
        name = self.signer.text().strip()
        if not name:
            self.signer.setFocus()
            raise WrongInput(say("pickup", "no_name"), name, say("pickup", "no_name_accepted"))
        return self.signing.signature(name)

    def _lay_out(self) -> None:
        margin = 2 * theme.UNIT
        self.column.setContentsMargins(margin, theme.UNIT + 4, margin, theme.UNIT + 4)
        head = QHBoxLayout()
        head.addWidget(self._customer, 1)
        head.addWidget(self._number)
        self.column.addLayout(head)
        self.column.addWidget(words(say("pickup", "tell"), "field"))
        self.column.addWidget(self._told)
        self.column.addWidget(rule())
        self.column.addWidget(self.amounts)
        self.column.addSpacing(theme.UNIT)
        self._lay_out_fields()
        self.column.addStretch(1)

    def _lay_out_fields(self) -> None:
        fields = QHBoxLayout()
        fields.setSpacing(2 * theme.UNIT)
        fields.addWidget(labelled(self.paid, say("pickup", "take_now")), 2)
        fields.addWidget(labelled(self.signer, say("pickup", "name")), 3)
        self.column.addLayout(fields)
        self.column.addWidget(self._collector)
        self._shown_field = labelled(self.shown, say("pickup", "shown"))
        self.column.addWidget(self._shown_field)
        self._shown_field.hide()
        self.signer.textChanged.connect(self._signer_changed)
        self.column.addSpacing(theme.UNIT)
        self.column.addWidget(self.signing)
