"""What is measured of two packs: the two radii, the marking, and the drawing whose edges can be moved."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QWidget

from core.catalogue.formats import catalogue
from core.catalogue.markings import bare
from core.model.inventory import TapeLine
from core.model.names import FormatName
from core.wording import typed_amounts
from gui.inspection.pack_drawing import RUN, STEP_MM, TO_COME, PackDrawing
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.figure_field import FigureField
from gui.widgets.layouts import labelled, stacked, words


class PackMeasures(QWidget):
    """Two fields, the marking and a drawing to scale; a field and its edge in the drawing go together."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.drawing = PackDrawing()
        self.fields = (
            FigureField("pack-to-come", say("packs", "to_come").replace("&", "")),
            FigureField("pack-run", say("packs", "run").replace("&", "")),
        )
        self.marking = QComboBox()
        self.marking.setObjectName("pack-marking")
        self._held = words("", "small")
        self._lay_out()
        for field in self.fields:
            field.textChanged.connect(self.changed)
            field.installEventFilter(self)
        self.marking.currentIndexChanged.connect(self.changed)
        self.drawing.moved.connect(self._edge_moved)

    def clear(self) -> None:
        """Forget both radii."""
        for field in self.fields:
            field.clear()

    def offer_markings(self, line: TapeLine) -> None:
        """The markings of this format; the one on the tape is chosen where it is among them."""
        self.marking.blockSignals(True)
        self.marking.clear()
        self.marking.addItem(say("packs", "no_marking"), None)
        for each in catalogue().format(line.format).markings:
            self.marking.addItem(each.name, each.name)
        wanted = bare(line.marking or "")
        names = [bare(self.marking.itemText(row)) for row in range(self.marking.count())]
        self.marking.setCurrentIndex(names.index(wanted) if wanted in names else 0)
        self.marking.blockSignals(False)

    def say_how_held(self, format: FormatName) -> None:
        """How to hold the cassette, so that left and right are those of the drawing."""
        way = "held_lid" if catalogue().format(format).anatomy.has_lid else "held_edge"
        self._held.setText(f"{say('packs', way)} {say('packs', 'sides')}")

    @property
    def radii_so_far(self) -> tuple[float | None, float | None]:
        """Left and right radius in mm; None for what is empty or no figure yet."""
        return _figure(self.fields[TO_COME].text()), _figure(self.fields[RUN].text())

    @Slot(int, object)
    def _edge_moved(self, pack: int, radius: float | None) -> None:
        if radius is None:
            self.fields[pack].clear()
        else:
            self.fields[pack].show_figure(radius, ".1f")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Up and Down in a field move the edge as they do in the drawing; Return goes on to the next."""
        if not isinstance(event, QKeyEvent) or event.type() is not QEvent.Type.KeyPress:
            return False
        pack = self.fields.index(watched) if watched in self.fields else None
        if pack is None:
            return False
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            step = STEP_MM if event.key() == Qt.Key.Key_Up else -STEP_MM
            self.drawing.move_edge(pack, self.drawing.edge(pack) + step)
            return True
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers():
            self.focusNextChild()
            return True
        return False

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(words(say("packs", "how")))
        column.addWidget(self._held)
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for field, key in zip((*self.fields, self.marking), ("to_come", "run", "marking"), strict=True):
            row.addWidget(labelled(field, say("packs", key)), 1)
        column.addLayout(row)
        column.addWidget(self.drawing, 1)
        column.addWidget(words(say("packs", "keys"), "small"))


def _figure(text: str) -> float | None:
    value = typed_amounts.number_of(text)
    return None if value is None else float(value)
