"""Taking back what was entered by mistake, or is over: it stays in the history, with the reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from core.capture.file_report import CapturedFile
from core.model.dispositions import Disposition
from core.model.errors import WrongInput
from core.model.names import AnyFinding, Finding, FindingKey
from core.model.repair_records import RepairAttempt, Splice
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from gui.bench import repair_sentences
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, stacked
from gui.widgets.tray import Tray, TrayItem


@dataclass(frozen=True, slots=True)
class SignedBy:
    """The sign-off of the copied files that stands."""

    name: str


Withdrawable = AnyFinding | Splice | RepairAttempt | CapturedFile | Disposition | SignedBy


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """What is taken back and why: what became of it, a sign-off, a finding, a splice, a repair or a file."""

    what: Withdrawable
    because: str


class WithdrawalForm(QWidget):
    """What stands on a tape and could be wrong; the arrows choose, the reason is typed."""

    wanted = Signal(object)
    """A `Withdrawal`."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._choices: dict[str, Withdrawable] = {}
        self.list = Tray("take-back-choices", say("bench", "take_back"), always_lit=True)
        self.list.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.reason = QLineEdit()
        self.reason.setObjectName("take-back-reason")
        self.reason.installEventFilter(self)
        self.reason.returnPressed.connect(self._take)
        button = QPushButton(say("bench", "take_back_save"))
        button.setProperty("role", "main")
        button.clicked.connect(self._take)
        column = stacked(self)
        column.addWidget(self.list, 1)
        column.addWidget(labelled(self.reason, say("bench", "take_back_why")))
        column.addWidget(button)

    def begin(self, tape: TapeRecord, files: Sequence[CapturedFile] = ()) -> None:
        """Offer what can be taken back on this tape; of its files, oldest first, only the last."""
        self.reason.clear()
        became = (tape.disposition,) if tape.is_settled and tape.disposition else ()
        entered: tuple[Withdrawable, ...] = (*tape.findings, *tape.joints, *tape.tried[-1:], *files[-1:])
        signed = (SignedBy(tape.signed_off_by),) if tape.signed_off_by else ()
        standing: tuple[Withdrawable, ...] = (*signed, *became, *entered)
        self._choices = {f"choice-{place}": each for place, each in enumerate(standing)}
        self.list.lay([TrayItem(key, _words(each), _more(each)) for key, each in self._choices.items()])
        self.list.stand_on_first()

    @Slot()
    def _take(self) -> None:
        because = self.reason.text().strip()
        if not self.list.current:
            return
        if not because:
            self.reason.setFocus()
            self.refused.emit(WrongInput(say("bench", "take_back_why"), because, say("bench", "few_words")))
            return
        self.wanted.emit(Withdrawal(self._choices[self.list.current], because))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        return self.list.steered_by(event)


def _words(what: Withdrawable) -> str:
    if isinstance(what, SignedBy):
        return say("checking", "not_signed_off", name=what.name)
    if isinstance(what, CapturedFile):
        return say("capture", "not_its_file", name=what.report.name)
    if isinstance(what, Disposition):
        return say("bench", "not_settled", became=spoken(what))
    if isinstance(what, (Finding, FindingKey)):
        return say("bench", "no_longer", finding=spoken(what))
    if isinstance(what, Splice):
        return say("repair", "strike", at=repair_sentences.at(what))
    return say("repair", "strike_repair", what=what.words)


def _more(what: Withdrawable) -> str:
    return what.note if isinstance(what, RepairAttempt) else ""
