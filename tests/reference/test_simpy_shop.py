"""The event simulation against the same shop written with SimPy, on the same draws.

Draws are rounded to 1/1024 of a minute, which sums of floating-point numbers keep exactly, so that two
decks due at the same moment are so in both programs and the written order of decks decides.
"""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.scheduling import event_simulation, opening_hours, staffed_simulation
from core.scheduling.play_hours import PlayHours
from core.scheduling.simulated_shop import DeckTimelines, InitialState, Part, Queue, Turnout
from core.scheduling.simulated_staff import Begun, Bench, Times
from tests.support.shops import WEEKDAYS, fittings
from tests.support.worlds import simpy_shop
from tests.support.worlds.simpy_shop import Hands, Rules, Tape

CALENDAR = opening_hours.calendar(
    fittings(openings=(*WEEKDAYS, OpeningHours(5, 600, 840))), date(2026, 3, 2), 400
)
HOURS = [(float(a), float(b)) for a, b in zip(CALENDAR.opens, CALENDAR.closes, strict=True)]
NINE = 540.0
DECKS = 6
KINDS = (((0, 1, 2), 0.45), ((1, 2), 0.1), ((3, 4), 0.3), ((5,), 0.15))
"""The second kind plays on some decks of the first: decks differ, as in a shop with one S-VHS machine."""
ESTIMATES = (62.0, 119.0, 190.0, 320.0)


class Drawn:
    """A queue and its draws, without the kinds of tapes that play on none of the first ``decks``."""

    def __init__(self, tapes: int, scenarios: int, seed: int, decks: int = DECKS) -> None:
        dice = np.random.default_rng(seed)
        self.count = decks
        here = [(tuple(deck for deck in kind if deck < decks), weight) for kind, weight in KINDS]
        kinds = [(kind, weight) for kind, weight in here if kind]
        weights = np.array([weight for _, weight in kinds])
        chosen = dice.choice(len(kinds), tapes, p=weights / weights.sum())
        self.decks = [kinds[kind][0] for kind in chosen]
        self.estimates = [ESTIMATES[n] for n in dice.integers(len(ESTIMATES), size=tapes)]
        factor = dice.uniform(0.3, 1.3, (tapes, scenarios))
        self.minutes = np.round(factor * np.array(self.estimates)[:, None] * 1024) / 1024
        self.scenarios = scenarios
        self.parts = [Part(np.full(scenarios, -np.inf)) for _ in range(tapes)]

    def initial(self, handling: float, fill: int) -> InitialState:
        timelines = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((self.count, self.scenarios), NINE))
        return InitialState(timelines, handling, NINE, fill=fill)

    def queue(self) -> Queue:
        rows = zip(self.decks, self.estimates, self.parts, strict=True)
        return Queue([Turnout(decks, estimate, NINE, part) for decks, estimate, part in rows], self.minutes)

    def ends(self) -> np.ndarray:  # type: ignore[type-arg]
        return np.stack([part.ends for part in self.parts])

    def simpy_tapes(self, scenario: int) -> list[Tape]:
        rows = zip(self.decks, self.estimates, self.minutes[:, scenario], strict=True)
        return [Tape(decks, estimate, float(minutes)) for decks, estimate, minutes in rows]


@pytest.mark.parametrize("fill", [0, 20], ids=["strictly in order", "end of the day filled"])
def test_every_tape_ends_at_the_same_moment(fill: int) -> None:
    """6,000 tapes each; the measurement `turnaround` compares 30,000 and more."""
    drawn = Drawn(300, 20, 1)
    event_simulation.work_off(drawn.initial(5.0, fill), drawn.queue())
    rules = Rules(HOURS, 60.0, 5.0, fill)
    simulated = [simpy_shop.lean(drawn.simpy_tapes(s), DECKS, rules, NINE) for s in range(drawn.scenarios)]
    assert np.abs(drawn.ends() - np.array(simulated).T).max() < 1e-6


@pytest.mark.parametrize("decks", range(1, 7))
@pytest.mark.parametrize(("queued", "box"), [(0, 60), (30, 1), (120, 12), (300, 40)])
def test_a_box_behind_a_queue_ends_at_the_same_moment(decks: int, queued: int, box: int) -> None:
    """Twenty-four shapes of shop: what the queue leaves of the decks is handed to both programs."""
    rules, scenarios = Rules(HOURS, 60.0, 5.0, 20), 4
    queue, drawn = (Drawn(tapes, scenarios, 10 * decks + tapes, decks) for tapes in (queued, box))
    initial = drawn.initial(5.0, 20)
    if queued:
        event_simulation.work_off(initial, queue.queue())
    free = initial.timelines.free.copy()
    event_simulation.work_off(initial, drawn.queue())
    simulated = [
        simpy_shop.lean(drawn.simpy_tapes(s), decks, rules, NINE, free[:, s].tolist())
        for s in range(scenarios)
    ]
    assert np.abs(drawn.ends() - np.array(simulated).T).max() < 1e-6


def test_one_written_rule_less_and_they_differ() -> None:
    drawn = Drawn(300, 4, 1)
    event_simulation.work_off(drawn.initial(5.0, 20), drawn.queue())
    rules = Rules(HOURS, 60.0, 5.0, 19)
    simulated = [simpy_shop.lean(drawn.simpy_tapes(s), DECKS, rules, NINE) for s in range(4)]
    assert np.abs(drawn.ends() - np.array(simulated).T).max() > 1


@pytest.mark.parametrize("people", [1, 2])
def test_with_people_who_do_one_thing_at_a_time_the_means_agree(people: int) -> None:
    """Not to the minute: which of two free people takes a task is nobody's rule."""
    drawn = Drawn(60, 60, 7)
    bench = [Bench(5.0, part, place) for place, part in enumerate(drawn.parts)]
    staffed_simulation.work_off(
        drawn.initial(0.0, 20), drawn.queue(), people, Times(3.0, 2.0, 8.0), bench, Begun()
    )
    hands = Hands(people, 3.0, 2.0, 8.0, 5.0)
    rules = Rules(HOURS, 60.0, 0.0, 20)
    simulated = [simpy_shop.staffed(drawn.simpy_tapes(s), DECKS, rules, hands, NINE) for s in range(60)]
    apart = (drawn.ends() - np.array(simulated).T).mean(axis=0)
    assert abs(apart.mean()) < max(3 * apart.std(ddof=1) / np.sqrt(60), 0.5)
    assert np.mean(np.abs(drawn.ends() - np.array(simulated).T) < 1e-6) > 0.8
