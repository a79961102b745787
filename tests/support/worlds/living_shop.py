"""A shop that somebody else lives through, minute by minute: what a stated chance must stand up to.

Nothing of the program is asked here, and minutes, people, troubles and customers are those of a `World`. What
a shop has in common with the program is what the program tells it to do: boxes in a hurry first, then as they
came; within a box the tapes for the fewest decks, then the longest; the end of the day filled with what fits.
Somebody outside is told of every box that comes in, and may tell how long tapes are believed to play.
"""

from __future__ import annotations

import heapq
from bisect import insort
from collections.abc import Callable, Sequence

import numpy as np

from tests.support.worlds.people_at_work import DAY, Dice, Person, Presence, Span
from tests.support.worlds.shop_lives import Box, Tape, Turn, Work, World
from tests.support.worlds.shop_year import Out

AFTER = 120
"""Days for which boxes still come in after the last one that counts."""
_FILL = 20
_MORNING = 90.0
"""Minutes after opening in which a tape is begun that fits no day that begins so late."""
_LONGER = 5.0
"""Minutes somebody stays to finish at a deck."""


Asked = Callable[["LivingShop", Box], None]
"""Told of a new box, which is not in the queue yet; `LivingShop.now` is the moment."""


class LivingShop:
    """Days from day 0 on, a Monday."""

    def __init__(self, world: World, seed: int, asked: Asked) -> None:
        self.world, self._asked = world, asked
        outer, self._dice, self._customers = (np.random.default_rng([seed, n]) for n in range(3))
        self._bring = world.bring(self._customers)
        self.shut: list[int] = []
        """Days that were to be open and were not."""
        self.slots: list[Span] = list(self._opened(outer))
        self._spells = self._drawn_spells(outer)
        self.people = [self._presence(person, outer) for person in world.people]
        self._busy = [False] * len(world.people)
        self.now, self._slot = 0.0, 0
        self.boxes: list[Box] = []
        self._waiting: dict[frozenset[str], list[tuple[Turn, Tape]]] = {plays: [] for plays in world.decks}
        self.on: list[Tape | None] = [None] * len(world.decks)
        self._due = [0.0] * len(world.decks)
        self._in_vain: list[tuple[int, int] | None] = [None] * len(world.decks)
        self._changes = 0
        self._bench: list[Tape] = []
        self.to_check: list[Tape] = []
        self._to_copy: list[Box] = []
        self._at_counter = 0
        self.outs: list[Out] = []
        self.played: list[Tape] = []
        """In the order in which they ended for the first time."""
        self.done_work: list[Work] = []
        self._events: list[tuple[float, int, Callable[[], None]]] = []
        self._count = 0
        self._open = 0

    @property
    def waiting(self) -> list[Tape]:
        """Not on a deck yet, in order."""
        found = {id(tape): (turn, tape) for row in self._waiting.values() for turn, tape in row}
        return [tape for _, tape in sorted(found.values(), key=lambda pair: pair[0])]

    def live(self) -> list[Box]:
        """Lives until every box of the days that count is done; all boxes as they came."""
        for at in self._arrivals():
            self._at(at, self._come_in)
        for begins, _ in {span for person in self.people for span in person.spans}:
            self._at(begins, lambda: None)
        end = (self.world.days + AFTER) * DAY
        while self._events and (self._events[0][0] < self.world.days * DAY or self._open):
            self.now, _, happens = heapq.heappop(self._events)
            if self.now > end:
                break
            while self.slots[self._slot][1] < self.now:
                self._slot += 1
            happens()
            self._set_to_work()
        return self.boxes

    # --- what comes ------------------------------------------------------------------------

    def _opened(self, dice: Dice) -> Sequence[Span]:
        found = []
        for day in range(self.world.days + AFTER + 60):
            hours = self.world.hours[day % 7]
            if hours is None:
                continue
            if day and dice.random() < self.world.troubles.closures:
                self.shut.append(day)
            else:
                found.append((day * DAY + hours[0], day * DAY + hours[1]))
        return found

    def _drawn_spells(self, dice: Dice) -> list[Span]:
        if self.world.troubles.spells is None:
            return []
        apart, lasts, _ = self.world.troubles.spells
        found, day = [], float(dice.exponential(apart))
        while day < self.world.days + AFTER:
            length = float(dice.exponential(lasts))
            found.append((day * DAY, (day + length) * DAY))
            day += length + float(dice.exponential(apart))
        return found

    def _presence(self, person: Person, dice: Dice) -> Presence:
        return Presence([span for slot in self.slots for span in person.spans(*slot, dice)])

    def _arrivals(self) -> list[float]:
        mean = float(np.mean([closes - opens for opens, closes in self.slots]))
        found: list[float] = []
        for opens, closes in self.slots:
            rate = self.world.boxes_a_day * self.world.pace(opens / DAY) * (closes - opens) / mean
            if opens < (self.world.days + AFTER) * DAY:
                found += self._customers.uniform(opens, closes, self._customers.poisson(rate)).tolist()
        return found

    def _come_in(self) -> None:
        troubles = self.world.troubles
        hurry = bool(self._customers.random() < troubles.rush)
        box = Box(len(self.boxes) + 1, self.now, hurry)
        for n, new in enumerate(self._bring(self._customers, self.now / DAY, hurry), 1):
            again = bool(self._customers.random() < troubles.again)
            decks = sum(new.format in plays for plays in self.world.decks)
            box.tapes.append(Tape(box, n, new, again, decks, since=self.now))
        box.left = len(box.tapes)
        self._asked(self, box)
        self.boxes.append(box)
        self._open += self.now < self.world.days * DAY
        self._at_counter += self.world.efforts.counter > 0
        for tape in sorted(box.tapes, key=lambda tape: tape.turn):
            self._line_up(tape)
            self._bench.append(tape)

    def _line_up(self, tape: Tape) -> None:
        for plays, row in self._waiting.items():
            if tape.new.format in plays:
                insort(row, (tape.turn, tape), key=lambda pair: pair[0])

    # --- what people do --------------------------------------------------------------------

    def _set_to_work(self) -> None:
        opens, closes = self.slots[self._slot]
        if not opens <= self.now <= closes:
            return
        for person, presence in enumerate(self.people):
            until = presence.until(self.now)
            if until is not None and not self._busy[person]:
                self._begin_something(person, until)

    def _begin_something(self, person: int, until: float) -> None:
        efforts = self.world.efforts
        if self._at_counter:
            self._at_counter -= 1
            self._occupy(person, "counter", efforts.counter, lambda: None)
            return
        due = sorted((at, deck) for deck, at in enumerate(self._due) if at <= self.now)
        if any(self._visit(deck, person, until) for _, deck in due):
            return
        if self.to_check:
            tape = min(self.to_check, key=lambda tape: (not tape.box.rush, tape.ended))
            self.to_check.remove(tape)
            mean = efforts.check + efforts.check_share * tape.new.minutes
            self._occupy(person, "check", mean, lambda: self._is_checked(tape), tape)
        elif self._to_copy:
            box = self._to_copy.pop(0)
            mean = efforts.copies + efforts.copies_each * len(box.tapes)
            self._occupy(person, "copies", mean, lambda: self._is_done(box))
        elif self._bench:
            self._look_over(min(self._bench, key=lambda tape: tape.turn), person)

    def _look_over(self, tape: Tape, person: int) -> None:
        self._bench.remove(tape)
        efforts, is_again = self.world.efforts, tape.ended < np.inf
        mean = efforts.clean if is_again else efforts.look_over + efforts.splice * tape.new.splice
        tape.station, tape.since = "at-the-bench", self.now
        what = "clean" if is_again else "splice" if tape.new.splice else "look-over"
        self._occupy(person, what, mean, lambda: self._is_cleared(tape), tape)

    def _visit(self, deck: int, person: int, until: float) -> bool:
        """Unloads a deck, and loads it where there is a tape and the time."""
        held = self.on[deck]
        unload, load = (
            self._drawn(mean, person) for mean in (self.world.efforts.unload, self.world.efforts.load)
        )
        minutes = unload if held else 0.0
        if self.now + minutes > until + _LONGER:
            return False
        start = self.now + minutes + load
        tape = self._chosen(deck, start) if start <= until + _LONGER else None
        if held is None and tape is None:
            return False
        self.on[deck], self._due[deck] = None, self.now
        if held is not None:
            self._note("unload", person, (self.now, self.now + minutes), held, deck)
            self._at(self.now + minutes, lambda: self._is_out(held))
        if tape is not None:
            self._note("load", person, (self.now + minutes, start), tape, deck)
            self._play(tape, deck, start)
        self._busy[person] = True
        self._at(start if tape else self.now + minutes, lambda: self._is_free(person))
        return True

    def _play(self, tape: Tape, deck: int, start: float) -> None:
        for row in self._waiting.values():
            row[:] = [pair for pair in row if pair[1] is not tape]
        self.on[deck], tape.station, tape.since, tape.deck = tape, "playing", start, deck
        fails_after = self._fails_after(start)
        if fails_after < tape.new.minutes:
            self._due[deck] = np.inf
            self._at(start + fails_after, lambda: self._fails(tape, deck))
        else:
            self._due[deck] = start + tape.new.minutes
            self._at(self._due[deck], lambda: None)

    def _fails_after(self, start: float) -> float:
        between = self.world.troubles.between_failures
        if not between:
            return np.inf
        if self.world.troubles.spells and any(a <= start < b for a, b in self._spells):
            between /= self.world.troubles.spells[2]
        return float(self._dice.exponential(between))

    def _fails(self, tape: Tape, deck: int) -> None:
        """The tape comes out and waits again; the deck is away for a while."""
        self.on[deck], tape.deck = None, None
        self._is_cleared(tape)
        self._line_up(tape)
        self._due[deck] = self.now + float(self._dice.exponential(self.world.troubles.repair))
        self.outs.append(Out(deck, self.now, self._due[deck]))
        self._at(self._due[deck], lambda: None)

    def _chosen(self, deck: int, start: float) -> Tape | None:
        """The first tape if it fits the day, else the longest of the next that does."""
        if self._in_vain[deck] == (self._changes, self._slot):
            return None
        row, (opens, closes) = self._waiting[self.world.decks[deck]], self.slots[self._slot]
        room, longest = closes + self.world.past_closing - start, closes - opens + self.world.past_closing
        if row and start <= closes:
            first = row[0][1]
            is_begun_at_opening = first.estimate > longest - _MORNING and start - opens <= _MORNING
            if first.station == "cleared-to-play" and (first.estimate <= room or is_begun_at_opening):
                return first
            fit = [
                tape
                for _, tape in row[1 : 1 + _FILL]
                if tape.station == "cleared-to-play" and tape.estimate <= room
            ]
            if fit:
                return max(fit, key=lambda tape: tape.estimate)
        self._in_vain[deck] = (self._changes, self._slot)
        return None

    def _is_out(self, tape: Tape) -> None:
        if tape.ended == np.inf:
            self.played.append(tape)
        tape.station, tape.since, tape.ended, tape.deck = "being-checked", self.now, self.now, None
        self.to_check.append(tape)

    def _is_cleared(self, tape: Tape) -> None:
        tape.station, tape.since = "cleared-to-play", self.now
        self._changes += 1

    def _is_checked(self, tape: Tape) -> None:
        if tape.again:
            tape.again, tape.station, tape.since = False, "at-the-bench", self.now
            self._line_up(tape)
            self._bench.append(tape)
            return
        tape.station, tape.since = "ready", self.now
        tape.box.left -= 1
        if not tape.box.left:
            if self.world.efforts.copies or self.world.efforts.copies_each:
                self._to_copy.append(tape.box)
            else:
                self._is_done(tape.box)

    def _is_done(self, box: Box) -> None:
        box.done = self.now
        self._open -= box.came < self.world.days * DAY

    # --- time ------------------------------------------------------------------------------

    def _drawn(self, mean: float, person: int) -> float:
        return self.world.efforts.drawn(mean, self.world.people[person].pace, self._dice)

    def _occupy(
        self, person: int, what: str, mean: float, then: Callable[[], None], tape: Tape | None = None
    ) -> None:
        minutes = self._drawn(mean, person)
        self._busy[person] = True
        ends = self.people[person].worked(self.now, minutes)
        sends_back = what == "check" and tape is not None and tape.again
        self.done_work.append(Work(what, person, self.now, ends, minutes, tape, None, sends_back))

        def over() -> None:
            self._is_free(person)
            then()

        self._at(ends, over)

    def _note(self, what: str, person: int, span: Span, tape: Tape, deck: int) -> None:
        self.done_work.append(Work(what, person, *span, span[1] - span[0], tape, deck))

    def _is_free(self, person: int) -> None:
        self._busy[person] = False

    def _at(self, when: float, happens: Callable[[], None]) -> None:
        self._count += 1
        heapq.heappush(self._events, (when, self._count, happens))
