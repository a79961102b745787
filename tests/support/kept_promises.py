"""Promises of the program against years that were lived without it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta

import numpy as np

from core import turnaround
from core.inventory import TapeLine
from core.names import FormatName, Speed, TapeCode, TvSystem
from core.plan import estimate
from core.playtime import belief
from core.possibilities import facts
from core.ranges import Range
from core.records import Expected, Fittings, Opening, QuotedTape
from core.stations import Station
from core.turnaround import QueuedTape
from tests.support import shop_year, tape_world
from tests.support.shop_year import Box, House, Luck, NewTape, Tape, Year
from tests.support.shops import FRONT, PLAYS, deck

MONDAY = datetime(2026, 3, 2, tzinfo=UTC)
OPENINGS = (*(Opening(day, 540, 1080) for day in range(5)), Opening(5, 600, 840))
FORMATS = {"vhs": 0.5, "hi8": 0.3, "minidv": 0.2}
DECKS = (("vhs",), ("vhs",), ("vhs",), ("hi8",), ("hi8",), ("minidv",))
RANGES = (Range(40, 105, 119), Range(25, 60, 118), Range(55, 118, 320), Range(30, 55, 63))
HABIT = 0.6
WARM_UP = 30
"""Days at first whose promises do not count: the shop begins empty."""


@dataclass(frozen=True, slots=True)
class Given:
    """One promise and what came of it. Times in days."""

    stated: float
    kept: bool
    came: float
    lead: float
    """From coming in to being ready."""
    p90: float | None
    """The lead that nine of ten keep, read between two closings of the curve."""
    ahead: float
    """Likely hours of work before it and in it, for each deck of the format that has most."""


@dataclass(frozen=True, slots=True)
class World:
    """A kind of year: the shop's people and luck, what is told of it to the program, and what boxes hold."""

    people: int
    luck: Luck
    expected: Expected
    content: Callable[[np.random.Generator, bool], list[NewTape]]


def as_believed(dice: np.random.Generator, rush: bool) -> list[NewTape]:
    """A box whose tapes are as long as is believed, and follow their box as is believed."""
    count = int(dice.geometric(1 / (4 if rush else 9)))
    common, found = dice.random(), []
    format = str(dice.choice(list(FORMATS), p=list(FORMATS.values())))
    for _ in range(count):
        minutes = RANGES[int(dice.integers(len(RANGES)))]
        uniform = common if dice.random() < HABIT else dice.random()
        below = max(0.0, minutes.low - (minutes.likely - minutes.low) / 4)
        above = minutes.high + (minutes.high - minutes.likely) / 4
        knots = [below, minutes.low, minutes.likely, minutes.high, above]
        true = float(np.interp(uniform, [0, 0.1, 0.5, 0.9, 1], knots))
        found.append(NewTape(format, estimate(minutes), minutes.likely, true, minutes))
    return found


def as_households_bring(dice: np.random.Generator, rush: bool) -> list[NewTape]:
    """A box of one household, which may have recorded everything at the slowest speed."""
    while True:
        tapes = tape_world.tapes(tape_world.USUAL, 40, dice)
        mine = [tape for tape in tapes if tape.job == tapes[0].job and tape.line.format in FORMATS]
        if mine:
            break
    found = []
    for tape in mine:
        minutes = belief(tape.line, None).range
        found.append(NewTape(tape.line.format, estimate(minutes), minutes.likely, tape.minutes, tape.line))
    return found


RIGHT = World(2, Luck(boxes_a_day=2.6), Expected(), as_believed)
ALL_TOGETHER = World(
    2,
    Luck(1.3, rush_boxes_a_day=0.15, between_failures=6_000.0, repair=1_080.0, closures=0.015),
    Expected(100.0, 18.0, 0.9, 7.0, 0.015),
    as_households_bring,
)


def year(world: World, seed: int, days: int = 300, every: int = 1) -> list[Given]:
    """The promises of one year, of every so many boxes; those that never came to an end count as missed."""
    book = _Book(world, every)
    lived = Year(_house(world), world.luck, world.content, book.ask, seed, days)
    lived.live()
    return book.outcome()


def _house(world: World) -> House:
    hours = [(540.0, 1080.0)] * 5 + [(600.0, 840.0), None]
    return House([frozenset(plays) for plays in DECKS], hours, 60.0, world.people)


