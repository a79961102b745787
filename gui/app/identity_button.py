"""Whose counter this is and who stands at it, at the end of the moments; pressed, somebody else signs in."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QToolButton

from gui.toolkit import theme
from gui.toolkit.plain_text import tip


class IdentityButton(QToolButton):
    """Shop and person, never cut; where the room is short the person alone, at last by initials.

    The title of the window names the shop as well.
    """

    def __init__(self) -> None:
        super().__init__()
        self._forms: tuple[str, ...] = ("",)
        self.setObjectName("identity")
        self.setProperty("role", "identity")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def show_names(self, shop: str, who: str, hint: str = "") -> None:
        """Show these two; ``hint`` says what pressing the button does."""
        self._forms = (f"{shop} · {who}", who, *_shorter(who))
        self.setToolTip(tip(" — ".join(part for part in (self._forms[0], hint) if part)))
        self.setAccessibleName(self._forms[0])
        self.setAccessibleDescription(hint)
        self.updateGeometry()
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def minimumSizeHint(self) -> QSize:
        return QSize(self._wide(self._forms[-1]), super().minimumSizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """The words at the right end; Qt's own style puts those of a tool button into the middle.

        Its options are not asked for: reading what Qt has of them takes 4 ms before the first paint.
        """
        painter = QPainter(self)
        if self.underMouse():
            painter.setPen(self.palette().color(self.foregroundRole()))
        sides = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(self.rect(), int(sides), self.text())
        if self.hasFocus():
            painter.setPen(QPen(QColor(theme.current_tokens().oxide), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def _wide(self, form: str) -> int:
        return self.fontMetrics().horizontalAdvance(form)

    def _fit(self) -> None:
        room = self.contentsRect().width()
        fitting = next((form for form in self._forms if self._wide(form) <= room), self._forms[-1])
        if fitting != self.text():
            self.setText(fitting)


def _shorter(who: str) -> tuple[str, ...]:
    """The first of several names, then the first letter of each."""
    names = who.split()
    return (names[0], "".join(name[0] for name in names)) if names else ("",)
