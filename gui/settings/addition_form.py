"""The fields of one finding, repair or medium of the shop's own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QWidget,
)

from core.model.names import Outcome
from core.services.own_shop.addition_drafts import (
    FINDING,
    GIGABYTES,
    MEDIUM,
    MINUTES,
    REPAIR,
    AdditionDraft,
)
from core.services.own_shop.own_additions import LONGEST_WORDS
from core.wording import typed_amounts
from gui.settings.check_boxes import CheckBoxes
from gui.settings.listed_page import EntryForm
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, stacked, words

_BENCH = ("low", "likely", "high")
_SHOWN: Mapping[str, tuple[str, ...]] = {
    FINDING: ("words", "told", "outcome", "caution", "repairs"),
    REPAIR: ("words", *(f"minutes-{each}" for each in _BENCH)),
    MEDIUM: ("words", "holds", "holds-in"),
}
"""The fields of each kind."""


class AdditionForm(EntryForm):
    """Shows an entry and says how it was changed; it keeps nothing."""

    edited = Signal(object)
    """The `AdditionDraft` as it was changed."""
    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._draft = AdditionDraft("", FINDING)
        self.name, self.told, self.caution, self.holds = (QLineEdit() for _ in range(4))
        self.minutes = tuple(QLineEdit() for _ in _BENCH)
        self.outcome, self.holds_in = QComboBox(), QComboBox()
        self.repairs = CheckBoxes("addition-repairs", {})
        self.price = words("", "small")
        self.reuse = words(say("settings", "findings-reuse"), "small")
        self.retired = QCheckBox(say("settings", "formats-retired"))
        self.remove = QPushButton(say("settings", "formats-remove"))
        self._rows: dict[str, QWidget] = {}
        self._lay_out()
        self._connect()

    def show_draft(self, draft: AdditionDraft, price: str) -> None:
        """Fill the fields of its kind in; ``price`` is told in words."""
        self._draft = draft
        for field, text in ((self.name, draft.words), (self.told, draft.told), (self.caution, draft.caution)):
            if field.text() != text:
                field.setText(text)
        for field, value in zip((*self.minutes, self.holds), (*draft.minutes, draft.holds), strict=True):
            if _read(field.text()) != value:
                field.setText(_shown(value))
        self.outcome.setCurrentIndex(self.outcome.findData(draft.outcome))
        self.holds_in.setCurrentIndex(self.holds_in.findData(draft.holds_in))
        self.repairs.show_chosen(draft.repairs)
        self.retired.setChecked(draft.retired)
        self.price.setText(price)
        self._show_kind(draft.kind)

    def offer_repairs(self, offers: Mapping[str, str]) -> None:
        """Codes, or keys of drafts, of the repairs that may deal with a finding, with their words."""
        self.repairs.offer(offers)

    def field_of(self, place: str) -> QWidget:
        """The field that a refusal is about, by the last key of its place."""
        key = place.rsplit(", ", 1)[-1].split(" ")[0]
        fields: dict[str, QWidget] = {"told": self.told, "caution": self.caution, "outcome": self.outcome}
        fields |= {"repairs": next(iter(self.repairs.boxes.values()), self.outcome)}
        if key == "minutes" and self._draft.kind == REPAIR:
            return self._wrong_minutes()
        return fields.get(key, self.holds if key in (GIGABYTES, MINUTES) else self.name)

    def _wrong_minutes(self) -> QLineEdit:
        """The first figure that is none, or below the one before it."""
        before = 0.0
        for field in self.minutes:
            value = _read(field.text())
            if isinstance(value, str) or value < before:
                return field
            before = value
        return self.minutes[0]

    @Slot()
    def _edit(self) -> None:
        low, likely, high = (_read(field.text()) for field in self.minutes)
        self.edited.emit(
            replace(
                self._draft,
                words=self.name.text(),
                told=self.told.text(),
                caution=self.caution.text(),
                outcome=self.outcome.currentData(),
                repairs=tuple(code for code in self.repairs.boxes if code in self.repairs.chosen),
                minutes=(low, likely, high),
                holds=_read(self.holds.text()),
                holds_in=self.holds_in.currentData(),
                retired=self.retired.isChecked(),
            )
        )

    def _show_kind(self, kind: str) -> None:
        for name, row in self._rows.items():
            row.setVisible(name in _SHOWN[kind])
        text = say("settings", f"findings-words-{kind}")
        self._rows["words"].findChildren(QLabel)[0].setText(text)
        self.name.setAccessibleName(text)
        self.reuse.setVisible(kind == FINDING)
        self.price.setVisible(kind != FINDING)

    def _connect(self) -> None:
        for field in (self.name, self.told, self.caution, self.holds, *self.minutes):
            field.textEdited.connect(self._edit)
        for box in (self.outcome, self.holds_in):
            box.activated.connect(self._edit)
        self.repairs.changed.connect(self._edit)
        self.retired.clicked.connect(self._edit)
        self.remove.clicked.connect(self.remove_wanted)

    def _lay_out(self) -> None:
        for outcome in Outcome:
            self.outcome.addItem(say("settings", f"findings-outcome-{outcome.value}"), outcome.value)
        for unit in (GIGABYTES, MINUTES):
            self.holds_in.addItem(say("settings", f"findings-in-{unit}"), unit)
        for box in (self.outcome, self.holds_in):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setMinimumContentsLength(12)
        self.name.setMaxLength(LONGEST_WORDS)
        self.told.setMaxLength(200)
        self.caution.setMaxLength(100)
        named: dict[str, QWidget] = {"words": self.name, "told": self.told, "outcome": self.outcome}
        named |= {"caution": self.caution, "repairs": self.repairs}
        named |= {f"minutes-{key}": field for key, field in zip(_BENCH, self.minutes, strict=True)}
        named |= {"holds": self.holds, "holds-in": self.holds_in}
        for key, field in named.items():
            field.setObjectName(f"addition-{key}")
            text = say("settings", "findings-words-finding" if key == "words" else f"findings-{key}")
            self._rows[key] = labelled(field, text)
        self.retired.setObjectName("addition-retired")
        self.remove.setObjectName("addition-remove")
        self._place()

    def _place(self) -> None:
        column = stacked(self)
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * theme.UNIT)
        for place, (key, wide) in enumerate((("words", 3), ("told", 3))):
            grid.addWidget(self._rows[key], place, 0, 1, wide)
        grid.addWidget(self._rows["outcome"], 2, 0)
        grid.addWidget(self._rows["caution"], 2, 1, 1, 2)
        for place, key in enumerate(_BENCH):
            grid.addWidget(self._rows[f"minutes-{key}"], 3, place)
            grid.setColumnStretch(place, 1)
        grid.addWidget(self._rows["holds"], 4, 0)
        grid.addWidget(self._rows["holds-in"], 4, 1, 1, 2)
        column.addLayout(grid)
        for widget in (self._rows["repairs"], self.reuse, self.price, self.retired):
            column.addWidget(widget)
        row = QHBoxLayout()
        row.addWidget(self.remove)
        row.addStretch(1)
        column.addLayout(row)


def _read(text: str) -> float | str:
    """A number as typed in the shop's locale; the text where it is none."""
    found = typed_amounts.number_of(text.strip())
    return text.strip() if found is None else float(found)


def _shown(value: float | str) -> str:
    return value if isinstance(value, str) else typed_amounts.typed_number(value)
