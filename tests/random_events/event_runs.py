"""A run of events at a new window, up to the first fault; and the shortest list that leads to that fault."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from tests.random_events import begun_shops, kept_work
from tests.random_events.begun_shops import Begun
from tests.random_events.event_playing import Player, press
from tests.random_events.event_records import Does, Event
from tests.random_events.played_window import PlayedWindow, told

_NUMBERS = count(1)
SHRUNK_FOR_S = 240.0
"""How long shorter lists are tried."""


@dataclass(frozen=True)
class Fault:
    """What went wrong after ``events``."""

    sentence: str
    events: tuple[Event, ...]

    @property
    def kind(self) -> str:
        """What stays the same when events are left out: the last line, without figures."""
        last = self.sentence.strip().splitlines()[-1] if self.sentence.startswith("Trace") else self.sentence
        return "".join(sign for sign in last.split(":")[0] if not sign.isdigit())


class Run:
    """Plays events about one screen, each run in a folder of its own."""

    def __init__(self, screen: str, begun: Begun, bugs: list[str], folder: Path) -> None:
        self._screen = screen
        self._begun = begun
        self._bugs = bugs
        self._folder = folder

    def about(self, screen: str) -> Run:
        """The same, about another screen."""
        return Run(screen, self._begun, self._bugs, self._folder)

    def first_fault(self, events: Sequence[Event]) -> Fault | None:
        """Plays the events at a new window; the fault with those played by then, None where all went well."""
        self._bugs.clear()
        place = self._opened()
        player = Player(place, self._screen)
        try:
            for number, event in enumerate(events, 1):
                sentence = self._play(player, event)
                if sentence:
                    return Fault(sentence, tuple(events[:number]))
            sentence = self._end(place)
            return Fault(sentence, tuple(events)) if sentence else None
        finally:
            place.window.closing.ask_nothing()
            place.root.desk.work.abandon()
            place.window.close()
            place.let_go()

    def _opened(self) -> PlayedWindow:
        folder = self._folder / f"{self._screen}-{next(_NUMBERS)}"
        is_first_run = self._screen == "first-run"
        file = folder / "shop.sqlite" if is_first_run else begun_shops.copied(self._begun, folder)
        folder.mkdir(exist_ok=True)
        place = PlayedWindow(file, self._begun, self._bugs)
        place.window.go(self._screen)
        place.settle()
        return place

    def _play(self, player: Player, event: Event) -> str:
        """The sentence on what went wrong, or nothing."""
        place = player.place
        try:
            before = kept_work.held(place)
            if event.does is Does.CLOSE:
                wrong = self._close_and_open(place, event)
            else:
                player.play(event)
                wrong = list(kept_work.lost(place, before, event, player.hit))
        except Exception as error:  # noqa: BLE001  # raised in the window's own thread, or by the harness: both are told
            wrong = [told(error)]
        return next(iter((*self._bugs, *wrong)), "")

    def _close_and_open(self, place: PlayedWindow, event: Event) -> list[str]:
        """Closed in the middle of saving: the last key, and what it began, are still under way."""
        if event.text:
            press(place.in_front(), event.text)
        before, where = kept_work.held(place), place.root._where
        if not place.close():
            return []
        place.let_go()
        place.open()
        is_same_shop = place.root._where == where  # practice is left by closing
        return list(kept_work.restored(place, before)) if is_same_shop else []

    def _end(self, place: PlayedWindow) -> str:
        """What is still under way may fail, too."""
        place.settle()
        return next(iter(self._bugs), "")


def shortest(fault: Fault, play: Callable[[Sequence[Event]], Fault | None]) -> Fault:
    """The shortest list found that leads to the same kind of fault (Zeller and Hildebrandt 2002, ddmin)."""
    until = time.monotonic() + SHRUNK_FOR_S
    least = _end_alone(fault, play)
    parts = 2
    while len(least.events) > 1 and time.monotonic() < until:
        shorter = _without_a_part(least, parts, play, until)
        if shorter is not None:
            least, parts = shorter, max(2, parts - 1)
        elif parts >= len(least.events):
            break
        else:
            parts = min(2 * parts, len(least.events))
    return least


def _end_alone(fault: Fault, play: Callable[[Sequence[Event]], Fault | None]) -> Fault:
    """The last events alone, where they are enough: faults seldom have a long history."""
    for length in (4, 16, 64, 256, 1024):
        if length < len(fault.events):
            found = play(fault.events[-length:])
            if found is not None and found.kind == fault.kind:
                return found
    return fault


def _without_a_part(
    fault: Fault, parts: int, play: Callable[[Sequence[Event]], Fault | None], until: float
) -> Fault | None:
    size = max(1, len(fault.events) // parts)
    for begin in range(0, len(fault.events), size):
        if time.monotonic() > until:
            return None
        rest = (*fault.events[:begin], *fault.events[begin + size :])
        found = play(rest) if rest else None
        if found is not None and found.kind == fault.kind:
            return found
    return None