class _Book:
    """Asks the program for a promise and remembers it."""

    def __init__(self, world: World, every: int) -> None:
        self.fittings = _fittings(world)
        self.every = every
        self.given: list[tuple[Box, turnaround.Promise, float]] = []

    def ask(self, now: float, lived: Year, box: Box) -> None:
        if now < WARM_UP * shop_year.DAY or box.number % self.every:
            return
        here = _moment(now)
        load = turnaround.load(self.fittings, _queue(lived), here)
        made = turnaround.promise(load, [_quoted(tape) for tape in box.tapes], box.rush)
        self.given.append((box, made, _ahead(lived, box) / 60))

    def outcome(self) -> list[Given]:
        return [_given(box, made, ahead) for box, made, ahead in self.given]


def _ahead(lived: Year, box: Box) -> float:
    """Likely minutes of work for each deck of a format, its own included; of its formats the most."""
    found = []
    for format in {tape.new.format for tape in box.tapes}:
        tapes = [tape for tape in [*lived.waiting, *box.tapes] if tape.new.format == format]
        found.append(sum(tape.new.likely for tape in tapes) / sum(format in plays for plays in DECKS))
    return max(found)


def _given(box: Box, made: turnaround.Promise, ahead: float) -> Given:
    done = _moment(box.done).date() if np.isfinite(box.done) else date.max
    kept = made.day is not None and done <= made.day
    came = box.came / shop_year.DAY
    return Given(made.stated, kept, came, box.done / shop_year.DAY - came, _p90(made, box.came), ahead)


def _p90(made: turnaround.Promise, came: float) -> float | None:
    """Inside the day on which nine of ten are reached, as far in as the chance of that day is used up."""
    before = 0.0
    for chance in made.chances:
        if chance.by >= 0.9:
            day = (chance.day - MONDAY.date()).days
            hours = next((o.start, o.end) for o in OPENINGS if o.weekday == chance.day.weekday())
            opens = max(came, day * shop_year.DAY + hours[0])
            closes = day * shop_year.DAY + hours[1]
            share = (0.9 - before) / (chance.by - before)
            return (opens + share * (closes - opens) - came) / shop_year.DAY
        before = chance.by
    return None


def _fittings(world: World) -> Fittings:
    decks = [deck(f"{n} {plays[0]}", *plays) for n, plays in enumerate(DECKS)]
    front = replace(FRONT, timezone="UTC")
    return Fittings(
        front, tuple(decks), OPENINGS, None, None, frozenset(), 60, world.people, 0.9, (), world.expected
    )


def _moment(minutes: float) -> datetime:
    return MONDAY + timedelta(minutes=minutes)


def _queue(lived: Year) -> list[QueuedTape]:
    row = [tape for tape in lived.on if tape is not None]
    row += [tape for box in lived.boxes for tape in box.tapes if tape.station == "being-checked"]
    row += lived.waiting
    return [_queued(tape) for tape in row]


def _queued(tape: Tape) -> QueuedTape:
    line = _line(tape)
    by_range = isinstance(tape.new.about, Range)
    return QueuedTape(
        code=TapeCode(f"{tape.box.number:06d}{tape.n:03d}0"),
        format=line.format,
        recorded_as=None,
        tv=TvSystem.NTSC,
        speed=Speed.SP if by_range else None,
        minutes=_range(tape),
        station=Station(tape.station),
        since=_moment(tape.since),
        rush=tape.box.rush,
        bench_minutes=0.0,
        known=None if by_range else facts(line),
        deck=None if tape.deck is None else f"{tape.deck} {DECKS[tape.deck][0]}",
    )


def _quoted(tape: Tape) -> QuotedTape:
    return QuotedTape(1, tape.n, _line(tape), _range(tape), PLAYS)


def _range(tape: Tape) -> Range:
    about = tape.new.about
    return about if isinstance(about, Range) else belief(_line(tape), None).range


def _line(tape: Tape) -> TapeLine:
    about = tape.new.about
    if isinstance(about, TapeLine):
        return about
    return TapeLine(1, FormatName(tape.new.format), tv=TvSystem.NTSC, speed=Speed.SP)
