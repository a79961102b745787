"""What to ask the customer first: each question weighed by the hours its answer is expected to take off.

Every answer is tried on the whole box before it is given: the 80 % range of the capture hours as it would
then be, weighed by how likely the answer is. What would take off next to nothing is not asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from core.model.inventory import TapeLine
from core.model.names import FillKnown, Origin, Speed, TvSystem
from core.model.quote_records import Answer, Question
from core.playtime import (
    box_habits,
    doubted_systems,
    possibilities,
    starting_beliefs,
    tape_minutes,
)
from core.playtime.box_habits import Box, Minutes
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import Facts, facts
from core.wording.messages import say, worded_cache

WORTH_ASKING = 0.1
"""Hours off the range below which a question only costs time at the counter (an assumption)."""
MOST = 8
"""Questions put to one customer (an assumption)."""
_LIKELY = 0.01
"""An answer less likely than this is not offered (an assumption)."""

_FILLS = (
    ("fill-full", 1.0, 0.99),
    ("fill-most", 0.70, 0.42),
    ("fill-less", 0.22, 0.0),
)
"""The sentence, the share it stands for, and the share from which it is said (an assumption)."""
_LEAST_CUT = 0.01
"""An answer that leaves less of the tape than this open is not offered (an assumption)."""


@dataclass(frozen=True, slots=True)
class BoxLine:
    """One line of the box: its place from 1, the TV system of the box, the numbers of its tapes."""

    position: int
    line: TapeLine
    tv: TvSystem | None
    keys: tuple[int, ...]

    @property
    def known(self) -> Facts:
        return facts(self.line, self.tv)


@dataclass(frozen=True, slots=True)
class _Possible:
    """A question with the chance of each answer; ``always`` asked where it decides more than hours.

    ``first``: it comes before those that would take off more.
    """

    question: Question
    chances: tuple[float, ...]
    always: bool = False
    first: bool = False


def questions(lines: Sequence[BoxLine], box: Box) -> tuple[Question, ...]:
    """What to ask about these lines, the question that takes off most first.

    At most `MOST` for their hours; one that decides which machine is needed is always among them.
    """
    possible = [(each, one) for each in lines for one in _possible(each, box.habits)]
    if not possible:
        return ()
    total = box_habits.minutes_of_box(((each.known, each.keys) for each in lines), box)
    tried = np.stack(
        [total, *(minutes for each, one in possible for minutes in _tried(each, one, total, box))]
    )
    off = _hours_off([one for _, one in possible], _widths(tried))
    ranked = sorted(zip(off, possible, strict=True), key=lambda pair: (not pair[1][1].first, -pair[0]))
    worth = [pair for pair in ranked if pair[0] >= WORTH_ASKING][:MOST]
    return tuple(
        replace(one.question, hours_off=hours)
        for hours, (each, one) in ranked
        if one.always or (hours, (each, one)) in worth
    )


def _tried(asked: BoxLine, possible: _Possible, total: Minutes, box: Box) -> Iterator[Minutes]:
    """Minutes of the whole box after each answer."""
    others = total - box_habits.minutes_of_lot(asked.known, asked.keys, box)
    for answer in possible.question.answers:
        changed = facts(answer.draft, asked.tv)
        yield others + box_habits.minutes_of_lot(changed, asked.keys, box)


def _hours_off(possible: Sequence[_Possible], widths: Minutes) -> list[float]:
    """Expected fall of the range of the box's hours, 90 − 10 %, for each question; not below zero."""
    found, place = [], 1
    for one in possible:
        after = widths[place : place + len(one.chances)]
        place += len(one.chances)
        fall = float(widths[0]) - float(np.dot(one.chances, after) / sum(one.chances))
        found.append(max(0.0, round(fall / 60, 6)))
    return found


def _widths(minutes: Minutes) -> Minutes:
    ordered = np.sort(minutes, axis=1)
    low, high = (int(np.ceil(p * minutes.shape[1])) - 1 for p in (0.1, 0.9))
    return np.asarray(ordered[:, high] - ordered[:, low])


@worded_cache(maxsize=2048)
def _possible(asked: BoxLine, shop: ShopHabits) -> tuple[_Possible, ...]:
    return tuple(_each_possible(asked, shop))


def _each_possible(asked: BoxLine, shop: ShopHabits) -> Iterator[_Possible]:
    for question in tape_minutes.questions(asked.line, asked.tv, asked.position):
        weights = possibilities.system_weights(asked.known.shell, shop)
        drafts = [answer.draft.recorded_as for answer in question.answers]
        yield _Possible(question, tuple(weights.get(each, _LIKELY) for each in drafts if each), always=True)
    ways = _ways(asked.known, shop)
    if asked.tv is not None and possibilities.is_doubted(asked.line, asked.tv):
        question = doubted_systems.question(asked.position, asked.line, asked.tv)
        tvs = [answer.draft.tv for answer in question.answers]
        chances = tuple(sum(weight for each, _, _, weight in ways if each is tv) for tv in tvs)
        yield _Possible(question, chances, always=True, first=True)
    yield from _origin(asked)
    yield from _speed(asked, shop, ways)
    yield from _fill(asked, shop)
    yield from _tv(asked, shop, ways)


