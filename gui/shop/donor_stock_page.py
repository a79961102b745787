"""The form for donor parts: what is on the shelf, where its parts went, a count corrected."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.catalogue import formats
from core.model.errors import WrongInput
from core.model.names import DonorPart, FormatName
from core.model.spoken_names import spoken
from core.model.tape_records import JournalEntry
from core.services.donors import DonorPlace, DonorStock
from core.services.shop_overview import ShopView
from gui.toolkit import theme
from gui.toolkit.text import moment, say, sentence_case
from gui.widgets import tray_rows
from gui.widgets.donor_stock_dialog import DonorDelivery
from gui.widgets.figure_field import FigureField
from gui.widgets.layouts import PaperFrame, empty, give_key, labelled, rule, stacked, words
from gui.widgets.tray import Tray, TrayItem

_IN_SIGHT = 6


@dataclass(frozen=True, slots=True)
class Correction:
    """How many parts really lie at one place of the shelf, and why that is not what was counted."""

    format: FormatName
    part: DonorPart
    came_from: str
    count: int
    because: str


class DonorStockPage(PaperFrame):
    """A tray of places; the fields below put the chosen one right, or more on the shelf."""

    corrected = Signal(object)
    """A `Correction`."""
    delivered = Signal(object)
    """A `DonorDelivery`."""
    refused = Signal(object)

    def __init__(self, view: ShopView) -> None:
        super().__init__("chapter-donors")
        self._zone = view.settings.front.timezone
        self._places: dict[str, DonorPlace] = {}
        self.tray = Tray("donor-places", say("donors", "places"), always_lit=True)
        self.really = FigureField("donor-really", say("donors", "really"))
        self.because = QLineEdit()
        self.put_right = QPushButton(say("donors", "put_right"))
        self.format, self.part = QComboBox(), QComboBox()
        self.how_many = FigureField("donor-count", say("donors", "how_many"))
        self.came_from = QLineEdit()
        self.put = QPushButton(say("donors", "put"))
        self._name_them()
        self._lay_out()
        self._connect()

    def know(self, shelf: DonorStock) -> None:
        """What lies there now; the row that was chosen stays chosen."""
        chosen = self.tray.current
        self._places = {_key(place): place for place in shelf.places}
        self.tray.lay([_piece(key, place) for key, place in self._places.items()])
        self.tray.setFixedHeight(max(min(len(self._places), _IN_SIGHT), 1) * 6 * theme.UNIT + 4)
        self.tray.stand_on(chosen) or self.tray.stand_on_first()
        self._full.setVisible(bool(self._places))
        self._nothing.setVisible(not self._places)
        empty(self._told)
        for each in shelf.lately:
            self._told.addWidget(words(self._line(each), "small"))

    @Slot()
    def _put_right(self) -> None:
        place = self._places.get(self.tray.current)
        try:
            if place is None:
                raise WrongInput(say("donors", "choose_place"), "", say("donors", "none_chosen"))
            count = _whole(self.really, say("donors", "really"))
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        one = place.donor
        because = self.because.text().strip()
        self.corrected.emit(Correction(one.format, one.part, one.came_from, count, because))

    @Slot()
    def _put(self) -> None:
        try:
            count = _whole(self.how_many, say("donors", "how_many"))
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        name, part = self.format.currentData(), self.part.currentData()
        self.delivered.emit(DonorDelivery(FormatName(name), part, count, self.came_from.text().strip()))

    @Slot(str)
    def _go_to_count(self, _: str) -> None:
        self.really.setFocus()

    def _line(self, each: JournalEntry) -> str:
        return say("donors", "line", when=moment(each.at, self._zone), by=each.by, words=each.words)

    # --- building ------------------------------------------------------------------------

    def _name_them(self) -> None:
        for form in formats.catalogue().formats:
            self.format.addItem(form.words, form.name)
        for part in DonorPart:
            self.part.addItem(sentence_case(spoken(part)), part)
        named = {
            "donor-because": self.because,
            "donor-format": self.format,
            "donor-part": self.part,
            "donor-came-from": self.came_from,
            "donor-put-right": self.put_right,
            "donor-put": self.put,
        }
        for name, widget in named.items():
            widget.setObjectName(name)
        self.because.setPlaceholderText(say("donors", "because_hint"))
        self.came_from.setPlaceholderText(say("donors", "came_from_hint"))

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("shop", "donors"), "heading"))
        self.column.addWidget(words(say("donors", "lead")))
        self._nothing = words(say("donors", "nothing"), "lead")
        self._nothing.hide()
        self.column.addWidget(self._nothing)
        self.column.addWidget(self._lay_out_places())
        self.column.addWidget(rule())
        self.column.addWidget(words(say("donors", "more"), "field"))
        self.column.addLayout(
            _row((self.format, "format", 2), (self.part, "part", 1), (self.how_many, "how_many", 1))
        )
        self.column.addLayout(_row((self.came_from, "came_from", 1)))
        self.column.addLayout(_beside(self.put))
        self.column.addWidget(rule())
        self.column.addWidget(words(say("donors", "lately"), "field"))
        lines = QWidget()
        self._told = stacked(lines, 2)
        self.column.addWidget(lines)

    def _lay_out_places(self) -> QWidget:
        self._full = QWidget()
        column = stacked(self._full)
        column.addWidget(self.tray)
        column.addWidget(words(say("donors", "right"), "field"))
        column.addLayout(_row((self.really, "really", 1), (self.because, "because", 3)))
        column.addLayout(_beside(self.put_right))
        return self._full

    def _connect(self) -> None:
        self.tray.taken.connect(self._go_to_count)
        for field, do in (
            (self.really, self._put_right),
            (self.because, self._put_right),
            (self.how_many, self._put),
            (self.came_from, self._put),
        ):
            field.returnPressed.connect(do)
        self.put_right.clicked.connect(self._put_right)
        self.put.clicked.connect(self._put)
        give_key(self.put_right, "F6")
        give_key(self.put, "F7")


def _row(*fields: tuple[QWidget, str, int]) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(theme.UNIT)
    for field, key, share in fields:
        row.addWidget(labelled(field, say("donors", key)), share)
    return row


def _beside(button: QPushButton) -> QHBoxLayout:
    row = QHBoxLayout()
    row.addWidget(button)
    row.addStretch(1)
    return row


def _key(place: DonorPlace) -> str:
    one = place.donor
    return f"{one.format} {one.part.value} {one.came_from}"


def _piece(key: str, place: DonorPlace) -> TrayItem:
    """One place: what, how many, from where, and where its parts went."""
    one = place.donor
    form = formats.catalogue().format(one.format).words
    parts = [say("donors", "from", where=one.came_from) if one.came_from else say("donors", "from_nobody")]
    if place.used:
        tapes = [
            tray_rows.spaced(used.tape)
            if used.held
            else say("donors", "used_failed", tape=tray_rows.spaced(used.tape))
            for used in place.used
        ]
        parts.append(say("donors", "used", tapes=", ".join(tapes)))
    left = say("donors", "count", count=one.count) if one.count else say("donors", "none_left")
    title = say("donors", "place", format=form, part=spoken(one.part))
    return TrayItem(key, title, small=" · ".join(parts), place=left, format=one.format)


def _whole(field: FigureField, name: str) -> int:
    figure = field.figure_needed()
    if figure != int(figure):
        field.mark()
        raise WrongInput(name, field.text().strip(), say("donors", "whole_number"))
    return int(figure)
