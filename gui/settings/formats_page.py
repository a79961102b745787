"""The page on what people bring: the shop's own formats, each like the nearest one of the program."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QComboBox, QWidget

from core.catalogue import formats
from core.model.errors import WrongInput
from core.model.names import FormatName, Speed
from core.model.own_shop.settings_records import Deck, OwnFormat, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.pricing.price_rows import CAPTURE
from core.services.own_shop import format_drafts, own_formats, shop_settings
from core.services.own_shop.format_drafts import FormatDraft
from core.services.own_shop.shop_document import SettingsView
from gui.settings.format_form import FormatForm
from gui.settings.listed_page import ListedPage
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, rule, words
from gui.widgets.tray import TrayItem


@dataclass(frozen=True, slots=True)
class _Row:
    """A format on the page; ``known`` as the records have it, None for one that was just added."""

    key: str
    draft: FormatDraft
    machines: frozenset[str]
    known: OwnFormat | None = None


class FormatsPage(ListedPage[_Row]):
    """A tray of formats, a line that adds one like another, and the fields of the one that is chosen."""

    page = SetupPage.FORMATS
    paths: ClassVar[tuple[str, ...]] = ("format",)

    form: FormatForm

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = shop_settings.new_shop()
        self._priced: frozenset[str] = frozenset()
        self.like = QComboBox()
        self.form = FormatForm()
        self._lay_out()
        self.form.edited.connect(self._edit)
        self.form.remove_wanted.connect(self._remove)

    def show_settings(self, view: SettingsView) -> None:
        self._settings = view.settings
        self._priced = frozenset(view.prices.get(CAPTURE, {}))
        self.form.offer_machines([deck.name for deck in view.settings.working_decks])
        self.show_draft(view.settings)

    def show_draft(self, draft: ShopSettings) -> None:
        known = {form.name: form for form in self._settings.formats}
        self._begin(
            [
                _Row(
                    self._key(),
                    format_drafts.of(form),
                    frozenset(deck.name for deck in draft.decks if form.name in deck.plays),
                    known.get(form.name),
                )
                for form in draft.formats
            ]
        )

    def draft(self, before: ShopSettings) -> ShopSettings:
        own = self._formats()
        wanted = replace(
            before,
            formats=own,
            decks=tuple(_played(deck, own, self._rows, before) for deck in before.decks),
            partners=tuple(
                replace(each, formats=taken)
                for each in before.partners
                if (taken := each.formats - _gone(before, own))
            ),
        )
        shop_settings.of_document(shop_settings.document(wanted), say("settings", "the-settings"))
        return wanted

    def _formats(self) -> tuple[OwnFormat, ...]:
        """The formats as they are typed; a new one gets its key from its name."""
        taken = {str(form.name) for form in formats.shipped().formats}
        taken |= {row.known.name for row in self._rows if row.known}
        own: list[OwnFormat] = []
        for row in self._rows:
            name = row.known.name if row.known else own_formats.free_key(row.draft.words, taken)
            taken.add(name)
            own.append(format_drafts.kept(row.draft, name, row.known))
        return tuple(own)

    # --- the formats ---------------------------------------------------------------------

    @Slot()
    def _add(self) -> None:
        """One more, like the format that is chosen."""
        self._take_in(_Row(self._key(), format_drafts.begun(self.like.currentData()), frozenset()))
        self.form.name.setFocus(Qt.FocusReason.OtherFocusReason)

    @Slot(object, object)
    def _edit(self, draft: FormatDraft, machines: frozenset[str]) -> None:
        self._put(draft=draft, machines=machines)

    def _show_row(self, row: _Row) -> None:
        nearest = formats.shipped().format(row.draft.like).words
        priced = row.known is not None and row.known.name in self._priced
        price = say("settings", "formats-priced" if priced else "formats-unpriced")
        self.form.show_format(
            row.draft, say("settings", "formats-nearest", format=nearest), price, row.machines
        )

    def _item(self, row: _Row) -> TrayItem:
        state = "retired" if row.draft.retired else "in" if row.machines else "no-machine"
        like = formats.shipped().format(row.draft.like)
        return TrayItem(
            row.key,
            row.draft.words or say("settings", "formats-new"),
            small=say("settings", "formats-nearest", format=like.words),
            place=say("settings", f"formats-state-{state}"),
            format=like.name,
        )

    def point_out(self, wrong: WrongInput) -> None:
        """The format and the field the sentence is about: ``settings, format 3, amount, usual``."""
        for number, row in enumerate(self._rows, 1):
            if f"format {number}" in wrong.place.split(", "):
                self.tray.stand_on(row.key)
                self.form.field_of(wrong.place).setFocus(Qt.FocusReason.OtherFocusReason)

    # --- building ------------------------------------------------------------------------

    def _lay_out(self) -> None:
        for form in formats.shipped().formats:
            if form.has_own_system:
                self.like.addItem(form.words, str(form.name))
        self.like.setObjectName("formats-like")
        self.like.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.like.setMinimumContentsLength(12)
        self.column.addWidget(words(say("settings", "formats-lead")))
        self._lay_adder((self.like, 3))
        self.column.addWidget(labelled(self.tray, say("settings", "formats-list")))
        self.column.addWidget(rule())
        self.column.addWidget(self.form)


def _gone(before: ShopSettings, own: tuple[OwnFormat, ...]) -> frozenset[FormatName]:
    """Keys of formats that are removed."""
    return frozenset(FormatName(form.name) for form in before.formats) - {form.name for form in own}


def _played(deck: Deck, own: tuple[OwnFormat, ...], rows: list[_Row], before: ShopSettings) -> Deck:
    """The deck with what it does of these formats, and the speeds that takes."""
    mine = [form for form, row in zip(own, rows, strict=True) if deck.name in row.machines]
    others = deck.plays - {form.name for form in (*before.formats, *own)}
    new = [form for form in mine if form.name not in deck.plays]
    speeds = deck.speeds | _speeds(new) if deck.speeds else deck.speeds
    return replace(deck, plays=others | {FormatName(form.name) for form in mine}, speeds=speeds)


def _speeds(own: list[OwnFormat]) -> frozenset[str]:
    """Film needs its frame rates, everything else its one speed."""
    rates = frozenset(speed.value for speed in Speed if speed.frames_a_second)
    drafts = [format_drafts.of(form) for form in own]
    return frozenset().union(*(rates if draft.unit == "feet" else {Speed.SP.value} for draft in drafts))


PAGE = FormatsPage
