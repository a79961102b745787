"""The chapter on the shop's own words: worded anew, seen on the real paper, saved, taken back."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import Refused
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopSettings
from core.services import jobs, paper_files
from core.services.shop_overview import ShopView
from core.services.shop_places import shop_folders
from gui.settings.words_page import WordsPage
from gui.shop.form_chapter import FormChapter, FormSlip
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.layouts import words

_ON_QUOTE = ("quote-", "ways-", "price-", "promise-", "outcome-", "page_of", "slip-")


class WordsChapter(FormChapter["WordsSlip"]):
    """One sentence at a time; the papers say it at once, the screens as they are built anew."""

    name = "words"
    place = 96
    saved = "words-saved"

    def open(self, view: ShopView) -> QWidget:
        slip = self._fill_in(WordsSlip())
        slip.preview.clicked.connect(self._preview)
        return slip

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
        folder = self.desk.papers / shop_folders.PREVIEW
        write = partial(_written, found[-1], wanted, key, folder)
        show, failed = self.desk.show_file, self.show_failure
        self.desk.write_paper_of(found[-1].number, write, then=show, otherwise=failed)


class WordsSlip(FormSlip[WordsPage]):
    """The page with its buttons."""

    def __init__(self) -> None:
        super().__init__("words", WordsPage())
        self.preview = key_button("words-preview", "F8")
        self.preview.setEnabled(False)
        self.page.turned.connect(self._offer)
        self.column.addWidget(words(say("settings", "title-words"), "heading"))
        self.column.addWidget(self.page)
        self.column.addWidget(self.conflict)
        self.column.addWidget(words(say("settings", "words-touches"), "small"))
        self.column.addWidget(ButtonRow([self.save, self.preview, self.undo]))

    @Slot(str)
    def _offer(self, place: str) -> None:
        """A sentence of the quote or the claim slip can be seen there."""
        room, _, key = place.partition("/")
        self.preview.setEnabled(room == "paper" and key.startswith(_ON_QUOTE))


def _written(job: Job, wanted: ShopSettings, key: str, folder: Path) -> Path:
    """The paper of a real order with the words as typed; the claim slip for a sentence of it."""
    from core.papers.booking import quote_paper  # the paper library is imported where paper is made

    front, stem = wanted.front, f"preview-{job.number}"  # with its number, so that an erasure finds it
    if key.startswith("slip-"):
        return paper_files.write(paper_files.prepare(folder), stem, paper_files.slip(job, front))
    made = quote_paper.render(job.quote, front, detail=True)
    return paper_files.write(paper_files.prepare(folder), stem, made)


CHAPTER = WordsChapter
