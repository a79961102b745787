"""A customer at the counter: the ranked questions put one at a time, of which some are answered.

The rows are typed as a clerk types them, tapes alike on one row; the questions are the program's own, in
its order, asked anew after each answer, and no more than it puts to one customer. What a customer knows
is true, and known of all tapes of the row. Where these differ the answer is given for the most tapes it is
true of, as Alt+M says at the Counter, and the others are asked again, which costs another question.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.model import common_random_numbers
from core.model.inventory import TapeLine
from core.model.quote_records import Question
from core.model.ranges import Range
from core.playtime import questions, tape_minutes
from core.playtime.box_habits import Box
from core.playtime.habits import ShopHabits
from core.playtime.questions import BoxLine
from tests.support.worlds.tape_world import SimulatedTape

ONE_IN_TWO = 0.5
"""Questions a customer can answer: nobody has published how many, so midway between none and all."""
SCENARIOS = 256
"""As many as the Counter ranks its questions with."""
_TOLD = ("speed", "fill", "recorded_as", "origin", "tv")


@dataclass(frozen=True, slots=True)
class Row:
    """Tapes alike as they were typed."""

    line: TapeLine
    tapes: tuple[tuple[int, SimulatedTape], ...]
    """Each with its place in the box."""


def ranges(
    tapes: Sequence[SimulatedTape],
    shop: ShopHabits,
    chance: float,
    dice: np.random.Generator,
    *,
    splits: bool = True,
) -> list[Range]:
    """What is believed of each tape of one box when ``chance`` of the questions were answered.

    ``splits``: whether an answer may hold for some tapes of a row; else one that does not hold for all is
    left out.
    """
    found: dict[int, Range] = {}
    box = Box(common_random_numbers.key("box"), 1, SCENARIOS, shop)
    for row in _talked(_typed(tapes), box, chance, dice, splits):
        believed = tape_minutes.belief(row.line, None, shop).range
        found |= {place: believed for place, _ in row.tapes}
    return [found[place] for place in range(len(tapes))]


def _typed(tapes: Sequence[SimulatedTape]) -> list[Row]:
    rows: dict[TapeLine, list[tuple[int, SimulatedTape]]] = {}
    for place, tape in enumerate(tapes):
        rows.setdefault(tape.line, []).append((place, tape))
    return [_row(line, alike) for line, alike in rows.items()]


def _row(line: TapeLine, tapes: Sequence[tuple[int, SimulatedTape]]) -> Row:
    return Row(replace(line, count=len(tapes)), tuple(tapes))


def _talked(rows: list[Row], box: Box, chance: float, dice: np.random.Generator, splits: bool) -> list[Row]:
    knows: dict[tuple[str, int], bool] = {}
    ranked_for: list[Row] = []
    ranked: tuple[Question, ...] = ()
    for _ in range(questions.MOST):
        if rows != ranked_for:  # an answer nobody could give leaves the questions as they were
            ranked_for, ranked = rows, _ranked(rows, box)
        question = next((each for each in ranked if _may_tell(each, rows, knows)), None)
        if question is None:
            break
        asked = _about(question, rows)
        if not asked <= knows.keys():
            knows |= dict.fromkeys(asked, bool(dice.random() < chance))
        if all(knows[each] for each in asked):
            rows = _after(question, rows, knows, splits)
    return rows


def _may_tell(question: Question, rows: Sequence[Row], knows: Mapping[tuple[str, int], bool]) -> bool:
    """Not yet put, or answered for other tapes of its row and so known of these."""
    return all(knows.get(each, True) for each in _about(question, rows))


def _ranked(rows: Sequence[Row], box: Box) -> tuple[Question, ...]:
    lines = [
        BoxLine(n, row.line, None, tuple(common_random_numbers.key(place) for place, _ in row.tapes))
        for n, row in enumerate(rows, 1)
    ]
    return questions.questions(lines, box)


def _about(question: Question, rows: Sequence[Row]) -> set[tuple[str, int]]:
    """What is asked of which tapes."""
    row = rows[question.line - 1]
    return {(_what(question, row.line), place) for place, _ in row.tapes}


def _what(question: Question, line: TapeLine) -> str:
    return next(name for name in _TOLD if getattr(question.answers[0].draft, name) != getattr(line, name))


def _after(
    question: Question, rows: list[Row], knows: dict[tuple[str, int], bool], splits: bool
) -> list[Row]:
    """The rows with the answer that holds for most tapes of its row; the others are left to be asked again.

    Tapes of which nothing that is offered is true, and a row of several kinds that may not be split, stay.
    """
    row = rows[question.line - 1]
    what = _what(question, row.line)
    offered = {getattr(answer.draft, what): answer.draft for answer in question.answers}
    told: dict[TapeLine | None, list[tuple[int, SimulatedTape]]] = {}
    for place, tape in row.tapes:
        told.setdefault(offered.get(_truth(tape, what)), []).append((place, tape))
    line, most = max(
        ((line, tapes) for line, tapes in told.items() if line),
        key=lambda pair: len(pair[1]),
        default=(None, []),
    )
    if line is None or (len(told) > 1 and not splits):
        knows |= dict.fromkeys(_about(question, rows), False)
        return rows
    rest = [one for one in row.tapes if one not in most]
    split = [_row(line, most), *([_row(row.line, rest)] if rest else [])]
    return [*rows[: question.line - 1], *split, *rows[question.line :]]


def _truth(tape: SimulatedTape, what: str) -> object:
    return told_fill(tape.share) if what == "fill" else getattr(tape, what)


def told_fill(share: float) -> float:
    """The share that the answer stands for: to the end, half or more as an eye judges, or less."""
    return 1.0 if share >= 0.99 else 0.7 if share >= 0.42 else 0.22
