"""The page on what can be wrong: findings, repairs and media of the shop's own, beside the program's."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QComboBox, QWidget

from core.catalogue import condition, findings
from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.pricing import price_rows
from core.services.own_shop import addition_drafts, setting_names
from core.services.own_shop.addition_drafts import FINDING, KINDS, MEDIUM, REPAIR, AdditionDraft
from core.services.own_shop.shop_document import SettingsView
from gui.settings.addition_form import AdditionForm
from gui.settings.listed_page import ListedPage
from gui.toolkit.text import say, sentence_case
from gui.widgets.layouts import labelled, rule, words
from gui.widgets.tray import TrayItem

_PRICED_IN = {REPAIR: price_rows.REPAIR, MEDIUM: price_rows.MEDIA}


class FindingsPage(ListedPage[AdditionDraft]):
    """A tray of what the shop added, a line that adds more, and the fields of the one that is chosen."""

    page = SetupPage.FINDINGS
    paths: ClassVar[tuple[str, ...]] = KINDS

    form: AdditionForm

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._priced: frozenset[tuple[str, str]] = frozenset()
        self.kind = QComboBox()
        self.form = AdditionForm()
        self._lay_out()
        self.form.edited.connect(self._edit)
        self.form.remove_wanted.connect(self._remove)

    def show_settings(self, view: SettingsView) -> None:
        self._priced = frozenset(
            (kind, code) for kind, part in _PRICED_IN.items() for code in view.prices.get(part, {})
        )
        self.show_draft(view.settings)

    def show_draft(self, draft: ShopSettings) -> None:
        self._begin(addition_drafts.of(draft.additions))

    def draft(self, before: ShopSettings) -> ShopSettings:
        try:
            return addition_drafts.kept(self._rows, before)
        except WrongInput as wrong:
            raise self._named(wrong) from None

    def point_out(self, wrong: WrongInput) -> None:
        """The entry and the field the sentence is about."""
        for row in self._rows:
            for key in ("words", "told", "outcome", "repairs", "caution", "minutes", "gigabytes", "name"):
                if wrong.place == _place(row, key):
                    self.tray.stand_on(row.key)
                    self.form.field_of(key).setFocus(Qt.FocusReason.OtherFocusReason)
                    return

    def _named(self, wrong: WrongInput) -> WrongInput:
        """The complaint by the entry's words and the field, in place of ``settings, repair 2, minutes``."""
        for kind in KINDS:
            rows = [row for row in self._rows if row.kind == kind]
            for number, row in enumerate(rows, 1):
                _, mark, key = wrong.place.partition(f"{kind} {number}, ")
                if mark:
                    return WrongInput(_place(row, key.split(" ")[0]), wrong.found, wrong.accepted)
        return wrong

    # --- the entries ---------------------------------------------------------------------

    @Slot()
    def _add(self) -> None:
        self._take_in(AdditionDraft(self._key(), self.kind.currentData()))
        self.form.name.setFocus(Qt.FocusReason.OtherFocusReason)

    @Slot(object)
    def _edit(self, draft: AdditionDraft) -> None:
        place = self._chosen
        if place is not None:
            self._rows[place] = draft
            self._put(retired=draft.retired)

    def _show_row(self, row: AdditionDraft) -> None:
        self.form.offer_repairs(self._repairs())
        price = say("settings", "findings-unpriced" if self._lacks_price(row) else "formats-priced")
        self.form.show_draft(replace(row, repairs=self._by_draft(row.repairs)), price)

    def _repairs(self) -> dict[str, str]:
        """What may deal with a finding: repairs of the program by code, of the shop by draft."""
        offers = {code: sentence_case(findings.repair_words(code)) for code in condition.REPAIRS}
        return offers | {row.key: sentence_case(_words(row)) for row in self._rows if row.kind == REPAIR}

    def _by_draft(self, codes: tuple[str, ...]) -> tuple[str, ...]:
        drafts = {row.name: row.key for row in self._rows if row.kind == REPAIR and row.name}
        return tuple(drafts.get(code, code) for code in codes)

    def _lacks_price(self, row: AdditionDraft) -> bool:
        return row.kind != FINDING and (row.kind, row.name) not in self._priced

    def _item(self, row: AdditionDraft) -> TrayItem:
        state = (
            "formats-state-retired"
            if row.retired
            else "findings-state-unpriced"
            if self._lacks_price(row)
            else ""
        )
        small = row.told if row.kind == FINDING else ""
        place = say("settings", state) if state else ""
        kind = say("settings", f"findings-kind-{row.kind}")
        return TrayItem(
            row.key, sentence_case(_words(row)), small=small or kind, place=place or (small and kind)
        )

    # --- building ------------------------------------------------------------------------

    def _lay_out(self) -> None:
        for kind in KINDS:
            self.kind.addItem(say("settings", f"findings-kind-{kind}"), kind)
        self.kind.setObjectName("findings-kind")
        self.column.addWidget(words(say("settings", "findings-lead")))
        self._lay_adder((self.kind, 3))
        self.column.addWidget(labelled(self.tray, say("settings", "findings-list")))
        self.column.addWidget(rule())
        self.column.addWidget(self.form)


PAGE = FindingsPage


def _words(row: AdditionDraft) -> str:
    return row.words.strip() or say("settings", "formats-new")


def _place(row: AdditionDraft, key: str) -> str:
    """What a complaint calls a field of an entry."""
    return setting_names.added_place(_words(row), key)
