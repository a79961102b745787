"""The slip of a pickup: what to say, what is due, who signs. It becomes the receipt."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QCheckBox, QFrame, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.pickup_records import Signature
from core.model.quote_records import Price
from core.model.tape_records import TapeRecord
from gui.pickup import farewell
from gui.pickup.signature_pad import SignaturePad
from gui.pickup.sums import Sums
from gui.toolkit import theme
from gui.toolkit.text import money, say
from gui.widgets.figure_field import MoneyField
from gui.widgets.layouts import empty, give_key, labelled, rule, stacked, words


class Handover(QFrame):
    """Everything that is said, paid and signed at one pickup."""

    wanted = Signal()
    """Hand back what is checked off."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("handover")
        self.setProperty("role", "slip")
        self._head = words("", "heading")
        self._under = words("", "small")
        self.said: tuple[str, ...] = ()
        """The sentences to be said now."""
        self._told = QWidget()
        self._said_column = stacked(self._told, 4)
        self.sums = Sums()
        self.paid = MoneyField("paid")
        self.signer = QLineEdit()
        self.signer.setObjectName("signer")
        self.pad = SignaturePad()
        self.on_paper = QCheckBox(say("pickup", "on_paper"))
        self.on_paper.setObjectName("on-paper")
        give_key(self.on_paper, "Alt+S")
        self.button = QPushButton(say("pickup", "hand_back"))
        self.button.setObjectName("hand-back")
        self.button.setProperty("role", "main")
        give_key(self.button, "Ctrl+Return")
        self._lay_out()
        self.pad.changed.connect(self._signed)
        self.button.clicked.connect(self.wanted)
        self.name_what("")

    def begin(self, job: Job) -> None:
        """A job is in hand."""
        self._head.setText(job.customer.name)
        self._under.setText(say("pickup", "whole_job", number=job.number))
        self.signer.setText(job.customer.name)
        self.pad.clear()
        self.on_paper.setChecked(False)

    def tell(self, tapes: Sequence[TapeRecord]) -> None:
        """The sentences for the tapes that go."""
        self.said = farewell.sentences(tapes)
        empty(self._said_column)
        for sentence in self.said:
            self._said_column.addWidget(words(sentence))

    def reckon(self, price: Price, paid_before: int) -> None:
        """Price, what was paid, what is due; the due amount is what they pay unless changed."""
        due = price.gross.likely - paid_before
        self.paid.currency = price.currency
        self.sums.show_sums(
            (
                (f"{say('pickup', 'price')} ({price.tax_words})", money(price.gross.likely, price.currency)),
                (say("pickup", "paid_before"), money(paid_before, price.currency)),
            ),
            (say("pickup", "due"), money(due, price.currency)),
        )
        self.paid.show_minor(max(due, 0))

    def name_what(self, what: str) -> None:
        """Say on the button what goes."""
        text = say("pickup", "hand_back_these", what=what) if what else say("pickup", "hand_back")
        self.button.setText(text)

    def signature(self) -> Signature:
        """Who signed and how; Refused, or WrongInput, says what is missing and the way out."""
        name = self.signer.text().strip()
        if not name:
            self.signer.setFocus()
            raise WrongInput(say("pickup", "no_name"), name, say("pickup", "no_name_accepted"))
        if self.on_paper.isChecked():
            return Signature(name)
        if self.pad.is_empty:
            self.pad.setFocus()
            raise Refused(say("pickup", "nobody_signed"))
        return self.pad.signature(name)

    @Slot()
    def _signed(self) -> None:
        if not self.pad.is_empty:
            self.on_paper.setChecked(False)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        margin = 2 * theme.UNIT
        column.setContentsMargins(margin, theme.UNIT + 4, margin, theme.UNIT + 4)
        column.setSpacing(theme.UNIT)
        column.addLayout(self._build_head())
        column.addWidget(words(say("pickup", "tell"), "field"))
        column.addWidget(self._told)
        column.addWidget(rule())
        column.addWidget(self.sums)
        column.addSpacing(theme.UNIT)
        fields = QHBoxLayout()
        fields.setSpacing(2 * theme.UNIT)
        fields.addWidget(labelled(self.paid, say("pickup", "take_now")), 2)
        fields.addWidget(labelled(self.signer, say("pickup", "name")), 3)
        column.addLayout(fields)
        column.addSpacing(theme.UNIT)
        column.addWidget(self._build_pad())
        column.addStretch(1)
        column.addWidget(self.button)

    def _build_head(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.addWidget(self._head, 1)
        self._under.setWordWrap(False)
        row.addWidget(self._under)
        return row

    def _build_pad(self) -> QWidget:
        both = QWidget()
        column = stacked(both, 4)
        row = QHBoxLayout()
        row.addWidget(self.pad)
        clear = QPushButton(say("pickup", "pad_clear"))
        clear.setObjectName("pad-clear")
        clear.setProperty("role", "quiet")
        clear.clicked.connect(self.pad.clear)
        row.addWidget(clear, 0, Qt.AlignmentFlag.AlignBottom)
        row.addStretch(1)
        column.addLayout(row)
        column.addWidget(self.on_paper)
        return both
