"""The chapter on the people: who works here, what each may do, and PINs."""

from __future__ import annotations

from gui.settings.people_page import PeoplePage
from gui.shop.page_chapter import PageChapter


class PeopleChapter(PageChapter):
    """The page of the people."""

    name = "people_chapter"
    place = 7
    page = PeoplePage


CHAPTER = PeopleChapter
