"""What the customer must hear before paying, and the tick that it was said."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.quote_records import Quote
from gui.toolkit import actions, theme
from gui.toolkit.text import say
from gui.widgets import notice_sentences as notices
from gui.widgets.hint import Hint
from gui.widgets.instant_buttons import InstantCheckBox
from gui.widgets.layouts import scrolled, stacked, words

_HEAD = theme.Length(3)


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
        self._body = words()
        self.told = InstantCheckBox(say("counter", "told", keys=actions.TOLD.keys))
        self._build()
        self._lay_out()

    def _build(self) -> None:
        self._head.setProperty("role", "attention")
        self._head.say(say("counter", "tell"))
        self._head.setMinimumHeight(_HEAD.px)
        self._head.setAlignment(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft)
        self._body.setObjectName("to-tell")
        self._body.setTextFormat(Qt.TextFormat.RichText)
        self._body.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.told.setObjectName("told")
        self.told.setAccessibleName(say("counter", "told_name"))
        self.told.toggled.connect(self._ticked)

    def _lay_out(self) -> None:
        column = stacked(self, 4)
        column.addWidget(self._head)
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
        must = notices.must_tell(quote.tapes) if quote else ()
        self._must, self._said = (
            tuple(say("counter", "told_about", which=which, sentences=words) for which, words in must),
            said,
        )
        besides = [] if quote is None else notices.besides(quote)
        body = notices.paragraphs((*must, *(("", words) for words in besides)), 4)
        if body != self._body.text():  # laid out anew it would cost a millisecond at every key
            self._body.setText(body)
        self.told.setVisible(bool(self._must))
        self.told.blockSignals(True)
        self.told.setChecked(bool(self._must) and self.is_settled)
        self.told.blockSignals(False)
        self.setVisible(bool(self._must or besides))

    @Slot()
    def say_told(self) -> None:
        """By key: the customer was told, or not after all; nothing where there is nothing to tell."""
        if not self.told.isHidden() and not self.isHidden():
            self.told.toggle()

    @Slot(bool)
    def _ticked(self, told: bool) -> None:
        others = tuple(each for each in self._said if each not in self._must)
        self._said = (*others, *self._must) if told else others
        self.told_changed.emit(self._said)
