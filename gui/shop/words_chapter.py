"""The chapter on the shop's own words: worded anew, seen on the real paper, saved, taken back."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Qt, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.settings_records import ShopSettings
from core.services import jobs, paper_files
from core.services.own_shop import settings_versions, shop_document
from core.services.own_shop.shop_document import SettingsView
from core.services.shop_overview import ShopView
from gui.settings.words_page import WordsPage
from gui.shop.chapter import Chapter
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import PaperFrame, give_key, words

_PREVIEW = "preview"
"""The folder of papers that are only looked at."""
_ON_QUOTE = ("quote-", "price-", "promise-", "outcome-", "page_of", "slip-")


class WordsChapter(Chapter):
    """One sentence at a time; the papers say it at once, the screens as they are built anew."""

    name = "words"
    place = 96
    kinds = frozenset({"shop"})

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._slip: WordsSlip | None = None
        self._view: SettingsView | None = None

    def open(self, view: ShopView) -> QWidget:
        slip = self._slip = WordsSlip()
        slip.save.clicked.connect(self._save)
        slip.undo.clicked.connect(self._undo)
        slip.preview.clicked.connect(self._preview)
        self.desk.work.ask(shop_document.view, then=self._show)
        return slip

    def close(self) -> None:
        self._slip = None

    def _show(self, view: SettingsView) -> None:
        self._view = view
        if self._slip is not None:
            self._slip.page.show_settings(view)

    def _typed(self) -> ShopSettings | None:
        if self._slip is None or self._view is None:
            return None
        try:
            return self._slip.page.settings(self._view.settings)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return None

    @Slot()
    def _save(self) -> None:
        wanted = self._typed()
        if wanted is not None and self._view is not None:
            step = partial(settings_versions.change, based_on=self._view.number, confirms=[WordsPage.page])
            self._change_settings(step, wanted)

    @Slot()
    def _undo(self) -> None:
        self._change_settings(settings_versions.undo)

    def _change_settings(self, step: Callable[..., ShopSettings], *args: object) -> None:
        self.change(step, *args, said=say("settings", "words-saved"), changes=frozenset({"shop"}))

    # --- on the real paper ---------------------------------------------------------------

    @Slot()
    def _preview(self) -> None:
        wanted = self._typed()
        if wanted is not None and self._slip is not None and self._slip.page.current is not None:
            key = self._slip.page.current.place.partition("/")[2]
            self.desk.work.ask(jobs.open_jobs, then=partial(self._print, wanted, key))

    def _print(self, wanted: ShopSettings, key: str, found: tuple[Job, ...]) -> None:
        if not found:
            self.show_failure(Refused(say("settings", "words-no-order")))
            return
        folder = self.desk.papers / _PREVIEW
        self.desk.work.write_paper(
            partial(_written, found[-1], wanted, key, folder),
            then=self.desk.show_file,
            otherwise=self.show_failure,
        )


class WordsSlip(PaperFrame):
    """The page with its buttons."""

    def __init__(self) -> None:
        super().__init__("chapter-words")
        self.page = WordsPage()
        self.save = _button("words-save", "F6")
        self.undo = _button("words-undo", "F7")
        self.preview = _button("words-preview", "F8")
        self.save.setProperty("role", "main")
        self.preview.setEnabled(False)
        self.page.turned.connect(self._offer)
        self.column.addWidget(words(say("settings", "title-words"), "heading"))
        self.column.addWidget(self.page)
        self.column.addWidget(words(say("settings", "words-touches"), "small"))
        self.column.addWidget(ButtonRow([self.save, self.preview, self.undo]))

    @Slot(str)
    def _offer(self, place: str) -> None:
        """A sentence of the quote or the claim slip can be seen there."""
        room, _, key = place.partition("/")
        self.preview.setEnabled(room == "paper" and key.startswith(_ON_QUOTE))


def _button(name: str, keys: str) -> QPushButton:
    button = QPushButton(say("settings", name, keys=keys))
    button.setObjectName(name)
    button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    give_key(button, keys)
    return button


def _written(job: Job, wanted: ShopSettings, key: str, folder: Path) -> Path:
    """The paper of a real order with the words as typed; the claim slip for a sentence of it."""
    from core.papers import claim_slip, quote_paper  # the paper library is imported where paper is made

    front = wanted.front
    if key.startswith("slip-"):
        return paper_files.write(paper_files.prepare(folder), "claim-slip", claim_slip.render(job, front))
    return paper_files.write(paper_files.prepare(folder), "quote", quote_paper.render(job.quote, front))


CHAPTER = WordsChapter
