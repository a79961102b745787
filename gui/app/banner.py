"""One line above the screen: what was done, or why something cannot be, with the way out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QFont, QKeySequence, QShortcut
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QWidget

from core.model.errors import NotPermitted, Refused, TapewrightError, Unavailable, WrongInput
from core.model.own_shop.setup_pages import NotSetUp, SetupPage
from core.wording.messages import say
from gui.toolkit import actions, theme
from gui.toolkit.plain_text import plain_label
from gui.widgets.layouts import give_key

if TYPE_CHECKING:
    from datetime import datetime


class Banner(QFrame):
    """Word first, then colour: ``Done``, ``Not possible``, ``Please check``, ``Not reachable``.

    One that refuses is closed by Esc before Esc means anything else, save in a list that is open; one that
    says what was done takes no key from anybody.
    """

    wants_page = Signal(object)
    """The `SetupPage` without which something cannot be done."""
    wants_sign_in = Signal(str)
    """Somebody who may do it is to sign in: the first of them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "banner")
        self._page: SetupPage | None = None
        self._who_may = ""
        self._out = QPushButton()
        self._out.setObjectName("way-out")
        self._out.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._out.clicked.connect(self._go_there)
        give_key(self._out, actions.WAY_OUT.keys)
        self._word = plain_label()
        self._word.setFont(theme.font(theme.BODY, QFont.Weight.Bold))
        self._sentence = plain_label()
        self._sentence.setWordWrap(True)
        self._sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._close = QPushButton(say("window", "close_banner"))
        self._close.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._close.clicked.connect(self.clear)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.clear)
        self._lay_out()
        self.hide()

    @property
    def sentence(self) -> str:
        """What stands there now, or nothing."""
        return "" if self.isHidden() else self._sentence.text()

    @Slot(str)
    def say(self, sentence: str) -> None:
        """Something was done; goes away by itself after a while."""
        self._show(say("window", "done"), sentence, "time")
        self._first.setEnabled(False)
        self._timer.start(12_000)

    @Slot(object)
    def say_repeated(self, moment: datetime) -> None:
        """What was just asked for had been stored before."""
        self.say(say("window", "saved_before", time=_clock(moment)))

    @Slot(object)
    def say_stored(self, moments: tuple[datetime, ...]) -> None:
        """What nobody had answered was stored all the same; stays until the next thing is done."""
        self.say(say("window", "saved_after_all", count=len(moments), time=_clock(moments[0])))
        self._timer.stop()

    @Slot(object)
    def refuse(self, failure: TapewrightError) -> None:
        """Something was not done; stays until closed or until the next thing is done."""
        self._timer.stop()
        self._show(_word_for(failure), failure.sentence, "attention")
        self._first.setEnabled(True)
        if isinstance(failure, NotSetUp):
            self._page = failure.pages[0]
            title = say("settings", f"title-{self._page.value}")
            self._show_way_out(say("settings", "first-way-out", page=title, keys=actions.WAY_OUT.keys))
        elif isinstance(failure, NotPermitted) and failure.who_may:
            self._page, self._who_may = None, failure.who_may[0]
            self._show_way_out(say("window", "sign-in-way-out", keys=actions.WAY_OUT.keys))

    def _show_way_out(self, words: str) -> None:
        self._out.setText(words)
        self._out.show()

    @Slot()
    def _go_there(self) -> None:
        self.clear()
        if self._page is not None:
            self.wants_page.emit(self._page)
        else:
            self.wants_sign_in.emit(self._who_may)

    @Slot()
    def clear(self) -> None:
        self._timer.stop()
        self.hide()

    def _show(self, word: str, sentence: str, ink: str) -> None:
        self._word.setText(word)
        for widget in (self, self._word):
            widget.setProperty("ink", ink)
            widget.style().polish(widget)
        self._sentence.setText(sentence)
        self._out.hide()
        spoken = say("window", "banner_read", word=word, sentence=sentence)
        self.setAccessibleName(spoken)
        self.show()
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, spoken))

    def _lay_out(self) -> None:
        self._first = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        self._first.setAutoRepeat(False)
        self._first.activated.connect(self.clear)
        row = QHBoxLayout(self)
        row.setContentsMargins(2 * theme.UNIT, theme.UNIT // 2, theme.UNIT, theme.UNIT // 2)
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(self._word)
        row.addWidget(self._sentence, 1)
        row.addWidget(self._out)
        row.addWidget(self._close)


def _clock(moment: datetime) -> str:
    """The time of day on this computer."""
    from core.wording import locale_figures  # not before the first paint

    return locale_figures.time_of_day(moment.astimezone())


def _word_for(failure: TapewrightError) -> str:
    if isinstance(failure, WrongInput):
        return say("window", "check")
    if isinstance(failure, Refused):
        return say("window", "not_possible")
    if isinstance(failure, Unavailable):
        return say("window", "not_reachable")
    return say("window", "sorry")
