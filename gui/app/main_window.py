"""The shell: the five moments along the top, a banner, and the screen of the moment."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal, Slot
from PySide6.QtGui import QAction, QActionGroup, QCloseEvent, QKeyEvent, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QSizePolicy,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from core.wording.messages import say
from gui.app.banner import Banner
from gui.app.identity_button import IdentityButton
from gui.toolkit import actions, theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.widgets.practice_strip import PracticeStrip


class Window(QMainWindow):
    """The program's one main window. It paints first; the screens come with the first records."""

    first_painted = Signal()
    closed = Signal()
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
        self._desk: Desk | None = None
        self._shop_name = "Tapewright"
        self._unsaved = False
        self._is_practice = False
        self._screens: dict[str, Screen] = {}
        self.banner = Banner()
        self._stack = QStackedWidget()
        self.practice = PracticeStrip()
        self._waiting = QLabel(say("window", "opening"))
        self._waiting.setProperty("role", "lead")
        self._waiting.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._stack.addWidget(self._waiting)
        self._identity = IdentityButton()
        self._behind: QWidget | None = None
        """The screen that is covered."""
        self._build()
        self._retitle()

    def show_alone(self, page: QWidget | None) -> None:
        """A page that comes before any shop is open, without the moments; None: say that one is opening."""
        self._drop_screens()
        self._bar.hide()
        shown = page or self._waiting
        if page is not None:
            self._stack.addWidget(page)
        self._stack.setCurrentWidget(shown)
        shown.setFocus()
        self._retitle()

    def say_waiting(self, sentence: str) -> None:
        """What is waited for, in the middle of the empty window."""
        self._waiting.setText(sentence)
        self.show_alone(None)

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
        self._drop_screens()
        self._bar.show()
        self._is_practice = is_practice
        self.practice.tell(is_practice)
        for action in self._of_practice:
            action.setEnabled(is_practice)
        self._desk = desk
        self._shop_name = shop_name
        self._screens = screens
        for screen in screens.values():
            self._stack.addWidget(screen)
            screen.said.connect(self.banner.say)
            screen.refused.connect(self.banner.refuse)
            screen.unsaved_changed.connect(self._note_unsaved)
        desk.work.changed.connect(self._spread)
        desk.work.refused.connect(self.banner.refuse)
        self.show_who()
        for key in actions.MOMENTS:  # the shop may speak another language than the empty window did
            actions.reword(self.moments[key.name], key)
            self.moments[key.name].setText(key.words_with_keys)
        self.go(first)

    @Slot(str)
    def go(self, name: str) -> None:
        """Turn to the screen of a moment."""
        screen = self._screens.get(name)
        if screen is None or self.is_covered:
            return
        current = self.screen_on_show()
        if current is not None and current is not screen:
            current.leave()
        for moment, action in self.moments.items():
            action.setChecked(moment == name)
        self._stack.setCurrentWidget(screen)
        screen.enter()
        self._retitle()

    def screen_named(self, name: str) -> Screen:
        """The screen of a moment; KeyError when there is none."""
        return self._screens[name]

    def screen_on_show(self) -> Screen | None:
        """The screen in front, or None while the shop is opening."""
        current = self._stack.currentWidget()
        return current if isinstance(current, Screen) else None

    # --- who is here ---------------------------------------------------------------------

    @property
    def is_covered(self) -> bool:
        """Whether something stands before the screens."""
        return self._behind is not None

    def add_cover(self, page: QWidget) -> None:
        """Bring in a page that is not shown before `cover`."""
        self._stack.addWidget(page)

    def cover(self, page: QWidget) -> None:
        """Put a page of `add_cover` before the screens; their keys do nothing until they are uncovered."""
        current = self._stack.currentWidget()
        if current is page:
            return
        if isinstance(current, Screen):
            current.leave()
        self._behind = current
        self.banner.clear()
        self._let_turn(False)
        self._stack.setCurrentWidget(page)

    def uncover(self) -> None:
        """Back to the screen that was covered."""
        behind, self._behind = self._behind, None
        if behind is None:
            return
        self._let_turn(True)
        self._stack.setCurrentWidget(behind)
        if isinstance(behind, Screen):
            behind.enter()
        self._retitle()

    def show_who(self) -> None:
        """Show the name of the person acting."""
        if self._desk is not None:
            self._identity.show_names(self._shop_name, self._desk.who, self._sign_in.toolTip())
            self._retitle()

    def _let_turn(self, may_turn: bool) -> None:
        for moment in self.moments.values():
            moment.setEnabled(may_turn)

    # --- Qt's own ------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._painted:
            self._painted = True
            self.first_painted.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.banner.clear()
            return
        super().keyPressEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._desk is not None:
            screen = self.screen_on_show()
            if screen is not None:
                screen.leave()
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
        self._bar = self._moments_bar()
        column.addWidget(self._bar)
        rule = QWidget()
        rule.setFixedHeight(1)
        rule.setObjectName("rule")
        column.addWidget(rule)
        inner = QVBoxLayout()
        inner.setContentsMargins(2 * theme.UNIT, theme.UNIT, 2 * theme.UNIT, 2 * theme.UNIT)
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
        self._identity.clicked.connect(self.wants_sign_in)
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

    def _moments_bar(self) -> QWidget:
        bar = QWidget()
        row = QHBoxLayout(bar)
        row.setContentsMargins(theme.UNIT, theme.UNIT // 2, 2 * theme.UNIT, 0)
        row.setSpacing(0)
        group = QActionGroup(self)
        group.setExclusionPolicy(QActionGroup.ExclusionPolicy.ExclusiveOptional)
        self.moments = {}
        for key in actions.MOMENTS:
            moment = actions.action(key, self)
            moment.setCheckable(True)
            moment.setText(key.words_with_keys)
            moment.triggered.connect(self._moment_chosen)
            group.addAction(moment)
            row.addWidget(_moment_button(moment))
            self.moments[key.name] = moment
        row.addWidget(self._identity, 1)
        return bar

    @Slot()
    def _moment_chosen(self) -> None:
        self.go(self.sender().objectName())

    def _drop_screens(self) -> None:
        """The screens of the shop that was open, or the page that stood there alone, go."""
        on_show = self.screen_on_show()
        if on_show is not None:
            on_show.leave()
        for place in reversed(range(self._stack.count())):
            widget = self._stack.widget(place)
            if widget is not self._waiting and widget is not None:
                self._stack.removeWidget(widget)
                widget.deleteLater()
        if self._desk is not None:
            self._desk.work.changed.disconnect(self._spread)
            self._desk.work.refused.disconnect(self.banner.refuse)
        self._behind = None
        self._let_turn(True)
        self._desk, self._screens, self._unsaved, self._is_practice = None, {}, False, False
        self._shop_name = "Tapewright"
        self.practice.tell(False)

    @Slot(object)
    def _spread(self, changed: frozenset[str]) -> None:
        for screen in self._screens.values():
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


def _moment_button(moment: QAction) -> QToolButton:
    button = QToolButton()
    button.setDefaultAction(moment)
    button.setProperty("role", "moment")
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    button.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Fixed)
    return button
