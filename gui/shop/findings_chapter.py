"""The chapter on what can be wrong: findings, repairs and media of the shop's own."""

from __future__ import annotations

from gui.settings.findings_page import FindingsPage
from gui.shop.page_chapter import PageChapter


class FindingsChapter(PageChapter):
    """The page of the findings."""

    name = "findings"
    place = 9
    page = FindingsPage


CHAPTER = FindingsChapter
