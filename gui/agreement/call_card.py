"""The call card: what to say when the price would go over what was agreed, and the answer as it is given."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QSize, Signal, Slot
from PySide6.QtWidgets import QPushButton, QSizePolicy, QVBoxLayout, QWidget

from core.model.agreement_records import CeilingChoice, Consent, OfferedChoice
from core.model.copies.copy_questions import CopyChoice, CopyQuestion, MisfitReason, OfferedCopy
from core.model.errors import WrongInput
from core.model.price_questions import PriceQuestion
from core.wording.locale_figures import figure
from gui.agreement.consent_field import ConsentField
from gui.toolkit import theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import money, phone, say, short_day
from gui.widgets.figure_field import MoneyField
from gui.widgets.fitted_dialog import FittedDialog, dialog_button
from gui.widgets.layouts import empty, give_key, labelled, rule, scrolled, stacked, words
from gui.widgets.tray_rows import shell_words


@dataclass(frozen=True, slots=True)
class CallAnswer:
    """What the customer said."""

    choice: CeilingChoice | CopyChoice
    consent: Consent
    ceiling_minor: int | None
    """Another ceiling than the one offered; None: as offered."""


class CallCard(FittedDialog):
    """The script above, one button a choice below; Alt and its digit gives the answer."""

    answered = Signal(object)
    """A `CallAnswer`."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("agreeing", "card"))
        self._question: PriceQuestion | CopyQuestion | None = None
        self._whom = words("", "field")
        self._script = words()
        self._script.setObjectName("call-script")
        self._script.setFont(theme.font(theme.LEAD))
        self._wrong = words("", "small")
        self.consent = ConsentField("call")
        self.ceiling = MoneyField("call-ceiling")
        self.buttons: list[QPushButton] = []
        self._lay_out()

    def begin(self, question: PriceQuestion | CopyQuestion) -> None:
        """Lay the card out for one order and open it."""
        self._question = question
        standing, customer = question.standing, question.job.customer
        number = phone(customer.phone) if customer.phone else say("agreeing", "no_phone")
        self._whom.setText(say("agreeing", "whom", name=customer.name, phone=number))
        self._script.setText(script(question))
        self._wrong.hide()
        self.consent.begin(customer.name)
        self.ceiling.currency = standing.currency
        self.ceiling.clear()
        is_about_price = isinstance(question, PriceQuestion)
        self.setWindowTitle(say("agreeing", "card" if is_about_price else "copy_card"))
        self._other.setVisible(is_about_price)
        self._esc.setText(say("agreeing", "esc" if is_about_price else "copy_esc"))
        self._lay_choices(_offered(question))
        self.open()
        self.buttons[0].setFocus()

    @Slot()
    def _answer(self, choice: CeilingChoice | CopyChoice) -> None:
        try:
            raised = self.ceiling.minor() if self.ceiling.text().strip() else None
            ceiling = raised if choice is CeilingChoice.GO_ON else None
            answer = CallAnswer(choice, self.consent.consent(), ceiling)
        except WrongInput as wrong:
            self.show_wrong(wrong.sentence)
            return
        self.answered.emit(answer)

    def show_wrong(self, sentence: str) -> None:
        """Say in the card why an answer was not kept."""
        self._wrong.setText(sentence)
        self._wrong.show()

    def _lay_choices(self, offered: Sequence[tuple[CeilingChoice | CopyChoice, str]]) -> None:
        empty(self._choices)
        self.buttons = []
        for place, (choice, told) in enumerate(offered, 1):
            button = dialog_button(f"choice-{choice.value}", told)
            button.setProperty("role", "action")
            button.setMinimumHeight(button.sizeHint().height())
            button.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
            button.setToolTip(tip(button.text()))
            give_key(button, f"Alt+{place}")
            button.clicked.connect(partial(self._answer, choice))
            self._choices.addWidget(button)
            self.buttons.append(button)

    def sizeHint(self) -> QSize:
        """As large as all of it; where the window is smaller, it scrolls."""
        wide = 90 * theme.UNIT
        high = self._inside.heightForWidth(wide) if self._inside.hasHeightForWidth() else 0
        margins = 6 * theme.UNIT
        return QSize(wide + margins, max(high, self._inside.sizeHint().height()) + margins)

    def _lay_out(self) -> None:
        self._inside = QWidget()
        column = stacked(self._inside)
        self._choices: QVBoxLayout = stacked(inside := QWidget(), theme.UNIT // 2)
        self._other = labelled(self.ceiling, say("agreeing", "other_ceiling"))
        self._esc = words(say("agreeing", "esc"), "small")
        for widget in (
            self._whom,
            self._script,
            rule(),
            inside,
            self.consent,
            self._other,
            self._wrong,
            self._esc,
        ):
            column.addWidget(widget)
        column.addStretch(1)
        self.column().addWidget(scrolled(self._inside, "call-card"))


def script(question: PriceQuestion | CopyQuestion) -> str:
    """What to say on the phone, in one breath."""
    if isinstance(question, CopyQuestion):
        return _copy_script(question)
    standing = question.standing
    titles = {tape.code: tape.label or shell_words(tape) for tape in question.job.tapes}
    return say(
        "agreeing",
        "script",
        name=question.job.customer.name.split()[0],
        tapes=len(question.asking),
        tape=titles[question.asking[0].code],
        stands=money(standing.stands_minor, standing.currency),
        ceiling=money(standing.ceiling_minor, standing.currency),
    )


def _copy_script(question: CopyQuestion) -> str:
    misfit = question.misfit
    own = {each.id for each in question.job.copies if each.is_own_drive}
    titles = {tape.code: tape.label or shell_words(tape) for tape in question.job.tapes}
    return say(
        "agreeing",
        "copy_script",
        name=question.job.customer.name.split()[0],
        copy=misfit.words,
        own="yes" if misfit.item in own else "no",
        reason=misfit.reason.value,
        tape=titles.get(misfit.longest, "") if misfit.longest else "",
        needs=figure(misfit.needs, digits=0 if misfit.reason is MisfitReason.PIECES else 1),
        holds=figure(misfit.holds, digits=0 if misfit.reason is MisfitReason.PIECES else 1),
    )


def _offered(question: PriceQuestion | CopyQuestion) -> list[tuple[CeilingChoice | CopyChoice, str]]:
    """Each choice with the words of its button."""
    currency = question.standing.currency
    if isinstance(question, CopyQuestion):
        copies = enumerate(question.choices, 1)
        return [(each.choice, _copy_words(place, each, currency)) for place, each in copies]
    prices = enumerate(question.choices, 1)
    return [(each.choice, _button_words(place, each, currency)) for place, each in prices]


def _copy_words(place: int, each: OfferedCopy, currency: str) -> str:
    return say(
        "agreeing",
        f"copy-{each.choice.value}",
        key=f"Alt+{place}",
        copy=each.becomes.words,
        pieces=each.becomes.pieces,
        price=money(each.price_minor, currency),
        more="more" if each.more_minor > 0 else "less" if each.more_minor < 0 else "same",
        by=money(abs(each.more_minor), currency),
        day="none" if each.day is None else short_day(each.day),
    )


def _button_words(place: int, each: OfferedChoice, currency: str) -> str:
    return say(
        "agreeing",
        f"choice-{each.choice.value}",
        key=f"Alt+{place}",
        price=money(each.price_minor, currency),
        ceiling=money(each.ceiling_minor, currency),
        leaves=len(each.leaves),
        day="none" if each.day is None else short_day(each.day),
    )