Ways = list[tuple[TvSystem, Speed, float, float]]
"""(TV system, speed, mm/s, weight) of each way to record."""


def _ways(known: Facts, shop: ShopHabits) -> Ways:
    return [
        (tv, entry.speed, entry.mm_s.value, system_weight * tv_weight * weight)
        for system, system_weight in possibilities.systems(known, shop).options
        for tv, tv_weight in possibilities.tvs(known, system, shop).options
        for entry, weight in possibilities.speeds(known, system, tv, shop).options
    ]


def _origin(asked: BoxLine) -> Iterator[_Possible]:
    share = starting_beliefs.camera_share(asked.known.shell)
    if not share or asked.line.origin is not None or asked.line.speed is not None:
        return
    answers = tuple(
        Answer(
            say("questions", f"origin-{origin.value}"),
            say("questions", f"origin-{origin.value}-means"),
            replace(asked.line, origin=origin),
        )
        for origin in (Origin.CAMERA, Origin.BROADCAST)
    )
    text = say("questions", "origin", tape=tape_minutes.named(asked.line))
    yield _Possible(Question(asked.position, text, answers), (share, 1 - share))


def _speed(asked: BoxLine, shop: ShopHabits, ways: Ways) -> Iterator[_Possible]:
    if asked.line.speed is not None:
        return
    weights: dict[Speed, float] = {}
    for _, speed, _, weight in ways:
        weights[speed] = weights.get(speed, 0.0) + weight
    likely = {speed: weight for speed, weight in weights.items() if weight >= _LIKELY}
    if len(likely) < 2:
        return
    answers = tuple(_answer(asked, shop, f"speed-{speed.value}", speed=speed) for speed in likely)
    key = "rate" if any(speed.frames_a_second for speed in likely) else "speed"
    text = say("questions", key, tape=tape_minutes.named(asked.line))
    yield _Possible(Question(asked.position, text, answers), tuple(likely.values()))


def _fill(asked: BoxLine, shop: ShopHabits) -> Iterator[_Possible]:
    """How full, unless that is known; of a tape wound into its recording what lies beyond is still open."""
    if asked.line.fill is not None and asked.line.fill_known is not FillKnown.AT_LEAST:
        return
    chances = [0.0] * len(_FILLS)
    for (begin, end), weight in possibilities.fills(asked.known, shop).options:
        middle = (begin + end) / 2
        chances[next(n for n, (_, _, least) in enumerate(_FILLS) if middle >= least)] += weight
    offered = [
        (words, told, chance)
        for (words, share, _), chance in zip(_FILLS, chances, strict=True)
        if (told := _told(share, asked.line.fill)) is not None
    ]
    if len(offered) < 2:
        return
    answers = tuple(_answer(asked, shop, words, **told) for words, told, _ in offered)
    text = say("questions", "fill", tape=tape_minutes.named(asked.line), count=asked.line.count)
    yield _Possible(Question(asked.position, text, answers), tuple(chance for _, _, chance in offered))


def _told(share: float, least: float | None) -> dict[str, object] | None:
    """What an answer makes of a line; None where all that it stands for lies below what is recorded already.

    A tape is recorded to ``least`` at least: the answer stands for what of it lies beyond.
    """
    told: dict[str, object] = {"fill": share, "fill_known": FillKnown.TOLD}
    off = starting_beliefs.told_fill_off(share)
    if least is None or share == 1 or share - off >= least:
        return told
    end = share + off
    if end - least < _LEAST_CUT:
        return None
    return {**told, "fill": (least + end) / 2, "fill_off": (end - least) / 2}


def _tv(asked: BoxLine, shop: ShopHabits, ways: Ways) -> Iterator[_Possible]:
    weights: dict[TvSystem, float] = {}
    speeds: dict[TvSystem, set[float]] = {}
    for tv, _, mm_s, weight in ways:
        weights[tv] = weights.get(tv, 0.0) + weight
        speeds.setdefault(tv, set()).add(mm_s)
    if asked.known.box_tv is not None or len(weights) < 2 or speeds[TvSystem.NTSC] == speeds[TvSystem.PAL]:
        return
    answers = (
        _answer(asked, shop, "tv-ntsc", tv=TvSystem.NTSC),
        _answer(asked, shop, "tv-pal", tv=TvSystem.PAL),
    )
    text = say("questions", "tv", tape=tape_minutes.named(asked.line))
    yield _Possible(Question(asked.position, text, answers), (weights[TvSystem.NTSC], weights[TvSystem.PAL]))


def _answer(asked: BoxLine, shop: ShopHabits, key: str, **known: Any) -> Answer:
    draft = replace(asked.line, **known)
    span = tape_minutes.belief(draft, asked.tv, shop).range
    minutes = tape_minutes.spanned(span.low, span.high)
    return Answer(say("questions", key), say("questions", "means", minutes=minutes), draft)
