"""What the clerk asks next, answered by one key."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QSpinBox, QVBoxLayout, QWidget

from core.model.quote_records import Question
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import say
from gui.widgets.answer_button import AnswerButton
from gui.widgets.hint import Hint
from gui.widgets.instant_buttons import InstantButton
from gui.widgets.layouts import stacked, words

_HEAD = theme.Length(3)
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
        self._many_words = plain_label(say("counter", "how_many"))
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
        self._later.setFixedHeight(_HEAD.px)
        self._head.setMinimumHeight(_HEAD.px)
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
    if question.hours_off < _WORTH_TELLING:
        return say("counter", "ask", n=place + 1, of=count)
    return say("counter", "ask_worth", n=place + 1, of=count, hours=round(question.hours_off, 1))
