"""The shell: the five moments along the top, a banner, and the screen of the moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QCloseEvent, QKeyEvent, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QMainWindow,
    QVBoxLayout,
    QWidget,
)

from core.wording.messages import say
from gui.app.banner import Banner
from gui.app.closing import Closing
from gui.app.help_at_hand import HelpAtHand
from gui.app.link_strip import LinkStrip
from gui.app.list_keys import ListKeys
from gui.app.moments_bar import MomentsBar
from gui.app.scan_hearing import ScanHearing
from gui.app.screen_stack import ScreenStack
from gui.toolkit import actions, growth, theme
from gui.widgets.practice_strip import PracticeStrip

if TYPE_CHECKING:
    from collections.abc import Collection

    from gui.toolkit.screen import Screen
    from gui.toolkit.screen_context import Desk


_GROWS_AFTER_MS = 120
"""How long the edge of the window rests before it is dressed anew, which takes most of a second."""


class Window(QMainWindow):
    """The program's one main window. It paints first; the screens come with the first records."""

    first_painted = Signal()
    closed = Signal()
    turned = Signal(str)
    """To the screen of this moment."""
    wants_customer_side = Signal()
    wants_sign_in = Signal()
    wants_practice_afresh = Signal()
    wants_to_leave_practice = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("window")
        self.resize(1280, 800)
        self.setMinimumSize(480, 320)
        self._painted = False
        self._growing = QTimer(self, interval=_GROWS_AFTER_MS, singleShot=True)
        self._growing.timeout.connect(self.grow)
        self._desk: Desk | None = None
        self._shop_name = "Tapewright"
        self._unsaved = False
        self._is_practice = False
        self.banner = Banner()
        self._stack = ScreenStack()
        self.practice = PracticeStrip()
        self.link = LinkStrip()
        self._bar = MomentsBar(self)
        self.closing = Closing(self)
        self.scans = ScanHearing(self)
        ListKeys(self)
        self.closing.wanted.connect(self.close)
        self.moments = self._bar.moments
        self.help = HelpAtHand(self)
        self._build()
        self._retitle()

    def show_alone(self, page: QWidget | None) -> None:
        """A page that comes before any shop is open, without the moments; None: say that one is opening."""
        self._drop_screens()
        self._bar.hide()
        self._stack.show_alone(page)
        self._retitle()

    def say_waiting(self, sentence: str) -> None:
        """What is waited for, in the middle of the empty window."""
        self._stack.say_waiting(sentence)
        self.show_alone(None)

    def lay(self, screen: Screen) -> None:
        """Bring in a screen that `add_screens` will name: all at once would keep the window waiting."""
        self._stack.addWidget(screen)

    def add_screens(
        self,
        desk: Desk,
        shop_name: str,
        screens: dict[str, Screen],
        *,
        first: str = "counter",
        is_practice: bool = False,
    ) -> None:
        """The shop is open: bring in the screens and go to the first."""
        self._drop_screens(screens.values())
        self._bar.show()
        self._is_practice = is_practice
        self.practice.tell(is_practice)
        for action in self._of_practice:
            action.setEnabled(is_practice)
        self._desk = desk
        self._shop_name = shop_name
        self._stack.add(screens)
        for screen in screens.values():
            screen.said.connect(self.banner.say)
            screen.refused.connect(self.banner.refuse)
            screen.wants_moment.connect(self.scans.take_to)
            screen.unsaved_changed.connect(self._note_unsaved)
        desk.work.changed.connect(self._spread)
        desk.work.refused.connect(self.banner.refuse)
        desk.work.sent.repeated.connect(self.banner.say_repeated)
        desk.work.sent.stored_after_all.connect(self.banner.say_stored)
        self.show_who()
        self._bar.reword()
        self.go(first)

    @Slot(str)
    def go(self, name: str) -> None:
        """Turn to the screen of a moment."""
        if self._stack.turn_to(name):
            self._retitle()
            self.scans.turned_to(self._stack.screens[name])
            self.turned.emit(name)
        screen = self.screen_on_show()
        self._bar.mark("" if screen is None else screen.name.lower())

    def screen_named(self, name: str) -> Screen:
        """The screen of a moment; KeyError when there is none."""
        return self._stack.screens[name]

    def screen_on_show(self) -> Screen | None:
        """The screen in front, or None while the shop is opening."""
        return self._stack.on_show()

    # --- who is here ---------------------------------------------------------------------

    @property
    def is_covered(self) -> bool:
        """Whether something stands before the screens."""
        return self._stack.is_covered

    def add_cover(self, page: QWidget) -> None:
        """Bring in a page that is not shown before `cover`."""
        self._stack.addWidget(page)

    def cover(self, page: QWidget) -> None:
        """Put a page of `add_cover` before the screens; their keys do nothing until they are uncovered."""
        if self._stack.cover(page):
            self.banner.clear()
            self._bar.let_turn(False)

    def uncover(self) -> None:
        """Back to the screen that was covered."""
        if self.is_covered:
            self._bar.let_turn(True)
            self._stack.uncover()
            self._retitle()

    def show_who(self) -> None:
        """Show the name of the person acting."""
        if self._desk is not None:
            self._bar.identity.show_names(self._shop_name, self._desk.who, self._sign_in.toolTip())
            self._retitle()

    # --- Qt's own ------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._painted:
            self._painted = True
            self.first_painted.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._painted:
            self._growing.start()  # while an edge is drawn along, once is enough
        else:
            self.grow()

    @Slot()
    def grow(self) -> None:
        """Wear the grid and type that belong to the window's size."""
        self._growing.stop()
        growth.grow_with(self, self.width(), self.height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.banner.clear()
            return
        super().keyPressEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        if self.closing.is_under_way:
            event.ignore()
            return
        if self._desk is not None:
            self._stack.leave()
            if not self.closing.may_close(self._desk.work, self._stack.screens.values()):
                event.ignore()
                return
            self.hide()  # what is under way may take some seconds to end
            self._desk.work.close()
            self._desk = None
        self.closed.emit()
        event.accept()

    # --- inside --------------------------------------------------------------------------

    def _build(self) -> None:
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.practice)
        column.addWidget(self.link)
        column.addWidget(self._bar)
        self._bar.chosen.connect(self.go)
        rule = QWidget()
        rule.setFixedHeight(1)
        rule.setObjectName("rule")
        column.addWidget(rule)
        inner = QVBoxLayout()
        inner.setContentsMargins(2 * theme.UNIT, theme.UNIT // 2, 2 * theme.UNIT, 2 * theme.UNIT)
        inner.setSpacing(theme.UNIT)
        inner.addWidget(self.banner)
        inner.addWidget(self._stack, 1)
        column.addLayout(inner, 1)
        self.setCentralWidget(whole)
        actions.action(actions.QUIT, self).triggered.connect(self.close)
        actions.action(actions.CUSTOMER_SIDE, self).triggered.connect(self.wants_customer_side)
        actions.action(actions.LOOK, self).triggered.connect(self._next_look)
        self._sign_in = actions.action(actions.SIGN_IN, self)
        self._sign_in.triggered.connect(self.wants_sign_in)
        self._bar.identity.clicked.connect(self.wants_sign_in)
        ways = {
            actions.AFRESH: self.wants_practice_afresh,
            actions.LEAVE_PRACTICE: self.wants_to_leave_practice,
        }
        self._of_practice = [actions.action(key, self) for key in ways]
        for action, wanted in zip(self._of_practice, ways.values(), strict=True):
            action.triggered.connect(wanted)
            self.practice.ways[action.objectName()].clicked.connect(action.trigger)
        for action in self._of_practice:
            action.setEnabled(False)

    def _drop_screens(self, but: Collection[Screen] = ()) -> None:
        """The screens of the shop that was open, or the page that stood there alone, go."""
        self._stack.drop(but)
        if self._desk is not None:
            self._desk.work.changed.disconnect(self._spread)
            self._desk.work.refused.disconnect(self.banner.refuse)
        self._bar.let_turn(True)
        self.help.forget()
        self._desk, self._unsaved, self._is_practice = None, False, False
        self._shop_name = "Tapewright"
        self.practice.tell(False)

    @Slot(object)
    def _spread(self, changed: frozenset[str]) -> None:
        for screen in self._stack.screens.values():
            screen.note_change(changed)

    @Slot(bool)
    def _note_unsaved(self, unsaved: bool) -> None:
        self._unsaved = unsaved
        self._retitle()

    def _retitle(self) -> None:
        parts = [self._shop_name]
        if self._is_practice:
            parts.insert(0, say("settings", "first-practice-title"))
        screen = self.screen_on_show()
        if screen is not None:
            parts.append(say("window", screen.name.lower()))
        if self._desk is not None:
            parts.append(self._desk.who)
        if self._unsaved:
            parts.append(say("window", "not_booked"))
        self.setWindowTitle(" — ".join(parts))

    @Slot()
    def _next_look(self) -> None:
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        looks = list(theme.LOOKS.values())
        worn = looks.index(theme.current_tokens(app))
        theme.apply(app, looks[(worn + 1) % len(looks)])

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.update()
