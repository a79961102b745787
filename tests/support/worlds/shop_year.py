"""A year in an invented shop, lived through minute by minute: what a promise must stand up to.

Written on its own, event by event, with plain numbers: it imports nothing that plans. It knows only the
rules of the house (rush first, then in order; within a box the tapes for the fewest decks, then the longest;
the end of the day filled; people do one thing at a time), and rolls its own dice for everything else.
Somebody outside is asked for a promise whenever a box comes in, and is told how it went.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

DAY = 24 * 60.0


@dataclass(frozen=True, slots=True)
class House:
    """The shop. Hours are (opens, closes) in minutes after midnight by weekday; None: shut."""

    decks: Sequence[frozenset[str]]
    """Formats each deck plays."""
    hours: Sequence[tuple[float, float] | None]
    past_closing: float
    people: int
    load: float = 3.0
    unload: float = 2.0
    check: float = 8.0
    look_over: float = 5.0
    fill: int = 20


@dataclass(frozen=True, slots=True)
class Luck:
    """What befalls it. Minutes, and shares from 0 to 1."""

    boxes_a_day: float
    rush_boxes_a_day: float = 0.0
    between_failures: float = 0.0
    repair: float = 0.0
    closures: float = 0.0


@dataclass(frozen=True, slots=True)
class NewTape:
    """A tape as it comes in: what is believed and what is true."""

    format: str
    estimate: float
    likely: float
    minutes: float
    about: object = None
    """Whatever the one who promises wants to know of it."""


@dataclass(slots=True, eq=False)
class Tape:
    box: Box
    n: int
    new: NewTape
    station: str = "booked-in"
    since: float = 0.0
    deck: int | None = None
    fails_after: float = np.inf
    ended: float = np.inf
    """When it was taken out of the deck after it had played to its end."""
    estimate: float = field(init=False)
    """Minutes it is believed to take by now; whoever is asked for promises may tell better."""
    likely: float = field(init=False)

    def __post_init__(self) -> None:
        self.estimate, self.likely = self.new.estimate, self.new.likely


@dataclass(slots=True, eq=False)
class Box:
    number: int
    came: float
    rush: bool
    tapes: list[Tape] = field(default_factory=list)
    done: float = np.inf


@dataclass(frozen=True, slots=True)
class Out:
    """A deck that failed."""

    deck: int
    began: float
    ends: float


Asked = Callable[[float, "Year", Box], None]
"""Told of the moment, the shop and the new box, which is not in the queue yet."""


class Year:
    """Days from day 0 on; day 0 is a Monday."""

    def __init__(
        self,
        house: House,
        luck: Luck,
        content: Callable[[np.random.Generator, bool], list[NewTape]],
        asked: Asked,
        seed: int,
        days: int,
    ) -> None:
        self.house = house
        self.luck = luck
        self.content = content
        self.asked = asked
        self.dice = np.random.default_rng(seed)
        self.shut: list[int] = []
        """Days that were to be open and were not."""
        self.slots = list(self._slots(days + 400))
        self.slot = 0
        self.days = days
        self.boxes: list[Box] = []
        self.waiting: list[Tape] = []
        """Not yet on a deck, in the order of the house."""
        self.bench: list[Tape] = []
        self.to_check: list[Tape] = []
        self.on: list[Tape | None] = [None] * len(house.decks)
        self.due = [0.0] * len(house.decks)
        self.outs: list[Out] = []
        self.free_people = house.people
        self.events: list[tuple[float, int, Callable[[float], None]]] = []
        self.count = 0

    def live(self) -> list[Box]:
        """Lives through the days and until every box is done; the boxes as they came."""
        for at, rush in self._arrivals():
            self._at(at, lambda now, rush=rush: self._come_in(now, rush))
        for opens, _ in self.slots:
            self._at(opens, lambda now: None)
        while self.events and (
            self.events[0][0] < self.days * DAY or self.waiting or self.to_check or self._busy()
        ):
            now, _, happens = heapq.heappop(self.events)
            while self.slots[self.slot][1] < now:
                self.slot += 1
            happens(now)
            self._set_to_work(now)
        return self.boxes

    def share_used(self) -> float:
        """Playing and changing tapes, as a share of the openings with decks not out; the busiest kind's."""
        spans = [(opens, closes) for opens, closes in self.slots if opens < self.days * DAY]
        found = []
        for plays in set(self.house.decks):
            decks = [deck for deck, each in enumerate(self.house.decks) if each == plays]
            open_for = len(decks) * sum(closes - opens for opens, closes in spans)
            away = sum(
                max(0.0, min(closes, out.ends) - max(opens, out.began))
                for out in self.outs
                if out.deck in decks
                for opens, closes in spans
            )
            tapes = [tape.new for box in self.boxes for tape in box.tapes if tape.new.format in plays]
            changing = len(tapes) * (self.house.load + self.house.unload)
            found.append((sum(tape.minutes for tape in tapes) + changing) / (open_for - away))
        return max(found)

    def _busy(self) -> bool:
        return any(tape is not None for tape in self.on) or self.free_people < self.house.people

    # --- what comes ------------------------------------------------------------------------

    def _slots(self, days: int) -> Iterator[tuple[float, float]]:
        for day in range(days):
            hours = self.house.hours[day % 7]
            if hours is None:
                continue
            if day == 0 or self.dice.random() >= self.luck.closures:
                yield day * DAY + hours[0], day * DAY + hours[1]
            else:
                self.shut.append(day)

    def _arrivals(self) -> Iterator[tuple[float, bool]]:
        mean = np.mean([b - a for hours in self.house.hours if hours is not None for a, b in [hours]])
        for opens, closes in self.slots:
            if opens < self.days * DAY:
                for rush, rate in ((False, self.luck.boxes_a_day), (True, self.luck.rush_boxes_a_day)):
                    for _ in range(self.dice.poisson(rate * (closes - opens) / mean)):
                        yield self.dice.uniform(opens, closes), rush

    def _come_in(self, now: float, rush: bool) -> None:
        box = Box(len(self.boxes) + 1, now, rush)
        box.tapes = [Tape(box, n, new, since=now) for n, new in enumerate(self.content(self.dice, rush), 1)]
        for tape in box.tapes:
            if self.luck.between_failures:
                tape.fails_after = self.dice.exponential(self.luck.between_failures)
        self.asked(now, self, box)
        self.boxes.append(box)
        inside = sorted(box.tapes, key=lambda tape: (len(self._decks(tape)), -tape.likely))
        self.waiting = self._in_order(self.waiting, inside)
        self.bench = self._in_order(self.bench, inside)

    def _in_order(self, row: list[Tape], new: list[Tape]) -> list[Tape]:
        if not new[0].box.rush:
            return row + new
        place = sum(tape.box.rush for tape in row)
        return row[:place] + new + row[place:]

    def _decks(self, tape: Tape) -> list[int]:
        return [deck for deck, plays in enumerate(self.house.decks) if tape.new.format in plays]

    # --- what people do --------------------------------------------------------------------

    def _set_to_work(self, now: float) -> None:
        opens, closes = self.slots[self.slot]
        while self.free_people and opens <= now <= closes and self._something(now):
            pass

    def _something(self, now: float) -> bool:
        due = sorted((at, deck) for deck, at in enumerate(self.due) if at <= now)
        for _, deck in due:
            if self._visit(deck, now):
                return True
        if self.to_check:
            tape = self.to_check.pop(0)
            self._occupy(now, self.house.check, lambda at: self._is_checked(tape, at))
            return True
        if self.bench:
            tape = self.bench.pop(0)
            tape.station, tape.since = "at-the-bench", now
            self._occupy(now, self.house.look_over, lambda at: self._is_cleared(tape, at))
            return True
        return False

    def _visit(self, deck: int, now: float) -> bool:
        held = self.on[deck]
        minutes = self.house.unload if held else 0.0
        start = self._worked(now, minutes + self.house.load)
        tape = self._chosen(deck, start)
        if held is None and tape is None:
            return False
        self.on[deck], self.due[deck] = None, now
        if held is not None:
            held.station, held.since, held.ended = "being-checked", now, now
            self._at(self._worked(now, minutes), lambda at: self.to_check.append(held))
        if tape is None:
            self._occupy(now, minutes, lambda at: None)
            return True
        self._occupy(now, minutes + self.house.load, lambda at: None)
        self._play(tape, deck, start)
        return True

    def _play(self, tape: Tape, deck: int, start: float) -> None:
        self.waiting.remove(tape)
        self.on[deck] = tape
        tape.station, tape.since, tape.deck = "playing", start, deck
        if tape.fails_after < tape.new.minutes:
            self.due[deck] = np.inf
            self._at(start + tape.fails_after, lambda at: self._fails(tape, deck, at))
            return
        self.due[deck] = start + tape.new.minutes
        self._at(self.due[deck], lambda at: None)

    def _fails(self, tape: Tape, deck: int, now: float) -> None:
        """The tape comes out and goes before all others; the deck is away for a while."""
        self.on[deck] = None
        tape.station, tape.since, tape.deck, tape.fails_after = "cleared-to-play", now, None, np.inf
        self.waiting.insert(0, tape)
        self.due[deck] = now + self.dice.exponential(self.luck.repair)
        self.outs.append(Out(deck, now, self.due[deck]))
        self._at(self.due[deck], lambda at: None)

    def _chosen(self, deck: int, start: float) -> Tape | None:
        """The first tape of the queue if it fits the day, else the longest of the next that does."""
        opens, closes = self.slots[self.slot]
        if start > closes:
            return None
        mine = [tape for tape in self.waiting if tape.new.format in self.house.decks[deck]]
        if not mine:
            return None
        room = closes + self.house.past_closing - start
        longest = self.slots[self.slot][1] - self.slots[self.slot][0]

        def can(tape: Tape) -> bool:
            return tape.station == "cleared-to-play" and tape.estimate <= room

        if can(mine[0]):
            return mine[0]
        fitting = [tape for tape in mine[1 : 1 + self.house.fill] if can(tape)]
        if fitting:
            return max(fitting, key=lambda tape: tape.estimate)
        never = mine[0].estimate > longest + self.house.past_closing
        return (
            mine[0]
            if never and start - opens <= self.house.load + 30 and mine[0].station == "cleared-to-play"
            else None
        )

    def _occupy(self, now: float, minutes: float, then: Callable[[float], None]) -> None:
        self.free_people -= 1

        def over(at: float) -> None:
            self.free_people += 1
            then(at)

        self._at(self._worked(now, minutes), over)

    def _is_cleared(self, tape: Tape, now: float) -> None:
        tape.station, tape.since = "cleared-to-play", now

    def _is_checked(self, tape: Tape, now: float) -> None:
        tape.station, tape.since = "ready", now
        if all(each.station == "ready" for each in tape.box.tapes):
            tape.box.done = now

    # --- time -----------------------------------------------------------------------------

    def _at(self, when: float, happens: Callable[[float], None]) -> None:
        self.count += 1
        heapq.heappush(self.events, (when, self.count, happens))

    def _worked(self, moment: float, minutes: float) -> float:
        """When work begun now is done; it rests overnight."""
        slot = self.slot
        while True:
            opens, closes = self.slots[slot]
            moment = max(moment, opens)
            if moment + minutes <= closes:
                return moment + minutes
            minutes -= max(0.0, closes - moment)
            slot += 1
