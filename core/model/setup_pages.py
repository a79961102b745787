"""The pages on which an owner sets the shop up, and what stands on each in the settings file."""

from __future__ import annotations

from enum import Enum


class SetupPage(Enum):
    """A page of the set-up."""

    FRONT = "front"
    HOURS = "hours"
    DECKS = "decks"
    PEOPLE = "people"
    PRICES = "prices"
    PAPERS = "papers"
    BACKUP = "backup"


NEEDED = (SetupPage.FRONT, SetupPage.HOURS, SetupPage.DECKS, SetupPage.PRICES)
"""Without these no real order is taken in."""
