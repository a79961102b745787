"""The pages on which an owner sets the shop up, and what stands on each in the settings file."""

from __future__ import annotations

from enum import Enum

from core.model.errors import Refused


class SetupPage(Enum):
    """A page of the set-up."""

    FRONT = "front"
    HOURS = "hours"
    DECKS = "decks"
    PEOPLE = "people"
    PRICES = "prices"
    PAPERS = "papers"
    FORMATS = "formats"
    FINDINGS = "findings"
    WORDS = "words"
    PARTNERS = "partners"
    BACKUP = "backup"


class NotSetUp(Refused):
    """The shop is not set up yet."""

    def __init__(self, sentence: str, pages: tuple[SetupPage, ...]) -> None:
        super().__init__(sentence)
        self.pages = pages
        """To be filled in first, at least one."""


NEEDED = (SetupPage.FRONT, SetupPage.HOURS, SetupPage.DECKS, SetupPage.PRICES)
"""Without these no real order is taken in."""
