"""The fields of one format of the shop's own: what it is called, counted in and reckoned with."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QCheckBox, QComboBox, QGridLayout, QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.model.names import Container
from core.services.own_shop import format_drafts, own_formats
from core.services.own_shop.format_drafts import AS_THE_NEAREST, FormatDraft
from core.wording import locale_figures, typed_amounts
from gui.settings.check_boxes import CheckBoxes
from gui.settings.listed_page import EntryForm
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, stacked, words

_ACROSS = 2
"""Fields side by side: two fit a window of 640 pixels."""
_LETTERS = 12
"""A choice shows at least so much of what is chosen."""
UNITS = (AS_THE_NEAREST, *format_drafts.FIGURE_OF)


class FormatForm(EntryForm):
    """Shows a format and says how it was changed; it keeps nothing."""

    edited = Signal(object, object)
    """The `FormatDraft` as it was changed, and the names of the machines that do it."""
    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._draft = FormatDraft("", "", Container.TAPE.value)
        self.name = QLineEdit()
        self.counted_in = QComboBox()
        self.unit = QComboBox()
        self.usual = QLineEdit()
        self.figure = QLineEdit()
        self.pace = QLineEdit()
        self.machines = CheckBoxes("format-machines", {})
        self.nearest = words("", "small")
        self.price = words("", "small")
        self.retired = QCheckBox(say("settings", "formats-retired"))
        self.remove = QPushButton(say("settings", "formats-remove"))
        self._lay_out()
        self._connect()

    def show_format(self, draft: FormatDraft, nearest: str, price: str, machines: Collection[str]) -> None:
        """Fill the fields in; ``nearest`` and ``price`` are told in words."""
        self._draft = draft
        if self.name.text() != draft.words:
            self.name.setText(draft.words)
        if _parts(self.usual.text()) != draft.usual:
            self.usual.setText(", ".join(draft.usual))
        for field, value in ((self.figure, draft.figure), (self.pace, draft.pace)):
            if _read(field.text()) != value:
                field.setText(_shown(value))
        self.counted_in.setCurrentIndex(self.counted_in.findData(draft.counted_in))
        self.unit.setCurrentIndex(self.unit.findData(draft.unit))
        self.nearest.setText(nearest)
        self.price.setText(price)
        self.machines.show_chosen(machines)
        self.retired.setChecked(draft.retired)
        self._show_unit(draft.unit)

    def offer_machines(self, names: Sequence[str]) -> None:
        """The machines of the shop, to be checked."""
        self.machines.offer({name: name for name in names})

    def field_of(self, place: str) -> QWidget:
        """The field that a refusal is about, by the last keys of its place."""
        keys: Mapping[str, QWidget] = {"usual": self.usual, "pace": self.pace, "counted_in": self.counted_in}
        for key, field in keys.items():
            if key in place:
                return field
        return self.figure if "amount" in place else self.name

    @Slot()
    def _edit(self) -> None:
        named = replace(
            self._draft,
            words=self.name.text(),
            counted_in=self.counted_in.currentData(),
            retired=self.retired.isChecked(),
        )
        unit = self.unit.currentData()
        if unit != self._draft.unit:
            draft = format_drafts.counted_by(named, unit)
        else:
            figure, pace = _read(self.figure.text()), _read(self.pace.text())
            draft = replace(named, usual=_parts(self.usual.text()), figure=figure, pace=pace)
        self.edited.emit(draft, self.machines.chosen)

    def _show_unit(self, unit: str) -> None:
        is_counted = unit != AS_THE_NEAREST
        for name in ("usual", "figure", "pace"):
            self._labelled[name].setVisible(is_counted and (name != "pace" or unit != "pieces"))
        key = f"formats-figure-{unit}" if is_counted else "formats-figure-pieces"
        self._labels["figure"].setText(say("settings", key))
        self.figure.setAccessibleName(say("settings", key))

    def _connect(self) -> None:
        for field in (self.name, self.usual, self.figure, self.pace):
            field.textEdited.connect(self._edit)
        for box in (self.counted_in, self.unit):
            box.activated.connect(self._edit)
        self.machines.changed.connect(self._edit)
        self.retired.clicked.connect(self._edit)
        self.remove.clicked.connect(self.remove_wanted)

    def _lay_out(self) -> None:
        for container in Container:
            self.counted_in.addItem(say("settings", f"formats-counted-{container.value}"), container.value)
        for unit in UNITS:
            self.unit.addItem(say("settings", f"formats-unit-{unit or 'nearest'}"), unit)
        self.name.setMaxLength(own_formats.LONGEST_WORDS)
        named = {"name": self.name, "counted": self.counted_in, "unit": self.unit, "usual": self.usual}
        named |= {"figure": self.figure, "pace": self.pace}
        self._labels = {}
        self._labelled = {}
        for key, field in named.items():
            field.setObjectName(f"format-{key}")
            text = say("settings", "formats-figure-pieces" if key == "figure" else f"formats-{key}")
            self._labelled[key] = labelled(field, text)
            self._labels[key] = self._labelled[key].findChildren(type(self.price))[0]
        self.retired.setObjectName("format-retired")
        self.remove.setObjectName("format-remove")
        self._place()

    def _place(self) -> None:
        column = stacked(self)
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * theme.UNIT)
        for number, key in enumerate(("name", "counted", "unit", "usual", "figure", "pace")):
            grid.addWidget(self._labelled[key], number // _ACROSS, number % _ACROSS)
        for box in (self.counted_in, self.unit):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setMinimumContentsLength(_LETTERS)
        column.addWidget(self.nearest)
        column.addLayout(grid)
        column.addWidget(words(say("settings", "formats-usual-means"), "small"))
        column.addWidget(labelled(self.machines, say("settings", "formats-machines")))
        column.addWidget(self.price)
        column.addWidget(self.retired)
        row = QHBoxLayout()
        row.addWidget(self.remove)
        row.addStretch(1)
        column.addLayout(row)


def _parts(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(",") if part.strip())


def _shown(value: float | str | None) -> str:
    if value is None or isinstance(value, str):
        return value or ""
    return locale_figures.figure(value, digits=0 if value == int(value) else 2)


def _read(text: str) -> float | str | None:
    """A figure as the shop writes it; what is none stays as it was typed, to be refused."""
    if not text.strip():
        return None
    value = typed_amounts.number_of(text.strip())
    return text.strip() if value is None else float(value)
