"""What became of the promises of an invented shop, as the program reads it from its records."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from core.model.promise_records import Promise
from core.promise.reliability import Judged, Reliability, pit_histogram
from core.services.promises import NEWEST
from tests.support.fed_shop import moment, number_of
from tests.support.worlds.shop_lives import Box

_HAIR = 1e-9
Places = tuple[float, float]


class KeptRecord:
    """Promises that were made, and at any later moment those whose day is over.

    Only what a correction looks at is worked out: each promise judged, and the tenths of their curves; the
    scores and groups that `core.promise.reliability` adds for people cost more than the promise itself.
    """

    def __init__(self) -> None:
        self._open: list[tuple[Box, Promise]] = []
        self._over: list[tuple[Box, Promise]] = []
        self._known: dict[int, tuple[Judged, Places]] = {}

    def add(self, box: Box, promise: Promise) -> None:
        """This was said of this box."""
        if promise.day is not None:
            self._open.append((box, promise))

    def at(self, now: datetime) -> Reliability:
        """The newest promises whose day is over at this moment, in the order in which they were made."""
        self._over += [each for each in self._open if _is_over(each[1], now)]
        self._open = [each for each in self._open if not _is_over(each[1], now)]
        self._over = sorted(self._over, key=lambda each: each[0].number)[-NEWEST:]
        found = [self._judged(box, promise, now) for box, promise in self._over]
        deciles = pit_histogram([places for _, places in found])
        return Reliability(
            tuple(judged for judged, _ in found), (), None, tuple(float(share) for share in deciles), 0.0, 0.0
        )

    def _judged(self, box: Box, promise: Promise, now: datetime) -> tuple[Judged, Places]:
        if box.number in self._known:
            return self._known[box.number]
        ready = moment(box.done) if _is_ready(box, now) else None
        assert promise.day is not None
        on, due = (None if ready is None else ready.date()), promise.day + timedelta(days=1)
        due_at = datetime.combine(due, time(), now.tzinfo)
        before = _by(promise, now.date() if on is None else on - timedelta(days=1))
        with_it = 1.0 if on is None else _by(promise, on)
        judged = Judged(number_of(box), "", promise, due_at, ready, on, now.date())
        places = min(before, 1 - _HAIR), max(with_it, _HAIR)
        if ready is not None:
            self._known[box.number] = judged, places
        return judged, places


def _is_over(promise: Promise, now: datetime) -> bool:
    return promise.day is not None and promise.day < now.date()


def _is_ready(box: Box, now: datetime) -> bool:
    return box.done < float("inf") and moment(box.done) <= now


def _by(promise: Promise, day: date) -> float:
    """As `core.promise.reliability` reads a curve: the chance by ``day``; after its end, certainty."""
    told = [chance.by for chance in promise.chances if chance.day <= day]
    if promise.chances and day > promise.chances[-1].day:
        return 1.0
    return told[-1] if told else 0.0
