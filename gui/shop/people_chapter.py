"""The chapter on the people: who works here, what each may do, and PINs."""

from __future__ import annotations

from gui.settings.drafted_page import DraftedPage
from gui.settings.people_page import PeoplePage
from gui.settings.secret_printing import TokenPrinting
from gui.shop.page_chapter import PageChapter


class PeopleChapter(PageChapter):
    """The page of the people; a new token can be printed."""

    name = "people_chapter"
    place = 7
    page = PeoplePage

    def _serve(self, page: DraftedPage) -> None:
        if isinstance(page, PeoplePage):
            TokenPrinting(page, self.desk, self.show_failure)


CHAPTER = PeopleChapter
