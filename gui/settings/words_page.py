"""The page on the shop's own words: a sentence is found by part of it and worded anew; cautions are added."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import ClassVar

from PySide6.QtCore import QEvent, QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import own_sentences
from core.services.own_shop.shop_document import SettingsView
from gui.settings.fields_page import FieldsPage, checked
from gui.settings.form_fields import LinesField, TextField, WrongField
from gui.settings.sentence_search import BuiltIn, SentenceSearch
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted, labelled, rule, words
from gui.widgets.tray import Tray, TrayItem

_ROWS_HIGH = theme.Length(22)
_OWN_LINES = 2
_CAUTION_LINES = 3


class WordsPage(FieldsPage):
    """What is typed for one sentence is kept while another is looked at."""

    page = SetupPage.WORDS
    paths: ClassVar[tuple[str, ...]] = ("words", "front.extra_cautions")

    turned = Signal(str)
    """The ``room/key`` of the sentence that is on show."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._search = SentenceSearch()
        self._language = "en"
        self._kept: Mapping[str, str] = {}
        self.own: dict[str, str] = {}
        """What the shop says, by ``room/key``."""
        self.current: BuiltIn | None = None
        self.search = TextField("words-search")
        self.found = Tray("words-found", say("settings", "words-found"), always_lit=True)
        self.built_in = words()
        self.blanks = words("", "small")
        self.text = LinesField("words-own", _OWN_LINES)
        self.cautions = LinesField("words-cautions", _CAUTION_LINES)
        self._lay_out()
        self._connect()

    def show_settings(self, view: SettingsView) -> None:
        front = view.settings.front
        self._language, self._kept, self.own = front.language, dict(front.words), dict(front.words)
        self.cautions.setPlainText("\n".join(front.extra_cautions))
        self._list()
        self._show(self.found.current)

    def draft(self, before: ShopSettings) -> ShopSettings:
        front = replace(
            before.front, words=tuple(sorted(self.own.items())), extra_cautions=self.cautions.lines
        )
        draft = checked(replace(before, front=front), {"extra_cautions": self.cautions})
        for place, text in self.own.items():
            if self._kept.get(place) != text:
                self._check(place, text)
        return draft

    def typed(self) -> tuple[dict[str, str], str]:
        return dict(self.own), self.cautions.toPlainText()

    def put_back(self, typed: tuple[Mapping[str, str], str]) -> None:
        self.own = dict(typed[0])
        self.cautions.setPlainText(typed[1])
        self._list()
        self._show(self.found.current)

    def focus_first(self) -> None:
        self.search.setFocus()

    def turn(self, place: str) -> None:
        """Show one sentence with the shop's own words for it."""
        self.search.setText(place)
        self._list()
        self.found.stand_on(place)

    def _check(self, place: str, text: str) -> None:
        try:
            own_sentences.check([(place, text)], self._language, say("settings", "title-words"))
        except WrongInput as wrong:
            self.turn(place)
            raise WrongField(self.text, wrong.place, wrong.found, wrong.accepted) from None

    # --- finding -------------------------------------------------------------------------

    @Slot()
    def _list(self) -> None:
        hits = self._search.found(self.search.text(), self.own, self._language)
        own = say("settings", "words-is-own")
        self.found.lay(
            [
                TrayItem(
                    each.place,
                    self.own.get(each.place, each.shown),
                    place=own if each.place in self.own else "",
                )
                for each in hits
            ]
        )
        self.found.setVisible(bool(hits or self.search.text()))
        if hits and self.found.current not in {each.place for each in hits}:
            self.found.stand_on_first()
        if not hits:
            self._show("")

    def _row(self, each: BuiltIn) -> TrayItem:
        own = self.own.get(each.place)
        if own is None:
            return TrayItem(each.place, each.shown)
        return TrayItem(each.place, " ".join(own.split()), place=say("settings", "words-is-own"))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Up and Down in the search travel what was found."""
        return watched is self.search and self.found.steered_by(event)

    @Slot(str)
    def _show(self, place: str) -> None:
        """The built-in sentence, its blanks, and the shop's own words beside it."""
        self.current = self._search.of(place, self._language) if place else None
        is_known = self.current is not None
        self.text.setEnabled(is_known)
        key = "words-choose" if self.search.text() else "words-none-yet"
        self.built_in.setText(self.current.text if self.current else say("settings", key))
        names = ", ".join(f"{{ ${name} }}" for name in self.current.blanks) if self.current else ""
        self.blanks.setText(say("settings", "words-blanks", blanks=names) if names else "")
        self.blanks.setVisible(bool(names))
        self.text.blockSignals(True)
        self.text.setPlainText(self.own.get(place, ""))
        self.text.blockSignals(False)
        self.turned.emit(place if is_known else "")

    @Slot()
    def _keep(self) -> None:
        """What is typed is the shop's sentence; nothing, or the built-in one, is none."""
        theme.set_style_property(self.text, "wrong", False)
        if self.current is None:
            return
        typed = self.text.toPlainText().strip()
        if typed in ("", self.current.text):
            self.own.pop(self.current.place, None)
        else:
            self.own[self.current.place] = typed
        self.changed.emit()

    # --- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        self.search.installEventFilter(self)
        self.search.textEdited.connect(self._list)
        self.found.moved.connect(self._show)
        self.text.textChanged.connect(self._keep)
        self.cautions.textChanged.connect(self.changed)

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("settings", "words-lead")))
        hinted(self.search, say("settings", "words-search-hint"))
        self.column.addWidget(labelled(self.search, say("settings", "words-search")))
        self.found.setFixedHeight(_ROWS_HIGH.px)
        self.column.addWidget(self.found)
        self.column.addWidget(words(say("settings", "words-built-in"), "field"))
        self.built_in.setObjectName("words-built-in")
        self.column.addWidget(self.built_in)
        self.column.addWidget(self.blanks)
        self.column.addWidget(labelled(self.text, say("settings", "words-own")))
        self.column.addWidget(rule())
        self.column.addWidget(labelled(self.cautions, say("settings", "words-cautions")))
        self.column.addWidget(words(say("settings", "words-cautions-means"), "small"))


PAGE = WordsPage
