"""The five moments along the top of the window, what helps in all of them, and who stands at the counter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, QSize, Qt, Signal, Slot
from PySide6.QtGui import QAction, QColor, QFont, QFontMetrics, QKeySequence, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QTabBar, QWidget

from core.wording.messages import say
from gui.app.identity_button import IdentityButton
from gui.toolkit import actions, theme

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from gui.app.keys_in_sight import KeysInSight


class MomentsBar(QWidget):
    """A tab for each moment; its keys work in all of the window, even while the bar is hidden."""

    chosen = Signal(str)
    """The name of a moment that was pressed."""

    def __init__(self, window: QWidget) -> None:
        super().__init__()
        self._window = window
        self.identity = IdentityButton()
        self.moments: dict[str, QAction] = {}
        self.tabs = _tabs()
        self.in_sight: KeysInSight | None = None
        """None before the first shop is open."""
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(theme.UNIT, 0, 2 * theme.UNIT, 0)
        self._row.setSpacing(0)
        for place, key in enumerate(actions.MOMENTS):
            moment = actions.action(key, window)
            keys = dict.fromkeys((key.keys, f"Ctrl+{place + 1}"))
            moment.setShortcuts([QKeySequence(each) for each in keys])
            moment.triggered.connect(self._note_chosen)
            self.tabs.addTab(key.words_with_keys)
            self.moments[key.name] = moment
        self.tabs.setTabVisible(self.tabs.addTab(say("window", "set-up")), False)
        self.tabs.tabBarClicked.connect(self._note_clicked)
        self.tabs.currentChanged.connect(self._note_clicked)
        self._row.addWidget(self.tabs)
        self._row.addWidget(self.identity, 1)
        self.mark("")

    def reword(self) -> None:
        """Write the moments in the language of now: a shop may speak another than the empty window did."""
        for place, key in enumerate(actions.MOMENTS):
            actions.reword(self.moments[key.name], key)
            self.tabs.setTabText(place, key.words_with_keys)
            self.tabs.setTabToolTip(place, self.moments[key.name].toolTip())
        self.tabs.setTabText(len(actions.MOMENTS), say("window", "set-up"))
        self._show_keys()

    def mark(self, name: str) -> None:
        """Mark the moment that is on show; no tab is marked while none of them is."""
        names = [*self.moments]
        with QSignalBlocker(self.tabs):
            self.tabs.setCurrentIndex(names.index(name) if name in names else len(names))

    def let_turn(self, may_turn: bool) -> None:
        """Whether another moment can be chosen."""
        self.tabs.setEnabled(may_turn)
        for moment in self.moments.values():
            moment.setEnabled(may_turn)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where the room is narrow the keys stand in the tips alone; who is here has to be seen."""
        super().resizeEvent(event)
        self._fit()

    def has_grown(self) -> None:
        """The words are wider or narrower now."""
        self._fit()

    def _fit(self) -> None:
        is_narrow = self.width() < 90 * theme.UNIT
        for place, key in enumerate(actions.MOMENTS):
            told = key.words if is_narrow else key.words_with_keys
            if self.tabs.tabText(place) != told:
                self.tabs.setTabText(place, told)
        self.tabs.setMinimumWidth(self.tabs.sizeHint().width())
        self.identity.setMinimumWidth(self.identity.minimumSizeHint().width())

    def _show_keys(self) -> None:
        from gui.app.keys_in_sight import KeysInSight  # not before the first paint

        if self.in_sight is not None:
            self._row.removeWidget(self.in_sight)
            self.in_sight.deleteLater()
        self.in_sight = KeysInSight(self._window)
        self._row.insertWidget(1, self.in_sight)
        self._fit()

    @Slot()
    def _note_chosen(self) -> None:
        self.chosen.emit(self.sender().objectName())

    @Slot(int)
    def _note_clicked(self, place: int) -> None:
        if 0 <= place < len(actions.MOMENTS):
            self.chosen.emit(actions.MOMENTS[place].name)


class MomentTabs(QTabBar):
    """Tabs as wide as their words in the weight of the marked one; the keyboard is seen on it."""

    def tabSizeHint(self, index: int) -> QSize:
        face = QFontMetrics(theme.font(theme.BODY, QFont.Weight.Bold))
        wide = face.horizontalAdvance(self.tabText(index)) + 4 * theme.UNIT
        return QSize(wide, max(face.height() + theme.UNIT, 3 * theme.UNIT))

    def minimumTabSizeHint(self, index: int) -> QSize:
        return self.tabSizeHint(index)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.hasFocus():
            painter = QPainter(self)
            painter.setPen(QPen(QColor(theme.current_tokens().oxide), 2))
            painter.drawRect(self.tabRect(self.currentIndex()).adjusted(1, 1, -1, -1))
            painter.end()


def _tabs() -> MomentTabs:
    tabs = MomentTabs()
    tabs.setObjectName("moments")
    tabs.setDrawBase(False)
    tabs.setExpanding(False)
    tabs.setUsesScrollButtons(True)
    tabs.setElideMode(Qt.TextElideMode.ElideNone)
    tabs.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    tabs.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
    return tabs
