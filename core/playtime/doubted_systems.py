"""What is asked and told of a cassette whose marking tells another TV system than its box does."""

from __future__ import annotations

from dataclasses import replace

from core.model.inventory import Inventory, TapeLine
from core.model.names import TvSystem
from core.model.quote_records import Answer, Question
from core.playtime import possibilities, tape_minutes
from core.playtime.beliefs import as_range
from core.wording.messages import say


def question(position: int, line: TapeLine, box: TvSystem) -> Question:
    """Which system it was recorded in; that of the marking is the first answer, that of the box the other."""
    theirs, ours = _both(box)
    tape = tape_minutes.named(line)
    text = say("questions", "tv-doubted", tape=tape, marking=_told(theirs), box=_told(ours))
    return Question(position, text, tuple(_answer(replace(line, tv=tv)) for tv in (theirs, ours)))


def asks(question: Question, box: Inventory) -> bool:
    """Whether a question is the one about a line whose marking tells another TV system than its box."""
    is_known = all(answer.draft.tv is not None for answer in question.answers)
    return is_known and possibilities.is_doubted(box.lines[question.line - 1], box.tv)


def priced(answer: Answer, price: str) -> Answer:
    """An answer with what the whole order then comes to."""
    minutes = _full_minutes(answer.draft)
    return replace(answer, means=say("questions", "means-full-priced", minutes=minutes, price=price))


def warnings(line: TapeLine, box: TvSystem | None) -> tuple[str, ...]:
    """What marking and box tell, and how long a full tape runs by either; nothing where they agree.

    ``box`` None: what the line itself remembers of the box that its tapes have left.
    """
    box = box or line.box_tv
    if box is None or not possibilities.is_doubted(line, box):
        return ()
    theirs, ours = _both(box)
    said = say(
        "quotes",
        "tv_doubted",
        marking=line.marking,
        made_for=_told(theirs),
        box=_told(ours),
        theirs=_full_minutes(replace(line, tv=theirs)),
        ours=_full_minutes(replace(line, tv=ours)),
    )
    return (said,)


def _answer(draft: TapeLine) -> Answer:
    assert draft.tv is not None
    means = say("questions", "means-full", minutes=_full_minutes(draft))
    return Answer(say("questions", f"tv-is-{draft.tv.value}"), means, draft)


def _full_minutes(line: TapeLine) -> str:
    """Minutes of the whole tape as they are told: ``184``, ``184 to 367``."""
    full = as_range(tape_minutes.belief(line, line.tv).full)
    return tape_minutes.spanned(full.low, full.high)


def _both(box: TvSystem) -> tuple[TvSystem, TvSystem]:
    """The system of the marking, and that of the box."""
    theirs, ours = sorted(TvSystem, key=lambda tv: tv is box)
    return theirs, ours


def _told(tv: TvSystem) -> str:
    return tv.value.upper()
