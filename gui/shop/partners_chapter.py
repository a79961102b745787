"""The chapter on the outside partners, who copy what no deck here can play."""

from __future__ import annotations

from gui.settings.partners_page import PartnersPage
from gui.shop.page_chapter import PageChapter


class PartnersChapter(PageChapter):
    """The page of the partners."""

    name = "partners"
    place = 11
    page = PartnersPage


CHAPTER = PartnersChapter
