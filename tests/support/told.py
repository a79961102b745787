"""What the records of a shop would tell the program at one moment of a year lived without it.

Its decks and those that broke down, what was counted of troubles so far, and the queue as the decks have
shown it: what was played of a box, and of all boxes, is believed of the tapes still to come. Nothing else.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from unittest.mock import patch

import numpy as np
from numpy.typing import NDArray

from core.model import common_random_numbers
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TapeCode, TvSystem
from core.model.own_shop.settings_records import Expected, ShopSettings
from core.model.quote_records import QuotedTape
from core.model.ranges import Range, exactly
from core.model.stations import Station
from core.playtime import learning
from core.playtime.explanations import Played
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import Facts, facts
from core.playtime.tape_minutes import belief
from core.scheduling import event_rates, plan
from core.scheduling.breakdowns import awaiting
from core.scheduling.drawn_minutes import Drawn
from core.scheduling.event_rates import Counted, RushMonth
from core.scheduling.plan_records import estimate
from core.scheduling.queued_tapes import QueuedTape
from core.services import event_counts
from tests.support.shops import PLAYS
from tests.support.worlds.shop_year import DAY, Box, Tape, Year
from tests.support.worlds.tape_world import SimulatedTape

MONDAY = datetime(2026, 3, 2, tzinfo=UTC)
"""Day 0 of every year."""
LEARNS_EVERY = 14 * DAY
"""Minutes. The program learns after every tape; a fortnight between saves time and can only make it worse."""
_PLAYED = ("being-checked", "ready")


def moment(minutes: float) -> datetime:
    return MONDAY + timedelta(minutes=minutes)


class Records:
    """The records of one shop."""

    def __init__(self, fittings: ShopSettings) -> None:
        self._fittings = fittings
        self.habits: ShopHabits = STARTING
        """What the shop has learned of its customers' tapes."""
        self._learned_at = -LEARNS_EVERY
        self._boxes: dict[str, ShopHabits] = {}

    def learn(self, now: float, lived: Year, box: Box) -> None:
        """Takes in what was played, and tells the shop the minutes its tapes are now planned with."""
        self._learn(now, lived)
        for tape in [*lived.waiting, *box.tapes]:
            if isinstance(tape.new.about, SimulatedTape):
                minutes = _minutes(tape, self._habits_of(tape))
                tape.estimate, tape.likely = estimate(minutes), minutes.likely

    def shop(self, now: float, lived: Year, stated: Expected) -> ShopSettings:
        """The shop with its decks as they are, and what it expects by what it ``stated`` and has counted."""
        out = {each.deck for each in lived.outs if each.ends > now}
        decks = tuple(
            replace(deck, in_service=place not in out) for place, deck in enumerate(self._fittings.decks)
        )
        expected = event_rates.learned(counted(now, lived), stated, moment(now).month)
        shop = replace(self._fittings, decks=decks, expected=expected)
        return awaiting(shop, [deck.name for deck in decks])

    def queue(self, lived: Year, knows_lengths: bool = False) -> list[QueuedTape]:
        """What is not ready yet, as the program finds it; ``knows_lengths``: of tapes that play, in truth."""
        playing = [tape for tape in lived.on if tape is not None]
        found = [self._queued(tape) for tape in playing]
        if knows_lengths:
            true = [exactly(tape.new.minutes) for tape in playing]
            found = [replace(each, minutes=minutes) for each, minutes in zip(found, true, strict=True)]
        checked = [tape for box in lived.boxes for tape in box.tapes if tape.station == "being-checked"]
        return [*found, *(self._queued(tape) for tape in [*checked, *lived.waiting])]

    def quoted(self, box: Box) -> list[QuotedTape]:
        """The tapes of a box on the counter."""
        return [
            QuotedTape(1, tape.n, line_of(tape), _minutes(tape, self.habits), PLAYS) for tape in box.tapes
        ]

    def _learn(self, now: float, lived: Year) -> None:
        played = _played(lived)
        if now - self._learned_at >= LEARNS_EVERY:
            self.habits, self._learned_at = learning.learned(tuple(played)), now
        here = {_number(tape.box) for tape in [*lived.on, *lived.waiting] if tape is not None}
        boxes: dict[str, list[Played]] = defaultdict(list)
        for tape in played:
            if tape.box in here:
                boxes[tape.box].append(tape)
        self._boxes = {number: learning.of_box(tuple(tapes), self.habits) for number, tapes in boxes.items()}

    def _habits_of(self, tape: Tape) -> ShopHabits:
        return self._boxes.get(_number(tape.box), self.habits)

    def _queued(self, tape: Tape) -> QueuedTape:
        line, habits = line_of(tape), self._habits_of(tape)
        by_range = isinstance(tape.new.about, Range)
        return QueuedTape(
            code=_code(tape),
            format=line.format,
            recorded_as=None,
            tv=TvSystem.NTSC,
            speed=line.speed,
            minutes=_minutes(tape, habits),
            station=Station(tape.station),
            since=moment(tape.since),
            rush=tape.box.rush,
            bench_minutes=0.0,
            known=None if by_range else facts(line),
            habits=habits,
            deck=None if tape.deck is None else self._fittings.decks[tape.deck].name,
        )


