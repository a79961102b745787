"""The event simulation with people who differ: each is here at times of their own and can do some things.

As in the simulation of people who are all alike, what can be begun first is begun first: a deck that is
due, a recording to be checked, a tape at the bench. Who does it is whoever can do it and comes to it first;
of two, the one who can do fewer things. At the bench a tape to be repaired waits for somebody who can splice,
and those behind it that are only to be looked over do not wait with it. Work begun rests while the person is
away.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.model.own_shop.settings_records import Skill, Work
from core.scheduling.opening_calendar import RETIRED, Minutes, Places, where
from core.scheduling.roster_hours import RosterHours
from core.scheduling.rosters import Roster
from core.scheduling.simulated_shop import InitialState, Queue
from core.scheduling.simulated_staff import Begun, Bench, Found, Times
from core.scheduling.staffed_simulation import StaffedSimulation


def work_off(
    initial: InitialState, queue: Queue, roster: Roster, times: Times, bench: Sequence[Bench], begun: Begun
) -> Found:
    """Works the queue off with these people; parts end when their last tape is checked.

    What nobody can do is never done: its parts never end.
    """
    simulation = RosterSimulation(initial, queue, roster, times, bench, begun)
    simulation.run()
    return simulation.found()


class RosterSimulation(StaffedSimulation):
    """One go through a queue."""

    def __init__(
        self,
        initial: InitialState,
        queue: Queue,
        roster: Roster,
        times: Times,
        bench: Sequence[Bench],
        begun: Begun,
    ) -> None:
        super().__init__(initial, queue, len(roster.here), times, bench, begun)
        self._able = {work: np.array(places, dtype=np.intp) for work, places in roster.able.items()}
        self._paces = np.array(roster.paces) if roster.paces else None
        self._begun_by = np.full((roster.at_once, self._scenarios), initial.now)
        """When each of the places at which people work is free again."""
        self._set_up_bench_lines(bench)
        self._soonest_start = -np.inf
        self._hours = RosterHours(roster.here)
        own = [person for person, here in enumerate(roster.here) if here is not roster.shop]
        self._own = np.array(own, dtype=np.intp)
        """People with hours of their own."""

    def _has_seen_enough(self) -> bool:
        """Nothing more is begun before the end, or ever: what nobody can do is left."""
        return self._soonest_start >= min(self._queue.until, RETIRED)

    def _hand_over(self) -> None:
        """What was left because nobody can do it never ends."""
        spot = where(self._loaded)
        self._parts.note_never(self._on[spot], spot // self._decks.count)
        for part, left in self._checks.left():
            self._parts.note_never(part, left)
        for lines, following in self._bench_lines.values():
            for place, line in enumerate(lines[:-1]):
                left = where(following <= place)
                self._parts.note_never(self._bench_part[line], left)
        super()._hand_over()

    def _next_task(self) -> None:
        """The next thing somebody does, in every scenario."""
        deck, spot = self._decks.soonest()
        due = self._presence.rise(self._decks.due.take(spot))
        here = self._hours.rise(np.maximum(self._people, self._begun_by.min(axis=0)), self._hours.lines)
        visit, loader = self._first(Skill.LOAD, np.maximum(here, self._seen_from(due)))
        check_from, checker = self._first(
            Skill.CHECK, np.maximum(here, self._seen_from(self._checks.since()))
        )
        bench_from, worker, line = self._next_at_the_bench(here)
        self._soonest_start = float(np.minimum(np.minimum(visit, check_from), bench_from).min())
        if self._has_seen_enough():
            return
        checks = (check_from <= bench_from) & (check_from < visit)
        benches = ~checks & (bench_from < visit)
        self._check(where(checks), checker, check_from)
        at = where(benches)
        if len(at):
            self._look_over(at, line, worker, bench_from)
        self._visit(~checks & ~benches & (visit < RETIRED), loader, deck, spot, visit, due)

    # --- who does it ----------------------------------------------------------------------

    def _seen_from(self, moments: Minutes) -> Minutes:
        """When each could see to what is there from these moments on: a row a person, or one for all."""
        if not len(self._own):
            return moments
        found = np.repeat(moments[None, :], len(self._people), axis=0)
        found[self._own] = self._hours.rise(moments, self._hours.lines.take(self._own, axis=0))
        return found

    def _first(self, work: Work, start: Minutes) -> tuple[Minutes, Places]:
        """Who can begin this work soonest, and when; ``start``: when each could. Never, where nobody can."""
        able = self._able[work]
        if not len(able):
            return np.full(self._scenarios, RETIRED), self._columns
        who = able.take(start.take(able, axis=0).argmin(axis=0)) * self._scenarios + self._columns
        return start.take(who), who

    def _next_at_the_bench(self, here: Minutes) -> tuple[Minutes, Places, Places]:
        """When somebody can go on at the bench, who, and with which tape: the first that can be begun."""
        found = [self._next_of(work, here) for work in self._bench_lines]
        if len(found) < 2:
            return found[0] if found else self._nothing_at_the_bench
        (start, who, line), (other, by, its) = found
        is_other = (other < start) | ((other == start) & (its < line))
        return (
            np.where(is_other, other, start),
            np.where(is_other, by, who),
            np.where(is_other, its, line),
        )

    def _next_of(self, work: Work, here: Minutes) -> tuple[Minutes, Places, Places]:
        lines, following = self._bench_lines[work]
        line = lines.take(following)
        start, who = self._first(work, here)
        return np.where(line < len(self._bench_minutes) - 1, start, RETIRED), who, line

    def _done_at(self, who: Places, begin: Minutes, work: Minutes) -> Minutes:
        """When each person has done so much work of theirs; it rests while they are away."""
        person = who // self._scenarios
        if self._paces is not None:
            work = work * self._paces.take(person)
        return self._hours.advanced(person, begin, work)

    def _keep_busy(self, who: Places, until: Minutes) -> None:
        super()._keep_busy(who, until)
        scenario = who % self._scenarios
        self._begun_by[self._begun_by.argmin(axis=0)[scenario], scenario] = until

    def _look_over(self, at: Places, line: Places, who: Places, since: Minutes) -> None:
        splices = self._splices[line[at]]
        for work, (lines, following) in list(self._bench_lines.items()):
            following[at[splices == (work is Skill.SPLICE)]] += 1
            if following.min() == len(lines) - 1:  # done in every scenario
                del self._bench_lines[work]
        super()._look_over(at, line, who, since)

    # --- setting up -----------------------------------------------------------------------

    def _set_up_bench_lines(self, bench: Sequence[Bench]) -> None:
        """The tapes to be looked over and those to be repaired, each in the order they came."""
        none = len(bench)
        self._splices = np.array([*(each.splices for each in bench), False])
        self._bench_lines: dict[Work, tuple[Places, Places]] = {}
        """The lines of each work with one behind for none; the place of the next in each scenario."""
        for work, is_splice in ((None, False), (Skill.SPLICE, True)):
            lines = [n for n, each in enumerate(bench) if each.splices is is_splice]
            if lines:
                following = np.zeros(self._scenarios, dtype=np.intp)
                self._bench_lines[work] = (np.array([*lines, none], dtype=np.intp), following)
        self._nothing_at_the_bench = np.full(self._scenarios, RETIRED), self._columns, self._columns
