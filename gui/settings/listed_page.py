"""A page of the settings that is a list: entries in a tray, and the fields of the one that is chosen."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import replace
from itertools import count
from typing import Any, Generic, Protocol, TypeVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QWidget

from gui.settings.drafted_page import DraftedPage
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled
from gui.widgets.tray import Tray, TrayItem

_IN_SIGHT = 5


class Entry(Protocol):
    """What stands in the list: a frozen record with a key of its own."""

    @property
    def key(self) -> str: ...


E = TypeVar("E", bound=Entry)


class EntryForm(QWidget):
    """The fields of one entry, its name among them."""

    name: QLineEdit


class ListedPage(DraftedPage, Generic[E]):
    """Return goes to the name of the chosen entry, Delete removes it; the rest is what the entries are."""

    form: EntryForm
    """The fields of the chosen entry; hidden while there is none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: list[E] = []
        self._numbers = count()
        name = self.page.value
        self.tray = Tray(f"settings-{name}-list", say("settings", f"title-{name}"), always_lit=True)
        self.tray.moved.connect(self._show_chosen)
        self.tray.taken.connect(self._go_to_name)
        delete = QShortcut(QKeySequence(Qt.Key.Key_Delete), self.tray)
        delete.setContext(Qt.ShortcutContext.WidgetShortcut)
        delete.activated.connect(self._remove)
        self.add = QPushButton(say("settings", f"{name}-add"))
        self.add.setObjectName(f"{name}-add")
        self.add.clicked.connect(self._add)
        self._adder: QWidget = self.tray

    # --- what a list of its own brings ---------------------------------------------------

    @abstractmethod
    def _item(self, row: E) -> TrayItem:
        """How an entry stands in the tray."""

    @abstractmethod
    def _show_row(self, row: E) -> None:
        """Fill the fields of an entry in."""

    @abstractmethod
    def _add(self) -> None:
        """Add what the line of the page says (a slot)."""

    def _lay_adder(self, *fields: tuple[QWidget, int]) -> None:
        """The line that adds entries: the labelled fields, each with its share of the width, and the button.

        The first of them has the keyboard while the list is empty.
        """
        self._adder = fields[0][0]
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        for field, share in fields:
            row.addWidget(labelled(field, say("settings", field.objectName())), share)
        row.addWidget(self.add, 0, Qt.AlignmentFlag.AlignBottom)
        self.column.addLayout(row)

    # --- the list ------------------------------------------------------------------------

    def focus_first(self) -> None:
        (self.tray if self._rows else self._adder).setFocus(Qt.FocusReason.OtherFocusReason)

    def _key(self) -> str:
        return f"{self.page.value}-{next(self._numbers)}"

    @property
    def _chosen(self) -> int | None:
        keys = [row.key for row in self._rows]
        return keys.index(self.tray.current) if self.tray.current in keys else None

    def _begin(self, rows: Sequence[E]) -> None:
        """Show these entries, the first of them chosen."""
        self._rows = list(rows)
        self._lay_rows()
        self.tray.stand_on_first()
        self._show_chosen(self.tray.current)

    def _take_in(self, *made: E) -> None:
        """Add entries, the first of them chosen."""
        self._rows += made
        self._lay_rows()
        self.tray.stand_on(made[0].key)
        self.changed.emit()

    def _put(self, **changed: Any) -> None:
        """Change the chosen entry."""
        place = self._chosen
        if place is not None:
            self._rows[place] = replace(self._rows[place], **changed)  # type: ignore[type-var]  # E is frozen
            self._lay_rows()
            self._show_chosen(self.tray.current)
            self.changed.emit()

    @Slot()
    def _remove(self) -> None:
        place = self._chosen
        if place is None:
            return
        del self._rows[place]
        self._lay_rows()
        if self._rows:
            self.tray.stand_on(self._rows[min(place, len(self._rows) - 1)].key)
        self.focus_first()
        self.changed.emit()

    @Slot(str)
    def _show_chosen(self, _: str) -> None:
        place = self._chosen
        self.form.setVisible(place is not None)
        if place is not None:
            self._show_row(self._rows[place])

    @Slot(str)
    def _go_to_name(self, _: str) -> None:
        self.form.name.setFocus(Qt.FocusReason.OtherFocusReason)
        self.form.name.selectAll()

    def _lay_rows(self) -> None:
        self.tray.lay([self._item(row) for row in self._rows])
        (self.tray.parentWidget() or self.tray).setVisible(bool(self._rows))
        self.tray.setFixedHeight(max(2, min(len(self._rows), _IN_SIGHT)) * 6 * theme.UNIT + 4)
