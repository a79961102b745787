"""The same shop written once more with SimPy, one scenario at a time.

It shares no code with the engine, only the draws that are handed to both. The rules are those written at
the head of `tape_choice` and of `staffed_simulation`. Processes that wake at the same moment run
in the order of the decks: each schedules its next event with its own number as the priority.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import simpy

NEVER = float("inf")
Hours = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Tape:
    """``estimate`` is what a start is planned with, ``minutes`` what it plays."""

    decks: tuple[int, ...]
    estimate: float
    minutes: float


@dataclass(frozen=True, slots=True)
class Rules:
    """Openings in order, minutes past closing, minutes between two tapes, tapes to fetch from."""

    hours: Hours
    past_closing: float
    handling: float
    fill: int


def lean(
    tapes: Sequence[Tape], decks: int, rules: Rules, begin: float, free: Sequence[float] | None = None
) -> list[float]:
    """When each tape ends; ``free`` is when each deck is free, None: all of them at ``begin``."""
    shop = _Lean(tapes, decks, rules)
    environment = simpy.Environment(initial_time=begin)
    for deck in range(decks):
        environment.process(shop.deck(environment, deck, begin if free is None else free[deck]))
    environment.run()
    return shop.ends


class _Clock:
    """The openings, and where in them the time is."""

    def __init__(self, rules: Rules) -> None:
        self.rules = rules
        self.slot = 0

    def pass_to(self, now: float) -> None:
        while self.rules.hours[self.slot][1] < now:
            self.slot += 1

    def coming(self, moment: float) -> Iterator[tuple[float, float]]:
        """Openings that have not closed before ``moment``, which is not before the time passed to."""
        hours = self.rules.hours
        return (hours[slot] for slot in range(self.slot, len(hours)) if hours[slot][1] >= moment)

    def start(self, estimate: float, moment: float) -> float:
        """The first moment at which a play may start: it must end before closing and some minutes."""
        for opens, closes in self.coming(moment):
            start = max(moment, opens)
            if start <= closes and start + estimate <= closes + self.rules.past_closing:
                return start
        return next(opens for opens, _ in self.coming(moment) if opens >= moment)

    def worked(self, moment: float, minutes: float) -> float:
        """When work begun at a moment is done; it rests overnight."""
        for opens, closes in self.coming(moment):
            moment = max(moment, opens)
            if moment + minutes <= closes:
                return moment + minutes
            minutes -= closes - moment
        raise AssertionError("the calendar is too short for this queue")


class _ReadyList:
    """The tapes that have not been played, as one deck sees them."""

    def __init__(self, tapes: Sequence[Tape], decks: int, rules: Rules, clock: _Clock) -> None:
        self.tapes = tapes
        self.rules = rules
        self.clock = clock
        self.gone = [False] * len(tapes)
        self.ready = [0.0] * len(tapes)
        self.own = [[n for n, tape in enumerate(tapes) if deck in tape.decks] for deck in range(decks)]
        self.first = [0] * decks

    def next_for(self, deck: int, now: float) -> tuple[int, float] | None:
        """The first tape the deck can play, or one that fits the rest of the day, with its start."""
        own, place = self.own[deck], self.first[deck]
        while place < len(own) and self.gone[own[place]]:
            place += 1
        self.first[deck] = place
        if place == len(own):
            return None
        tape = own[place]
        ready = max(now, self.ready[tape])
        start = self.clock.start(self.tapes[tape].estimate, ready) if ready < NEVER else NEVER
        found = self.fetched(own, place, now) if start > now and self.rules.fill else None
        return (tape, start) if found is None else (found, now)

    def fetched(self, own: list[int], place: int, now: float) -> int | None:
        """The longest of the next tapes that ends before closing, the first of equally long ones."""
        opens, closes = next(self.clock.coming(now))
        if now < opens:
            return None
        room = closes + self.rules.past_closing - now
        best, longest = None, -1.0
        for tape in own[place + 1 : place + 1 + self.rules.fill]:
            estimate = self.tapes[tape].estimate
            if not self.gone[tape] and self.ready[tape] <= now and longest < estimate <= room:
                best, longest = tape, estimate
        return best


class _Lean:
    def __init__(self, tapes: Sequence[Tape], decks: int, rules: Rules) -> None:
        self.clock = _Clock(rules)
        self.ready_list = _ReadyList(tapes, decks, rules, self.clock)
        self.ends = [0.0] * len(tapes)

    def deck(self, environment: simpy.Environment, deck: int, free: float) -> Iterator[Any]:
        """One deck takes tape after tape, once it is free, until none is left for it."""
        yield _later(environment, free - environment.now, deck)
        while True:
            now = environment.now
            self.clock.pass_to(now)
            taken = self.ready_list.next_for(deck, now)
            if taken is None:
                return
            tape, start = taken
            self.ready_list.gone[tape] = True
            end = self.ends[tape] = start + self.ready_list.tapes[tape].minutes
            after = self.clock.worked(end, self.ready_list.rules.handling)
            yield _later(environment, after - now, deck)


def _later(environment: simpy.Environment, delay: float, order: int) -> simpy.Event:
    """An event after ``delay``; of events at the same moment the one of the lowest order comes first."""
    event = environment.event()
    event._ok, event._value = True, None
    environment.schedule(event, priority=2 + order, delay=delay)
    return event


# --- with people ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Hands:
    """How many people, and the minutes of their time: load, unload, check, and the bench of every tape."""

    people: int
    load: float
    unload: float
    check: float
    bench: float


def staffed(tapes: Sequence[Tape], decks: int, rules: Rules, hands: Hands, begin: float) -> list[float]:
    """When each tape is checked, with people who do one thing at a time."""
    environment = simpy.Environment(initial_time=begin)
    shop = _Staffed(environment, tapes, decks, rules, hands)
    for person in range(hands.people):
        environment.process(shop.person(person))
    environment.run()
    return shop.checked


class _Staffed:
    def __init__(
        self, environment: simpy.Environment, tapes: Sequence[Tape], decks: int, rules: Rules, hands: Hands
    ) -> None:
        self.environment = environment
        self.hands = hands
        self.clock = _Clock(rules)
        self.ready_list = _ReadyList(tapes, decks, rules, self.clock)
        self.ready_list.ready = [NEVER] * len(tapes)
        self.checked = [0.0] * len(tapes)
        self.due: list[tuple[float, int]] = [(environment.now, deck) for deck in range(decks)]
        self.idle: set[int] = set()
        self.holds: list[int | None] = [None] * decks
        self.to_check: list[tuple[float, int]] = []
        self.to_bench = list(range(len(tapes)))
        self.left = len(tapes)
        self.changed = environment.event()

    def person(self, number: int) -> Iterator[Any]:
        """Whoever is free does what can be done now, or waits until there is something."""
        while self.left:
            now = self.environment.now
            self.clock.pass_to(now)
            opens, _ = next(self.clock.coming(now))
            if now < opens:
                yield _later(self.environment, opens - now, 100 + number)
            elif until := self.something(now):
                yield _later(self.environment, until - now, 100 + number)
            else:
                yield self.changed

    def something(self, now: float) -> float | None:
        """Begins the first thing there is to do; when it will be done."""
        self.due.sort()
        if self.due and self.due[0][0] <= now:
            return self.visit(self.due.pop(0)[1], now)
        self.to_check.sort()
        if self.to_check and self.to_check[0][0] <= now:
            _, tape = self.to_check.pop(0)
            self.checked[tape] = self.clock.worked(now, self.hands.check)
            self.left -= 1
            return self.checked[tape]
        if self.to_bench:
            return self.look_over(self.to_bench.pop(0), now)
        return None

    def look_over(self, tape: int, now: float) -> float:
        done = self.clock.worked(now, self.hands.bench)
        self.ready_list.ready[tape] = done
        for deck in self.ready_list.tapes[tape].decks:
            if deck in self.idle:
                self.idle.remove(deck)
                self.wake(deck, done)
        return done

    def visit(self, deck: int, now: float) -> float:
        """Unloads the deck and loads it again when a tape can start at once."""
        held, after = self.holds[deck], now
        if held is not None:
            self.holds[deck] = None
            after = self.clock.worked(now, self.hands.unload)
            self.to_check.append((after, held))
            self.environment.process(self.call(after))
        moment = self.clock.worked(after, self.hands.load)
        taken = self.ready_list.next_for(deck, moment)
        if taken is None or taken[1] == NEVER:
            self.idle.add(deck)
            return after
        tape, start = taken
        if start > moment:
            self.wake(deck, start)
            return after
        self.ready_list.gone[tape] = True
        self.holds[deck] = tape
        self.wake(deck, start + self.ready_list.tapes[tape].minutes)
        return moment

    def wake(self, deck: int, at: float) -> None:
        self.due.append((at, deck))
        self.environment.process(self.call(at))

    def call(self, at: float) -> Iterator[Any]:
        """At that moment something can be done."""
        yield _later(self.environment, max(0.0, at - self.environment.now), 0)
        self.changed.succeed()
        self.changed = self.environment.event()
