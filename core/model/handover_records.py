"""What lies between ready and handed back: how the owner is told, who may collect, and who called."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum


class ToldHow(Enum):
    """How a customer is told. The value is the name used on the command line and in the database."""

    PHONE = "phone"
    EMAIL = "email"
    MESSAGE = "message"


class ToldResult(Enum):
    """What came of it."""

    REACHED = "reached"
    LEFT_WORD = "left-word"
    NO_ANSWER = "no-answer"
    WRONG_NUMBER = "wrong-number"
    """Or a wrong address."""
    SENT = "sent"

    @property
    def is_told(self) -> bool:
        """Whether the customer may be taken to know: the days of waiting count from here."""
        return self in (ToldResult.REACHED, ToldResult.LEFT_WORD, ToldResult.SENT)


RESULTS = {
    ToldHow.PHONE: (
        ToldResult.REACHED,
        ToldResult.LEFT_WORD,
        ToldResult.NO_ANSWER,
        ToldResult.WRONG_NUMBER,
    ),
    ToldHow.EMAIL: (ToldResult.SENT, ToldResult.WRONG_NUMBER),
    ToldHow.MESSAGE: (ToldResult.SENT, ToldResult.WRONG_NUMBER),
}
"""What can come of each way; the usual one first."""


@dataclass(frozen=True, slots=True)
class Telling:
    """One attempt to tell a customer that an order is ready."""

    round: int
    """0: that it is ready; 1 and up: the reminders."""
    how: ToldHow
    result: ToldResult
    note: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class NamedCollector:
    """Who may collect an order besides the customer, as the customer said beforehand."""

    words: str
    said_by: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class HandoverWishes:
    """What a customer wishes for an order: how to be told, who may collect it, and a pass-phrase."""

    how: ToldHow | None = None
    collector: NamedCollector | None = None
    pass_phrase: str = ""
    """The Argon2id hash (RFC 9106) as a PHC string; nothing: none was agreed."""


NO_WISHES = HandoverWishes()


@dataclass(frozen=True, slots=True)
class NotedCall:
    """A call about an order: when, who of the shop answered, and what was said."""

    at: datetime
    by: str
    caller: str
    said: str
