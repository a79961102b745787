"""Whose counter this is and who stands at it, at the end of the moments: whole words or none."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy


class IdentityLabel(QLabel):
    """Shop and person; where the room is short the person alone, since the title names the shop as well."""

    def __init__(self) -> None:
        super().__init__()
        self._forms: tuple[str, ...] = ("",)
        self.setProperty("role", "small")
        self.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def show_names(self, shop: str, who: str) -> None:
        """Show these two."""
        self._forms = (f"{shop} · {who}", who, "")
        self.setToolTip(self._forms[0])
        self.setAccessibleName(self._forms[0])
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        room = self.contentsRect().width()
        wide = self.fontMetrics().horizontalAdvance
        fitting = next((form for form in self._forms if wide(form) <= room), "")
        if fitting != self.text():
            self.setText(fitting)
