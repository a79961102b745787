"""The page of the decks: which there are, what each plays, more of a kind, and those that are retired."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QComboBox, QWidget

from core.catalogue import deck_kinds
from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.names import TvSystem
from core.model.own_shop import renamed_decks
from core.model.own_shop.settings_records import Deck, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import shop_settings
from core.services.own_shop.shop_document import SettingsView
from gui.settings.deck_form import DeckForm, summary
from gui.settings.drafted_page import whole
from gui.settings.listed_page import ListedPage
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.figure_field import FigureField
from gui.widgets.layouts import labelled, words
from gui.widgets.tray import TrayItem

MOST_ALIKE = 20


@dataclass(frozen=True, slots=True)
class _Row:
    """A deck on the page, and the name it has in the records; none for one that was just added."""

    key: str
    deck: Deck
    known_as: str | None = None


class DecksPage(ListedPage[_Row]):
    """A tray of decks, a line that adds some of a kind, and the fields of the deck that is chosen."""

    page = SetupPage.DECKS
    paths: ClassVar[tuple[str, ...]] = ("deck",)

    form: DeckForm

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._known = shop_settings.new_shop()
        """The settings in force."""
        self._own_tv = TvSystem.NTSC
        self.kind = QComboBox()
        self.how_many = FigureField("decks-how-many", say("settings", "decks-how-many"))
        self.form = DeckForm()
        self._lay_out()
        self._connect()

    def show_settings(self, view: SettingsView) -> None:
        self._known = view.settings
        self._own_tv = deck_kinds.own_tv(view.settings)
        self.how_many.setText("1")
        self.form.offer_formats()
        self.show_draft(view.settings)

    def show_draft(self, draft: ShopSettings) -> None:
        names = _known_names(draft.decks, [deck.name for deck in self._known.decks])
        self._begin([_Row(self._key(), deck, name) for deck, name in zip(draft.decks, names, strict=True)])

    def draft(self, before: ShopSettings) -> ShopSettings:
        names = {row.known_as: row.deck.name.strip() for row in self._rows if row.known_as}
        base = renamed_decks.renamed(before, names)
        formerly = {deck.name: deck.formerly for deck in base.decks}
        decks = tuple(
            replace(row.deck, name=name, formerly=formerly.get(name, ()) if row.known_as else ())
            for row in self._rows
            for name in [row.deck.name.strip()]
        )
        here = {deck.name for deck in decks}
        outages = tuple(each for each in base.outages if each.deck in here)
        wanted = replace(base, decks=decks, outages=outages)
        shop_settings.of_document(shop_settings.document(wanted), say("settings", "the-settings"))
        return wanted

    # --- the decks -----------------------------------------------------------------------

    @Slot()
    def _add(self) -> None:
        """More decks of the chosen kind, as many alike as the line says."""
        try:
            number = whole(self.how_many)
            if not 1 <= number <= MOST_ALIKE:
                self.how_many.mark()
                raise WrongInput(
                    say("settings", "decks-how-many"),
                    self.how_many.text(),
                    say("settings", "decks-how-many-accepted", most=MOST_ALIKE),
                )
        except WrongInput as wrong:
            self._told.setText(wrong.sentence)
            self._told.show()
            return
        kind = deck_kinds.kind(self.kind.currentData())
        names = deck_kinds.free_names(kind.short, number, [row.deck.name for row in self._rows])
        made = [_Row(self._key(), kind.deck(name, self._own_tv)) for name in names]
        self._told.hide()
        self.how_many.setText("1")
        self._take_in(*made)
        self.kind.setFocus(Qt.FocusReason.OtherFocusReason)

    @Slot(object)
    def _edit(self, deck: Deck) -> None:
        self._put(deck=deck)

    def _show_row(self, row: _Row) -> None:
        mine = [each for each in self._known.outages if each.deck == row.known_as]
        self.form.show_deck(row.deck, mine)

    def _item(self, row: _Row) -> TrayItem:
        deck = row.deck
        state = "retired" if deck.retired else "in" if deck.in_service else "out"
        plays: Sequence[str] = [name for name in catalogue().names if name in deck.plays]
        picture = catalogue().format(plays[0]).name if plays else None
        place = say("settings", f"decks-state-{state}")
        return TrayItem(row.key, deck.name, small=summary(deck), place=place, format=picture)

    def point_out(self, wrong: WrongInput) -> None:
        """The deck and the field the sentence is about: ``settings, deck 3, name``."""
        for number, row in enumerate(self._rows, 1):
            if f"deck {number}" in wrong.place.split(", "):
                self.tray.stand_on(row.key)
                self.form.name.setFocus(Qt.FocusReason.OtherFocusReason)

    # --- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        self.how_many.returnPressed.connect(self._add)
        self.form.edited.connect(self._edit)
        self.form.remove_wanted.connect(self._remove)

    def _lay_out(self) -> None:
        for kind in deck_kinds.kinds():
            self.kind.addItem(kind.words, kind.name)
        self.kind.setObjectName("decks-kind")
        self.how_many.setMaximumWidth(12 * theme.UNIT)
        self._told = words("", "attention")
        self._told.hide()
        self.column.addWidget(words(say("settings", "decks-lead")))
        self._lay_adder((self.kind, 3), (self.how_many, 1))
        self.column.addWidget(self._told)
        self.column.addWidget(words(say("settings", "decks-kind-ground"), "small"))
        self.column.addWidget(labelled(self.tray, say("settings", "decks-list")))
        self.column.addWidget(self.form)


def _known_names(decks: Sequence[Deck], known: Sequence[str]) -> list[str | None]:
    """What the records call each deck: a draft may have renamed it; None for one that is new."""
    renamed = {
        deck.formerly[-1]: deck.name
        for deck in decks
        if deck.name not in known and deck.formerly and deck.formerly[-1] in known
    }
    before = {new: old for old, new in renamed.items()}
    return [
        before.get(deck.name) or (deck.name if deck.name in known and deck.name not in renamed else None)
        for deck in decks
    ]


PAGE = DecksPage
