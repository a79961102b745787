"""The chapter on what people bring: formats of the shop's own, added, changed, retired."""

from __future__ import annotations

from gui.settings.formats_page import FormatsPage
from gui.shop.page_chapter import PageChapter


class FormatsChapter(PageChapter):
    """The page of the formats."""

    name = "formats"
    place = 8
    page = FormatsPage


CHAPTER = FormatsChapter
