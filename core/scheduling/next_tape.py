"""Which tape goes on each free deck now: what the likely plan of the shop starts there.

The rule itself is that of the event simulation every promise comes from; nothing is decided here a second
time. Added is what the Bench must hear: whether that tape may be loaded at this moment, and why.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from core.model import common_random_numbers
from core.model.own_shop.settings_records import ShopSettings, Skill
from core.model.stations import Station
from core.scheduling import opening_hours
from core.scheduling.likely_plan import LikelyPlan
from core.scheduling.opening_calendar import NEVER, Calendar
from core.scheduling.plan_records import Step, estimate
from core.scheduling.queued_tapes import QueuedTape
from core.scheduling.simulated_shop import FILL
from core.wording import locale_figures
from core.wording.messages import say

_INSTEAD = {
    "too_long": "instead_too_long",
    "cold": "instead_cold",
    "not_cleared": "instead_not_cleared",
    "at_hand": "instead_too_long",
}
"""The sentence when another tape goes first. One at hand fits no more once the decks before are loaded."""


@dataclass(frozen=True, slots=True)
class NextTape:
    """The tape to load, or None; ``why`` is a sentence for the bench."""

    tape: QueuedTape | None
    why: str


def next_tapes(settings: ShopSettings, queue: Sequence[QueuedTape], now: datetime) -> dict[str, NextTape]:
    """What each free deck loads now, by the name of the deck; no tape twice.

    Decks that no tape left in the queue may play on are not named. WrongInput when ``now`` has no timezone.
    """
    calendar = opening_hours.calendar(settings, opening_hours.today(settings, now))
    return _Loading(settings, queue, now, calendar).told()


class _Loading:
    """One look at the shop: the likely plan up to the closing, and what of it may begin now."""

    def __init__(
        self, settings: ShopSettings, queue: Sequence[QueuedTape], now: datetime, calendar: Calendar
    ) -> None:
        self._settings, self._now, self._calendar = settings, now, calendar
        self._moment = calendar.at(now)
        self._loaded = self._moment + settings.handling.load
        """When a tape would begin to play that is loaded now."""
        self._closing = _closing(calendar, self._moment)
        self._plan = LikelyPlan(settings, queue, calendar, self._moment, self._closing + 1.0)
        self._tapes = {common_random_numbers.key(tape.code): tape for tape in queue}
        self._first: dict[int, int] = {}
        """The key of the tape each deck starts first before closing."""
        for key, deck, at in sorted(self._plan.started(), key=lambda start: start.at):
            if at <= self._closing:
                self._first.setdefault(deck, key)

    def told(self) -> dict[str, NextTape]:
        found: dict[str, NextTape] = {}
        left = [step for step in self._plan.in_order if step.plays]
        for deck in self._in_turn():
            mine = [step for step in left if deck in step.suited.decks]
            if mine:
                found[self._settings.decks[deck].name] = answer = self._answer(deck, mine)
                left = [step for step in left if self._tapes[step.key] is not answer.tape]
        return found

    def _in_turn(self) -> list[int]:
        """The free decks: those that load now as the plan takes them, then the others."""
        taken = {start.deck for start in self._plan.playing}
        out = self._plan.timelines.out
        free = [
            place
            for place, deck in enumerate(self._settings.decks)
            if deck.in_service
            and place not in taken
            and not any(begins <= self._moment < ends for begins, ends in out.get(place, ()))
        ]
        return sorted(free, key=lambda place: not self._loads(place))

    def _loads(self, deck: int) -> bool:
        return deck in self._first and self._is_at_hand(self._first[deck])

    def _is_at_hand(self, key: int) -> bool:
        return self._tapes[key].station is Station.CLEARED_TO_PLAY and self._is_warm(key)

    def _is_warm(self, key: int) -> bool:
        rests_until = self._tapes[key].rests_until
        return rests_until is None or rests_until <= self._now

    def _answer(self, deck: int, mine: Sequence[Step]) -> NextTape:
        """``mine``: the tapes this deck may take, by the dispatching rule; never none."""
        head = mine[0]
        if away := self._nobody_loads():
            return NextTape(None, away)
        if not self._loads(deck):
            return NextTape(None, self._why_not(deck, mine))
        tape = self._tapes[self._first[deck]]
        if tape is self._tapes[head.key]:
            return NextTape(tape, say("bench", "next"))
        reason = _INSTEAD[self._held(head)]
        code = locale_figures.tape_code(self._tapes[head.key].code)
        return NextTape(tape, say("bench", reason, code=code))

    def _held(self, head: Step) -> str:
        """What keeps the first tape: ``too_long``, ``cold``, ``not_cleared``; ``at_hand``: nothing does."""
        if self._start_of(head) > self._loaded:
            return "too_long"
        if not self._is_warm(head.key):
            return "cold"
        return "at_hand" if self._is_at_hand(head.key) else "not_cleared"

    def _start_of(self, step: Step) -> float:
        return self._plan.timelines.hours.gate(estimate(step.minutes)).start_of(self._loaded)

    def _why_not(self, deck: int, mine: Sequence[Step]) -> str:
        held = self._held(mine[0])
        if held == "at_hand" and self._goes_out(deck):
            return say("bench", "none_outage")
        if held in ("too_long", "at_hand"):
            return self._until_when(self._start_of(mine[0]))
        cleared = [
            step.key for step in mine[: FILL + 1] if self._tapes[step.key].station is Station.CLEARED_TO_PLAY
        ]
        is_cold = cleared and not any(map(self._is_warm, cleared))
        return say("bench", "none_warm" if is_cold else "none_cleared")

    def _nobody_loads(self) -> str:
        """Why nobody loads a deck now: those who can are not here; or nothing."""
        roster = self._plan.ways.roster
        if roster is None or not self._is_open():
            return ""
        since = roster.next_here(Skill.LOAD, self._moment)
        if since <= self._moment:
            return ""
        if since >= NEVER:
            return say("bench", "none_ever")
        when = self._calendar.moment(since)
        if when.date() == self._calendar.day_of(self._moment):
            return say("bench", "none_here_today", time=locale_figures.time_of_day(when))
        return say("bench", "none_here", day=locale_figures.day(when.date()))

    def _goes_out(self, deck: int) -> bool:
        """Whether a planned outage of the deck begins before the shop has closed."""
        last = self._closing + self._settings.past_closing_minutes
        return any(self._moment < begins < last for begins, _ in self._plan.timelines.out.get(deck, ()))

    def _is_open(self) -> bool:
        now = zip(self._calendar.opens, self._calendar.closes, strict=True)
        return any(opens <= self._moment < closes for opens, closes in now)

    def _until_when(self, start: float) -> str:
        if not len(self._calendar.opens) or start >= self._calendar.closes[-1]:
            return say("bench", "no_hours")
        day = self._calendar.day_of(start)
        if day == self._calendar.day_of(self._moment) and not self._is_open():
            return say("bench", "before_opening")
        return say("bench", "none_ends", day=locale_figures.day(day))


def _closing(calendar: Calendar, moment: float) -> float:
    """The end of the opening a moment lies in; a minute before the moment when the shop is closed."""
    slot = bisect_left(calendar.closes, moment)
    is_open = slot < len(calendar.opens) and calendar.opens[slot] <= moment
    return float(calendar.closes[slot]) if is_open else moment - 1.0