@contextmanager
def told_lengths(lived: Year, box: Box) -> Iterator[None]:
    """Scenarios in which every tape of the queue, and of the box on the counter, plays as long as it will."""
    true = {common_random_numbers.key(_code(tape)): tape.new.minutes for tape in lived.waiting}
    true |= {common_random_numbers.key(1, tape.n): tape.new.minutes for tape in box.tapes}

    def lengths(tapes: Sequence[Drawn], seed: int, scenarios: int) -> NDArray[np.float64]:
        minutes = np.array([true[tape.key] for tape in tapes], dtype=np.float64)
        return np.repeat(minutes.reshape(-1, 1), scenarios, axis=1)

    with patch.object(plan, "lengths", lengths):
        yield


def line_of(tape: Tape) -> TapeLine:
    """What was written down of it at the counter."""
    about = tape.new.about
    if isinstance(about, SimulatedTape):
        return about.line
    return TapeLine(1, FormatName(tape.new.format), tv=TvSystem.NTSC, speed=Speed.SP)


def counted(now: float, lived: Year) -> Counted:
    """Troubles so far, as the shop counts them from its first day on."""
    outs = [each for each in lived.outs if each.began <= now]
    today = int(now // DAY)
    planned = [day for day in range(today) if lived.house.hours[day % 7] is not None]
    return Counted(
        failures=len(outs),
        play_hours=sum(tape.new.minutes for box in lived.boxes for tape in box.tapes if _is_over(tape)) / 60,
        repairs=sum(each.ends <= now for each in outs),
        repair_hours=sum(min(each.ends, now) - each.began for each in outs) / 60,
        shut_days=sum(day < today for day in lived.shut),
        opening_days=len(planned),
        rush=_rush(today, lived),
        brought=_brought(lived),
    )


def _brought(lived: Year) -> tuple[tuple[FormatName, int], ...]:
    tapes = [tape for box in lived.boxes for tape in box.tapes][-event_counts.NEWEST :]
    return tuple(Counter(FormatName(tape.new.format) for tape in tapes).items())


def _rush(today: int, lived: Year) -> tuple[RushMonth, ...]:
    days: dict[int, int] = defaultdict(int)
    for day in range(today):
        days[moment(day * DAY).month] += 1
    boxes: dict[int, list[Box]] = defaultdict(list)
    for box in lived.boxes:
        if box.rush:
            boxes[moment(box.came).month].append(box)
    return tuple(
        RushMonth(month, len(boxes[month]), sum(len(box.tapes) for box in boxes[month]), count / 7)
        for month, count in sorted(days.items())
    )


def _played(lived: Year) -> list[Played]:
    """What finished playing, oldest first: its minutes, its speed and its system, read off the deck."""
    over = [tape for box in lived.boxes for tape in box.tapes if _is_over(tape)]
    found = []
    for tape in sorted(over, key=lambda tape: tape.ended):
        about = tape.new.about
        if isinstance(about, SimulatedTape):
            known = _known(about.line)
            seen = about.minutes, about.speed, about.recorded_as
            found.append(Played(_number(tape.box), known, *seen))
    return found


@cache
def _known(line: TapeLine) -> Facts:
    return facts(line)


def _code(tape: Tape) -> TapeCode:
    return TapeCode(f"{_number(tape.box)}{tape.n:03d}0")


def _number(box: Box) -> str:
    return f"{box.number:06d}"


def _is_over(tape: Tape) -> bool:
    return tape.station in _PLAYED


def _minutes(tape: Tape, habits: ShopHabits) -> Range:
    about = tape.new.about
    return about if isinstance(about, Range) else belief(line_of(tape), None, habits).range
