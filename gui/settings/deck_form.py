"""The fields of one deck: its name, what it plays, and whether it is in service."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QPushButton

from core.catalogue import deck_kinds
from core.catalogue.formats import catalogue
from core.model.names import FormatName, Speed, TvSystem
from core.model.own_shop.settings_records import Deck, Outage
from core.wording import locale_figures
from gui.settings.check_boxes import CheckBoxes
from gui.settings.listed_page import EntryForm
from gui.toolkit import theme
from gui.toolkit.text import say, sentence_case
from gui.widgets.layouts import labelled, rule, stacked, words


class DeckForm(EntryForm):
    """Shows a deck and says how it was changed; it keeps nothing."""

    edited = Signal(object)
    """The `Deck` as it was changed."""
    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._deck = Deck("", frozenset(), frozenset(), frozenset())
        self.name = QLineEdit()
        self.name.setObjectName("deck-name")
        self.name.setMaxLength(40)
        self.plays = CheckBoxes("deck-plays", _formats())
        self.tv = CheckBoxes("deck-tv", {each.value: each.value.upper() for each in TvSystem})
        self.speeds = CheckBoxes("deck-speeds", {each.value: each.words for each in Speed})
        self.in_service = QCheckBox(say("settings", "decks-in-service"))
        self.retired = QCheckBox(say("settings", "decks-retired"))
        self.remove = QPushButton(say("settings", "decks-remove"))
        self.planned = words("", "small")
        self._lay_out()
        self._connect()

    def show_deck(self, deck: Deck, outages: Sequence[Outage]) -> None:
        """Fill the fields in; ``outages`` are those planned for this deck."""
        self._deck = deck
        if self.name.text() != deck.name:
            self.name.setText(deck.name)
        self.plays.show_chosen(deck.plays)
        self.tv.show_chosen(deck.tv)
        self.speeds.show_chosen(deck.speeds)
        self.in_service.setChecked(deck.in_service)
        self.in_service.setEnabled(not deck.retired)
        self.retired.setChecked(deck.retired)
        spans = [locale_figures.span(each.begins, each.ends) for each in outages]
        told = say("settings", "decks-planned", spans=locale_figures.listed(spans)) if spans else ""
        self.planned.setText(told)
        self.planned.setVisible(bool(told))

    def offer_formats(self) -> None:
        """The recordings that are known by now, the shop's own formats among them."""
        self.plays.offer(_formats())

    @Slot()
    def _edit(self) -> None:
        retired = self.retired.isChecked()
        # Brought back, a deck is in service again; retired, it is not.
        turned = retired is not self._deck.retired
        in_service = not retired if turned else self.in_service.isChecked()
        self.edited.emit(
            replace(
                self._deck,
                name=self.name.text(),
                plays=frozenset(map(FormatName, self.plays.chosen)),
                tv=self.tv.chosen,
                speeds=self.speeds.chosen,
                in_service=in_service,
                retired=retired,
            )
        )

    def _connect(self) -> None:
        self.name.textEdited.connect(self._edit)
        for boxes in (self.plays, self.tv, self.speeds):
            boxes.changed.connect(self._edit)
        for box in (self.in_service, self.retired):
            box.clicked.connect(self._edit)
        self.remove.clicked.connect(self.remove_wanted)

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(rule())
        self.in_service.setObjectName("deck-in-service")
        self.retired.setObjectName("deck-retired")
        self.remove.setObjectName("deck-remove")
        self.name.setMaximumWidth(40 * theme.UNIT)
        column.addWidget(labelled(self.name, say("settings", "decks-name")))
        column.addWidget(labelled(self.plays, say("settings", "decks-plays")))
        column.addWidget(labelled(self.tv, say("settings", "decks-tv")))
        column.addWidget(labelled(self.speeds, say("settings", "decks-speeds")))
        column.addWidget(self.in_service)
        column.addWidget(self.retired)
        column.addWidget(self.planned)
        row = QHBoxLayout()
        row.addWidget(self.remove)
        row.addStretch(1)
        column.addLayout(row)


def summary(deck: Deck) -> str:
    """What one deck plays, on one line."""
    formats = catalogue()
    parts = [
        ", ".join(formats.format(name).words for name in formats.names if name in deck.plays),
        ", ".join(each.value.upper() for each in TvSystem if each.value in deck.tv),
        ", ".join(each.words for each in Speed if each.value in deck.speeds),
    ]
    return " · ".join(part for part in parts if part)


def _formats() -> dict[str, str]:
    """Every recording a deck may play; those that need an adapter say so."""
    adapted = {name for kind in deck_kinds.kinds() for name in kind.adapters}
    found = {}
    for form in catalogue().offered:
        if form.name in form.systems:
            key = "decks-in-adapter" if form.name in adapted else "decks-format"
            found[str(form.name)] = sentence_case(say("settings", key, format=form.words))
    return found
