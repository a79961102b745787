"""What is missing before a box can be booked."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.errors import WrongInput
from core.model.quote_records import Quote
from gui.counter.typed_box import ParsedBox, row_sentence
from gui.toolkit.text import say


@dataclass(frozen=True, slots=True)
class Obstacle:
    """A cell or field that has to be filled in or corrected first."""

    row: int | None
    """Row of the cell, from 0; None: a field beside the tray."""
    field: str
    """Column of the cell, or name of the field."""
    sentence: str


class NotComplete(WrongInput):
    """A sentence that says by itself what is missing."""

    def __init__(self, sentence: str) -> None:
        super().__init__("", "", sentence)
        self.sentence = sentence


def first_obstacle(reading: ParsedBox, quote: Quote | None, is_told: bool) -> Obstacle | None:
    """The first thing missing before the box is booked; ``is_told``: the customer has heard every warning."""
    if reading.wrong:
        row, field, sentence = reading.wrong[0]
        return Obstacle(row, field, row_sentence(row, sentence))
    if quote is None:
        return Obstacle(0, "count", say("counter", "need_tape"))
    if reading.inventory.customer is None:
        return Obstacle(None, "name", say("counter", "need_name"))
    return None if is_told else Obstacle(None, "told", say("counter", "need_told"))
