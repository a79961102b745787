"""The tools of the bench: the few that belong to the station of the tape in hand, the rest behind one key."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QPushButton, QSizePolicy, QWidget

from core.model.stations import Station
from core.model.tape_records import TapeRecord
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import key_button
from gui.widgets.layouts import stacked

MORE_KEYS = "Alt+M"
LOOKED_AT, FOUND, SPLICED, REPAIRED, FILED, CHECKED, SETTLED, LABELLED, PRINTED = (
    *("look-over-tape", "find", "splice", "what-was-done", "read-file"),
    *("check-copy", "what-became", "label-is-on", "print-label"),
)
"""Object names of tools that some station has in sight; all others lie behind the key always."""
_FEW = {
    Station.BOOKED_IN: (LOOKED_AT, FOUND),
    Station.LOOKED_OVER: (LOOKED_AT, FOUND),
    Station.AT_THE_BENCH: (SPLICED, REPAIRED, FOUND),
    Station.PLAYING: (FOUND, FILED),
    Station.BEING_CHECKED: (CHECKED, FILED, FOUND),
    Station.READY: (CHECKED, SETTLED),
}
_USUAL = (FOUND, SETTLED)


class ToolShelf(QWidget):
    """Buttons that stay whole when they are put by: their keys belong to the room around."""

    def __init__(self, tools: Sequence[QPushButton]) -> None:
        super().__init__()
        self._tools = tuple(tools)
        self._few, self.rest = ToolPairs(), ToolPairs()
        self.more = key_button("more-tools", MORE_KEYS, say("bench", "more_tools", keys=MORE_KEYS), "action")
        self.more.setCheckable(True)
        self.more.toggled.connect(self._show_rest)
        column = stacked(self, theme.UNIT // 2)
        for part in (self._few, self.more, self.rest):
            column.addWidget(part)
        self.rest.lay(self._tools)
        self.rest.hide()

    def arrange(self, tape: TapeRecord) -> None:
        """Put the few tools of this tape's station in sight; what is not offered takes no place."""
        wanted = self._in_sight(tape)
        offered = [tool for tool in self._tools if _is_offered(tool)]
        few = sorted(
            (tool for tool in offered if tool.objectName() in wanted),
            key=lambda tool: wanted.index(tool.objectName()),
        )
        rest = [tool for tool in offered if tool not in few]
        self._few.lay(few)
        self.rest.lay(rest)
        self.more.setVisible(bool(rest))

    def put_away(self) -> None:
        """Only the few are in sight again."""
        self.more.setChecked(False)

    def _in_sight(self, tape: TapeRecord) -> tuple[str, ...]:
        """A label that is missing, or no longer belongs there, is in sight wherever the tape is."""
        is_missing = tape.not_for_reuse and tape.marked_at is None
        label = (PRINTED, LABELLED) if is_missing else (LABELLED,) if tape.label_astray else ()
        return label + _FEW.get(tape.station, _USUAL)

    @Slot(bool)
    def _show_rest(self, is_open: bool) -> None:
        self.rest.setVisible(is_open)
        key = "fewer_tools" if is_open else "more_tools"
        self.more.setText(say("bench", key, keys=MORE_KEYS))


def _is_offered(tool: QPushButton) -> bool:
    """Of a button that lay nowhere yet Qt says that it is hidden, too."""
    return not (tool.isHidden() and tool.testAttribute(Qt.WidgetAttribute.WA_WState_ExplicitShowHide))


class ToolPairs(QWidget):
    """Tools in pairs where both are whole side by side, else one below the other."""

    def __init__(self) -> None:
        super().__init__()
        self._tools: tuple[QPushButton, ...] = ()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(theme.UNIT // 2)
        self._across = 0
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)

    def lay(self, tools: Sequence[QPushButton]) -> None:
        """These tools, in this order; the others are elsewhere by now or not offered."""
        for tool in self._tools:
            self._grid.removeWidget(tool)
        self._tools, self._across = tuple(tools), 0
        self._fit()

    def minimumSizeHint(self) -> QSize:
        return QSize(self._widest(), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def has_grown(self) -> None:
        """The words are wider or narrower now."""
        self._fit()

    def _fit(self) -> None:
        wide = [tool.sizeHint().width() for tool in self._tools]
        needed = max(wide[::2], default=0) + max(wide[1::2], default=0) + self._grid.horizontalSpacing()
        across = 2 if needed <= self.width() else 1
        if across == self._across:
            return
        self._across = across
        for tool in self._tools:
            self._grid.removeWidget(tool)
        for place, tool in enumerate(self._tools):
            is_alone = place == len(self._tools) - 1 and place % across == 0
            self._grid.addWidget(tool, place // across, place % across, 1, across if is_alone else 1)
        self._grid.setColumnStretch(0, 1)
        self._grid.setColumnStretch(1, across - 1)
        self.updateGeometry()

    def _widest(self) -> int:
        return max((tool.sizeHint().width() for tool in self._tools), default=0)
