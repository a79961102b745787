"""How long tapes lie at the bench and wait for an owner's answer, and how many are played a second time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from core.model.stations import Station
from core.scheduling.worktime.recorded_acts import Act

FIRST_WAITS = {Station.AT_THE_BENCH: 24.0, Station.ASKING_THE_CUSTOMER: 48.0}
"""Real hours, where counting begins (assumptions)."""
_WORTH_WAITS = 2.0
FIRST_AGAIN = 0.02
"""Share of the tapes played again where counting begins (an assumption); before, none is reckoned with."""
_WORTH_TAPES = 50.0
ENOUGH_PLAYS = 20
"""Tapes played before which their share says nothing (an assumption)."""


@dataclass(frozen=True, slots=True)
class Wait:
    """How long tapes wait at a station. Real hours."""

    station: Station
    hours: float
    """On average: those that wait still count with the hours they have waited."""
    ended: int


@dataclass(frozen=True, slots=True)
class SecondPlays:
    """Tapes that went on a deck again after a play that had come to its end."""

    share: float = 0.0
    tapes: int = 0
    again: int = 0


NONE_AGAIN = SecondPlays()


def waits(acts: Sequence[Act], now: float) -> tuple[Wait, ...]:
    """The mean waits: conjugate to exponential ones, so that those still waiting are not left out."""
    return tuple(_wait(station, first, acts, now) for station, first in FIRST_WAITS.items())


def _wait(station: Station, first: float, acts: Sequence[Act], now: float) -> Wait:
    since: dict[str, float] = {}
    ended, minutes = 0, 0.0
    for act in acts:
        if act.station is None:
            continue
        if act.station is station:
            since.setdefault(act.about, act.at)
        elif (began := since.pop(act.about, None)) is not None:
            ended += 1
            minutes += act.at - began
    minutes += sum(max(0.0, now - began) for began in since.values())
    hours = (_WORTH_WAITS * first + minutes / 60) / (_WORTH_WAITS + ended)
    return Wait(station, hours, ended)


def second_plays(acts: Sequence[Act]) -> SecondPlays:
    """A beta belief. A play that a failing deck broke off is none: failures are counted by themselves."""
    at: dict[str, Station] = {}
    ended: set[str] = set()
    again: set[str] = set()
    for act in acts:
        if act.station is None or act.station is at.get(act.about):
            continue
        if at.get(act.about) is Station.PLAYING and act.station in (Station.BEING_CHECKED, Station.READY):
            ended.add(act.about)
        if act.station is Station.PLAYING and act.about in ended:
            again.add(act.about)
        at[act.about] = act.station
    tapes = len(ended)
    if tapes < ENOUGH_PLAYS:
        return SecondPlays(0.0, tapes, len(again))
    share = (FIRST_AGAIN * _WORTH_TAPES + len(again)) / (_WORTH_TAPES + tapes)
    return SecondPlays(share, tapes, len(again))
