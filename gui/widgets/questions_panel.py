"""What the clerk asks next, answered by one key, and what the customer must hear before paying."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QSpinBox, QVBoxLayout, QWidget

from core.catalogue import formats
from core.model.quote_records import Answer, Question, Quote, QuotedTape
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.hint import Hint
from gui.widgets.instant_buttons import InstantButton, InstantCheckBox
from gui.widgets.layouts import scrolled, stacked, words

_HEAD = 3 * theme.UNIT
_WORTH_TELLING = 0.5
"""Hours off the range from which the clerk is told what the question is good for."""


class QuestionPanel(QWidget):
    """One question at a time; Alt and a digit answers it, Alt+0 puts it off.

    Where a row holds several tapes the answer may hold for some of them only: Alt+M says for how many.
    """

    answered = Signal(object, int, int)
    """The question, the place of the answer in it, and the tapes that it holds for."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("asking")
        self._questions: tuple[Question, ...] = ()
        self._rows: tuple[int, ...] = ()
        self._put_off = 0
        self._head = Hint()
        self._head.setProperty("role", "attention")
        self._text = words()
        self._buttons: list[AnswerButton] = []
        self._later = InstantButton(say("counter", "later"))
        self._later.clicked.connect(self._pressed)
        self._many = QSpinBox()
        self._many_words = QLabel(say("counter", "how_many"))
        self._answers = QVBoxLayout()
        self._answers.setSpacing(4)
        self._lay_out()
        self.hide()

    def _lay_out(self) -> None:
        column = stacked(self, 4)
        column.addLayout(self._above())
        column.addWidget(self._text)
        answers = QHBoxLayout()
        answers.setSpacing(theme.UNIT)
        answers.addLayout(self._answers, 1)
        answers.addLayout(self._beside())
        column.addLayout(answers)
        column.addStretch(1)

    def _above(self) -> QHBoxLayout:
        self._later.setObjectName("answer-later")
        self._later.setAccessibleName(say("counter", "later").replace("&", ""))
        self._later.setProperty("role", "word")
        self._later.setFixedHeight(_HEAD)
        self._head.setMinimumHeight(_HEAD)
        self._head.setAlignment(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft)
        head = QHBoxLayout()
        head.addWidget(self._head, 1)
        head.addWidget(self._later)
        return head

    def _beside(self) -> QVBoxLayout:
        self._many.setObjectName("how-many")
        for part in (self._many, self._many.lineEdit()):
            part.setAccessibleName(say("counter", "how_many_name"))
        self._many_words.setBuddy(self._many)
        self._many.lineEdit().setTextMargins(6, 0, 0, 0)  # the style sheet's padding does not reach it
        self._many_words.setProperty("role", "field")
        beside = QVBoxLayout()
        beside.setSpacing(2)
        beside.addWidget(self._many_words)
        beside.addWidget(self._many)
        beside.addStretch(1)
        return beside

    @property
    def question(self) -> Question | None:
        """The question on show."""
        return self._questions[self._put_off % len(self._questions)] if self._questions else None

    def show_questions(self, questions: Sequence[Question], rows: Sequence[int]) -> None:
        """Show these; ``rows`` are the rows of the tray (from 1) that the questions' lines stand in."""
        if (tuple(questions), tuple(rows)) == (self._questions, self._rows):
            return
        before = self.question
        self._questions, self._rows = tuple(questions), tuple(rows)
        self._put_off = self._questions.index(before) if before in self._questions else 0
        self._write()

    def _write(self) -> None:
        question = self.question
        self.setVisible(question is not None)
        if question is None:
            return
        count, place = len(self._questions), self._put_off % len(self._questions)
        self._head.say(_heading(question, place, count))
        self._text.setText(say("counter", "ask_row", row=self._rows[place], text=question.text))
        self._later.setVisible(count > 1)
        self._ask_how_many(question)
        for n in range(len(self._buttons), len(question.answers)):
            self._buttons.append(AnswerButton(n + 1))
            self._buttons[n].clicked.connect(self._pressed)
            self._answers.addWidget(self._buttons[n])
        for n, button in enumerate(self._buttons):
            button.setVisible(n < len(question.answers))
            if n < len(question.answers):
                button.offer(question.answers[n])

    def _ask_how_many(self, question: Question) -> None:
        tapes = question.answers[0].draft.count
        self._many.setRange(1, tapes)
        self._many.setValue(tapes)
        self._many.setSuffix(say("counter", "how_many_of", tapes=tapes))
        for part in (self._many_words, self._many):
            part.setVisible(tapes > 1)

    @Slot()
    def _pressed(self) -> None:
        name = self.sender().objectName()
        question = self.question
        if name == "answer-later":
            self._put_off += 1
            self._write()
        elif question is not None:
            self.answered.emit(question, int(name.removeprefix("answer-")) - 1, self._many.value())


