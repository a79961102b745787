"""The TV system that is told of a tape: of itself, of its box, and by what is printed on it.

A box's system holds for every tape in it that names none, but for a cassette whose marking tells the other
one: there nobody knows, and the customer is asked.
"""

from __future__ import annotations

from core.catalogue.formats import catalogue
from core.catalogue.markings import Marking
from core.model.inventory import Inventory, TapeLine
from core.model.names import TvSystem
from core.model.quote_records import Question


def tv_of(line: TapeLine, box: TvSystem | None) -> TvSystem | None:
    """The TV system of the tapes of a line in a box of that system; None where it has to be asked."""
    return line.tv or (None if is_doubted(line, box) else box)


def is_doubted(line: TapeLine, box: TvSystem | None) -> bool:
    """Whether the marking of a line that names no TV system tells another one than its box does."""
    marking = _marking(line) if line.tv is None and box is not None else None
    return marking is not None and marking.nominal_tv not in (None, box)


def asks(question: Question, box: Inventory) -> bool:
    """Whether a question is the one about a line whose marking tells another TV system than its box."""
    is_known = all(answer.draft.tv is not None for answer in question.answers)
    return is_known and is_doubted(box.lines[question.line - 1], box.tv)


def _marking(line: TapeLine) -> Marking | None:
    """The marking, where it tells a TV system that matters; WrongInput for one that cannot be read."""
    shell = catalogue().format(line.format)
    if not shell.record.markings_tell_tv:
        return None
    expected = tuple(name for name, weight in shell.record.systems.items() if weight)
    systems = (line.recorded_as,) if line.recorded_as in shell.systems else expected
    matters = any(entry.tv for name in systems if name for entry in catalogue().format(name).tape_speeds)
    return shell.marking(line.marking) if matters else None
