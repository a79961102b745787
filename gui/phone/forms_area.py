"""The buttons and forms of a call below the answer: they scroll by themselves, so that the answer stays."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, QSize, Signal, Slot
from PySide6.QtWidgets import QApplication, QSizePolicy, QWidget

from gui.toolkit import theme
from gui.widgets.layouts import Sheet, stacked


class FormsArea(Sheet):
    """As high as what is in it, as long as there is room; the field with the keyboard stays in sight."""

    opened = Signal(bool)
    """A form was opened (True), or the last one closed."""

    _forms: tuple[QWidget, ...] = ()

    def __init__(self, parts: Sequence[QWidget], forms: Sequence[QWidget]) -> None:
        """``parts`` stand one below the other; ``forms`` are somewhere among them."""
        inside = QWidget()
        column = stacked(inside)
        for part in parts:
            column.addWidget(part)
        super().__init__(inside, "call-forms")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._forms = tuple(forms)
        self._is_open = False
        for form in forms:
            form.installEventFilter(self)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._follow)

    def sizeHint(self) -> QSize:
        inside = self.widget()
        return super().sizeHint() if inside is None else inside.sizeHint()

    def minimumSizeHint(self) -> QSize:
        inside = self.widget()
        wide = 0 if inside is None else inside.minimumSizeHint().width()
        bar = self.verticalScrollBar().sizeHint().width()  # so that nothing is ever scrolled sideways
        return QSize(wide + bar, min(self.sizeHint().height(), 16 * theme.UNIT))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.ShowToParent, QEvent.Type.HideToParent) and watched in self._forms:
            self._note_forms()
        if event.type() is QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def _note_forms(self) -> None:
        is_open = any(not form.isHidden() for form in self._forms)
        if is_open is not self._is_open:
            self._is_open = is_open
            self.opened.emit(is_open)

    @Slot(QWidget, QWidget)
    def _follow(self, _: QWidget | None, now: QWidget | None) -> None:
        if now is not None and self.isAncestorOf(now):
            self.ensureWidgetVisible(now, 0, 3 * theme.UNIT)
