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


class Window(QMainWindow):
    """The program's one main window. It paints first; the screens come with the first records."""

    first_painted = Signal()
    wants_customer_side = Signal()
    wants_sign_in = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("window")
        self.resize(1280, 800)
        self.setMinimumSize(480, 320)
        self._painted = False
        self._desk: Desk | None = None
        self._shop_name = "Tapewright"
        self._unsaved = False
        self._screens: dict[str, Screen] = {}
        self.banner = Banner()
        self._stack = QStackedWidget()
        self._waiting = QLabel(say("window", "opening"))
        self._waiting.setProperty("role", "lead")
        self._waiting.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._stack.addWidget(self._waiting)
        self._identity = IdentityButton()
        self._behind: QWidget | None = None
        """The screen that is covered."""
        self._build()
        self._retitle()

    def add_screens(self, desk: Desk, shop_name: str, screens: dict[str, Screen]) -> None:
        """The shop is open: bring in the screens and go to the first."""
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
        self.go("counter")

    @Slot(str)
    def go(self, name: str) -> None:
        """Turn to the screen of a moment."""
        screen = self._screens.get(name)
        if screen is None or self.is_covered:
            return
        current = self.screen_on_show()
        if current is not None and current is not screen:
            current.leave()
        self.moments[name].setChecked(True)
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
        event.accept()

    # --- inside --------------------------------------------------------------------------

    def _build(self) -> None:
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._moments_bar())
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

    def _moments_bar(self) -> QWidget:
        bar = QWidget()
        row = QHBoxLayout(bar)
        row.setContentsMargins(theme.UNIT, theme.UNIT // 2, 2 * theme.UNIT, 0)
        row.setSpacing(0)
        group = QActionGroup(self)
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