def _heading(question: Question, place: int, count: int) -> str:
    head = say("counter", "ask") if count == 1 else say("counter", "ask_of", n=place + 1, of=count)
    if question.hours_off < _WORTH_TELLING:
        return head
    return head + say("counter", "ask_worth", hours=f"{question.hours_off:.1f}".removesuffix(".0"))


class AnswerButton(InstantButton):
    """An answer on one line; too long a one is cut on the screen and whole in the tool tip."""

    def __init__(self, n: int) -> None:
        super().__init__()
        self._n = n
        self._whole = ""
        self.setObjectName(f"answer-{n}")
        self.setProperty("role", "answer")
        self.setFont(theme.font(theme.SMALL))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def offer(self, answer: Answer) -> None:
        """Stand for this answer."""
        both = f"{answer.words}: {answer.means}" if answer.means else answer.words
        self._whole = say("counter", "answer", n=self._n, words=both.replace("&", "&&"))
        self.setToolTip(both)
        self.setAccessibleName(f"{self._n}  {both}")
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        room = self.width() - 4 * theme.UNIT
        flags = int(Qt.TextFlag.TextShowMnemonic)
        shown = self.fontMetrics().elidedText(self._whole, Qt.TextElideMode.ElideRight, room, flags)
        if shown != self.text():
            self.setText(shown)


class CustomerNotices(QWidget):
    """Sentences for the customer, and the tick that they were said."""

    told_changed = Signal(object)
    """All that the customer has been told by now, a tuple of sentences."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("telling")
        self._must: tuple[str, ...] = ()
        self._said: tuple[str, ...] = ()
        self._head = Hint()
        self._head.setProperty("role", "attention")
        self._head.say(say("counter", "tell"))
        self._body = words()
        self._body.setTextFormat(Qt.TextFormat.RichText)
        self._body.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self._body.setObjectName("to-tell")
        self.told = InstantCheckBox(say("counter", "told"))
        self.told.setObjectName("told")
        self.told.setAccessibleName(say("counter", "told_name"))
        self.told.toggled.connect(self._ticked)
        column = stacked(self, 4)
        column.addWidget(self._head)
        self._head.setMinimumHeight(_HEAD)
        self._head.setAlignment(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft)
        area = scrolled(self._body, "telling-area")
        area.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        area.setAccessibleName(say("counter", "tell"))
        column.addWidget(area, 1)
        column.addWidget(self.told)

    @property
    def is_settled(self) -> bool:
        """Whether everything that must be said has been said."""
        return set(self._must) <= set(self._said)

    def show_quote(self, quote: Quote | None, said: tuple[str, ...] = ()) -> None:
        """Show what this quote has to say; one that is not among those ``said`` takes the tick away."""
        must = must_tell(quote.tapes) if quote else ()
        self._must, self._said = tuple(f"{which}: {words}" for which, words in must), said
        besides = [] if quote is None else _besides(quote)
        body = paragraphs((*must, *(("", words) for words in besides)), 4)
        if body != self._body.text():  # laid out anew it would cost a millisecond at every key
            self._body.setText(body)
        self.told.setVisible(bool(self._must))
        self.told.blockSignals(True)
        self.told.setChecked(bool(self._must) and self.is_settled)
        self.told.blockSignals(False)
        self.setVisible(bool(self._must or besides))

    @Slot(bool)
    def _ticked(self, told: bool) -> None:
        others = tuple(each for each in self._said if each not in self._must)
        self._said = (*others, *self._must) if told else others
        self.told_changed.emit(self._said)


def must_tell(tapes: Sequence[QuotedTape]) -> tuple[tuple[str, str], ...]:
    """Which tapes, and all that must be said about them: ``2 × VHS, 1 × Hi8`` and sentences."""
    about: dict[str, list[str]] = {}
    for tape in tapes:
        if tape.n == 1:
            name = formats.catalogue().format(tape.draft.format).words
            named = say("counter", "tell_row", count=tape.draft.count, words=name)
            for sentence in tape.verdict.told:
                about.setdefault(sentence, []).append(named)
    together: dict[str, list[str]] = {}
    for sentence, named_tapes in about.items():
        together.setdefault(", ".join(named_tapes), []).append(sentence)
    return tuple((which, " ".join(sentences)) for which, sentences in together.items())


def paragraphs(told: Sequence[tuple[str, str]], below: int) -> str:
    """The sentences as rich text, what they are about in bold; ``below`` is the gap in pixels."""
    style = f"margin: 0 0 {below}px 0"
    return "".join(
        f"<p style='{style}'>{f'<b>{escape(which)}</b> ' if which else ''}{escape(sentences)}</p>"
        for which, sentences in told
    )


def _besides(quote: Quote) -> list[str]:
    told = [sentence for tape in quote.tapes for sentence in tape.verdict.told]
    return [warning for warning in quote.warnings if not any(warning.endswith(each) for each in told)]
