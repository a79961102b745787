"""The chapter on the decks: added, renamed, retired, and what each plays."""

from __future__ import annotations

from gui.settings.decks_page import DecksPage
from gui.shop.page_chapter import PageChapter


class DeckSettingsChapter(PageChapter):
    """The page of the decks."""

    name = "decks"
    place = 6
    page = DecksPage


CHAPTER = DeckSettingsChapter
