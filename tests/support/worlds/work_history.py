"""A shop that works by efforts of its own, and the history it would write: to test what is learned of it.

It shares no line with the program: it knows stations by their words, and its people do one thing at a time, a
deck that is due first, then a free deck, then a check, then a cassette to look over. Each step takes a time
drawn from a gamma law. People are called away between steps, may forget to record a step until they record
the next, leave cassettes over night as they fall, go to lunch and begin late.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from random import Random

DAY = 1440.0
OPENS, CLOSES = 540.0, 1080.0
"""Minutes after midnight, every day alike."""


@dataclass(frozen=True, slots=True)
class Habits:
    """How its people work. Minutes."""

    efforts: Mapping[str, float]
    """``look``, ``load``, ``unload``, ``check``."""
    people: Mapping[str, float] = field(default_factory=lambda: {"Ada": 1.0})
    """Names with how many times as long each takes."""
    spread: float = 0.4
    """Standard deviation of a step by its mean."""
    called_away: float = 0.0
    """Share of the steps before which somebody comes in."""
    forgets: float = 0.0
    """Share of the steps recorded with the next."""
    again: float = 0.0
    """Share of the plays that the check sends back."""
    late: float = 0.0
    lunch: tuple[float, float] = (0.0, 0.0)
    """From when, for how long."""


@dataclass(frozen=True, slots=True)
class Entry:
    """What somebody wrote down: ``at`` minutes after the first midnight."""

    at: float
    who: str
    tape: str
    station: str
    deck: str = ""
    played: float = 0.0


@dataclass(slots=True)
class _Tape:
    name: str
    station: str = "booked-in"
    minutes: float = 60.0
    due: float = 0.0
    again: bool = False


class Workshop:
    """Works through some days; `entries` is its history, and `spent` the minutes of each kind of step."""

    def __init__(self, habits: Habits, decks: int, seed: int) -> None:
        self._habits, self._dice = habits, Random(seed)
        self._tapes: list[_Tape] = []
        self._decks: dict[str, _Tape | None] = {f"Deck {n}": None for n in range(decks)}
        self._free = dict.fromkeys(habits.people, 0.0)
        self._unwritten: dict[str, list[tuple[str, str, str, float]]] = {who: [] for who in habits.people}
        self._had_lunch: set[tuple[str, int]] = set()
        self.entries: list[Entry] = []
        self.spent: dict[str, list[float]] = {}

    def live(self, days: int, tapes_a_day: int) -> Sequence[Entry]:
        """The history, oldest first."""
        for day in range(days):
            self._take_in(day, tapes_a_day)
            close = day * DAY + CLOSES
            for who in self._free:
                self._free[who] = day * DAY + OPENS + self._habits.late
            while (who := min(self._free, key=self._free.__getitem__)) and self._free[who] < close:
                self._free[who] = self._go_on(who, day)
        for who in self._unwritten:
            self._write_down(self._free[who], who)
        return sorted(self.entries, key=lambda entry: entry.at)

    def _take_in(self, day: int, count: int) -> None:
        at = day * DAY + OPENS
        for n in range(count):
            tape = _Tape(f"{day + 1:06d}{n + 1:03d}0", minutes=self._dice.uniform(20.0, 110.0))
            self._tapes.append(tape)
            self.entries.append(Entry(at, min(self._free), tape.name, "booked-in"))

    def _go_on(self, who: str, day: int) -> float:
        """One step of one person; when they are through with it."""
        now, habits = self._free[who], self._habits
        begins, length = habits.lunch
        if length and now >= day * DAY + begins and (who, day) not in self._had_lunch:
            self._had_lunch.add((who, day))
            self._write_down(now, who)
            return now + length
        found = self._next(now)
        if found is None:
            return now + 2.0
        kind, tape, deck = found
        if self._dice.random() < habits.called_away:
            now += self._dice.uniform(5.0, 60.0)
        shape = habits.spread**-2
        takes = self._dice.gammavariate(shape, habits.efforts[kind] / shape)
        self.spent.setdefault(kind, []).append(takes)
        now += habits.people[who] * takes
        self._finish(who, now, kind, tape, deck)
        return now + 0.02

    def _next(self, now: float) -> tuple[str, _Tape, str] | None:
        for deck, tape in self._decks.items():
            if tape is not None and tape.due <= now:
                self._decks[deck] = None
                return "unload", tape, deck
        waiting = self._first("cleared-to-play")
        free = next((deck for deck, tape in self._decks.items() if tape is None), None)
        if waiting is not None and free is not None:
            self._decks[free] = waiting
            waiting.station, waiting.due = "in hand", float("inf")
            return "load", waiting, free
        for station, kind in (("being-checked", "check"), ("booked-in", "look")):
            tape = self._first(station)
            if tape is not None:
                tape.station = "in hand"
                return kind, tape, ""
        return None

    def _first(self, station: str) -> _Tape | None:
        return next((tape for tape in self._tapes if tape.station == station), None)

    def _finish(self, who: str, now: float, kind: str, tape: _Tape, deck: str) -> None:
        if kind == "load":
            tape.station, tape.due = "playing", now + tape.minutes
            self._note(who, now, tape.name, "playing", deck)
        elif kind == "unload":
            tape.station = "being-checked"
            self._note(who, now, tape.name, "being-checked", played=tape.minutes)
        elif kind == "look":
            tape.station = "cleared-to-play"
            self._note(who, now, tape.name, "cleared-to-play")
        elif not tape.again and self._dice.random() < self._habits.again:
            tape.station, tape.again = "cleared-to-play", True
            self._note(who, now, tape.name, "cleared-to-play")
        else:
            tape.station = "ready"
            self._tapes.remove(tape)
            self._note(who, now, tape.name, "ready", played=tape.minutes)

    def _note(
        self, who: str, now: float, tape: str, station: str, deck: str = "", played: float = 0.0
    ) -> None:
        self._unwritten[who].append((tape, station, deck, played))
        if self._dice.random() >= self._habits.forgets:
            self._write_down(now, who)

    def _write_down(self, now: float, who: str) -> None:
        for n, (tape, station, deck, played) in enumerate(self._unwritten[who]):
            self.entries.append(Entry(now + 0.001 * n, who, tape, station, deck, played))
        self._unwritten[who].clear()
