"""A run: tills are begun, harmed and begun again, and watched for any that waits longer than it may."""

from __future__ import annotations

import os
import random
import signal
import time
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic

import psycopg

from core.store.engines import BUSY_SECONDS, CONNECT_SECONDS
from core.store.silence import SILENT_SECONDS
from tests.eight_tills.killable_server import KillableServer
from tests.eight_tills.till_at_work import TillOrder
from tests.eight_tills.till_faults import Fault
from tests.eight_tills.till_journal import JournalReader
from tests.eight_tills.till_nursery import Nursery, is_alive
from tests.support.faults.lossy_link import LossyLink

TILLS = 8
LOOK_S = 0.05
BUSY_MACHINE_S = 20.0
"""What eight processes may lose by waiting for a core (an assumption; with twenty other programs at work five
seconds were not enough). A deadlock lasts for ever."""
LONGEST_S = {
    "sqlite": BUSY_SECONDS + BUSY_MACHINE_S,
    "postgres": 2 * SILENT_SECONDS + CONNECT_SECONDS + BUSY_SECONDS + BUSY_MACHINE_S,
}
"""How long one attempt may take at most. On a server: an old connection is silent, another is made, somebody
else writes, and then the COMMIT is not answered."""
BETWEEN = 3
"""Steps that are answered between two faults."""
PHASE_S = 900.0
"""A phase that takes longer does not come to its end."""


@dataclass(frozen=True, slots=True)
class Phase:
    """A stretch of a run with its own faults."""

    name: str
    faults: tuple[Fault, ...]
    steps: int
    """How many must have been answered before it is over; each fault strikes at least once."""
    rounds: int | None = None
    """How often each fault strikes at most."""

    @property
    def most(self) -> float:
        return float("inf") if self.rounds is None else self.rounds * len(self.faults)


@dataclass
class SharedShop:
    """Where the tills work."""

    kind: str
    where: str
    """How the shop is reached when nothing is in the way."""
    links: Sequence[LossyLink] = ()
    server: KillableServer | None = None

    def way(self, number: int) -> str:
        """How one of the tills gets there."""
        return self.links[number % len(self.links)].url if self.links else self.where


@dataclass
class Happened:
    """What is known of a run besides its journals."""

    phases: list[tuple[str, float, float]] = field(default_factory=list)
    frozen: list[tuple[str, float, float]] = field(default_factory=list)
    """Tills that were stopped for a while: theirs is no waiting."""
    stuck: list[str] = field(default_factory=list)
    struck: int = 0
    killed: int = 0


class TillRun:
    """Eight tills on one shop. Use as a context: they are gone afterwards."""

    def __init__(
        self,
        shop: SharedShop,
        nursery: Nursery,
        folder: Path,
        *,
        seed: int,
        tills: int = TILLS,
        patience_s: float | None = None,
        without: str = "",
        leaves_settings: bool = False,
    ) -> None:
        self.shop, self.dice, self.happened = shop, random.Random(seed), Happened()
        self.patience_s = SILENT_SECONDS if patience_s is None else patience_s
        self._nursery, self._folder, self._seed = nursery, folder, seed
        self._without, self._leaves_settings = without, leaves_settings
        self.began = monotonic()
        self._stop = folder / "stop"
        self._begun = 0
        self._pids: dict[str, int] = {}
        self._begun_at: dict[str, float] = {}
        self._frozen: dict[str, float] = {}
        self.journals = {name: JournalReader(folder / f"{name}.jsonl") for name in _names(tills)}
        for name in self.journals:
            self._begin(name)

    @property
    def answered(self) -> int:
        """Steps that were acknowledged or refused so far."""
        return sum(bool(each.outcome) for one in self.journals.values() for each in one.intents.values())

    # --- what faults do ------------------------------------------------------------------

    def kill_one(self) -> None:
        self._kill(self.dice.choice(self._alive()))
        self.happened.killed += 1

    def freeze_one(self) -> None:
        name = self.dice.choice(self._alive())
        self._frozen[name] = monotonic()
        os.kill(self._pids[name], signal.SIGSTOP)

    def thaw(self) -> None:
        for name, since in self._frozen.items():
            with suppress(ProcessLookupError):
                os.kill(self._pids[name], signal.SIGCONT)
            self.happened.frozen.append((name, since, monotonic()))
        self._frozen.clear()

    def begin_again(self) -> None:
        for name in set(self.journals) - set(self._alive()):
            self._begin(name)

    # --- its course ----------------------------------------------------------------------

    def live_through(self, phase: Phase, pause_s: float) -> None:
        """Until enough steps were answered.

        Between two faults pass ``pause_s`` seconds, and as long as it takes to answer some steps: on a busy
        machine the next fault would else always come before the first answer.
        """
        begun, struck, target = monotonic(), 0, self.answered + phase.steps
        while self.answered < target or struck < len(phase.faults):
            if monotonic() - begun > PHASE_S:
                self.happened.stuck.append(f"{phase.name}: {self.answered} of {target} steps in {PHASE_S} s")
                break
            if phase.faults and struck < phase.most:
                fault = phase.faults[struck % len(phase.faults)]
                self._suffer(fault)
                struck += 1
            between = self.answered + BETWEEN
            self.watch(pause_s)
            while self.answered < min(between, target) and monotonic() - begun < PHASE_S:
                self.watch(LOOK_S)
        self.happened.phases.append((phase.name, begun, monotonic()))
        self.happened.struck += struck

    def end(self) -> None:
        """All tills settle what they sent, and end; whoever does not is stuck."""
        self._stop.touch()
        self.begin_again()
        given_up = monotonic() + 2 * LONGEST_S[self.shop.kind] + BUSY_MACHINE_S
        while self._alive() and monotonic() < given_up:
            self.watch(LOOK_S)
        self._read()
        for name, journal in self.journals.items():
            if not journal.has_ended:
                self.happened.stuck.append(f"{name} did not end: {self._log(name)}")

    def __enter__(self) -> TillRun:
        return self

    def __exit__(self, *_: object) -> None:
        self.thaw()
        for name in self._alive():
            self._kill(name)

    def _suffer(self, fault: Fault) -> None:
        fault.strike(self)
        try:
            self.watch(fault.lasts_s(self))
        finally:
            fault.heal(self)

    def watch(self, seconds: float) -> None:
        """Let the tills work for so long, and name whoever is stuck."""
        until = monotonic() + seconds
        while True:
            self._read()
            self._name_the_stuck()
            left = until - monotonic()
            if left <= 0:
                return
            time.sleep(min(LOOK_S, left))

    def _read(self) -> None:
        for journal in self.journals.values():
            journal.read_on()

    def _name_the_stuck(self) -> None:
        """Whoever waits longer than any time-out allows is told by name, and ended."""
        for name in self._alive():
            for intent in self.journals[name].unanswered if name not in self._frozen else ():
                attempt = intent.attempts[-1]
                waits = monotonic() - max([attempt.at, self._begun_at[name], *self._thawed(name)])
                if attempt.ended is None and waits > LONGEST_S[self.shop.kind]:
                    self._begun_at[name] = monotonic()  # told once
                    told = f"{name} waits {waits:.0f} s with {intent.step} ({intent.command})"
                    self.happened.stuck.append("\n      ".join([told, *self._waits()]))
                    self._kill(name)

    def _kill(self, name: str) -> None:
        with suppress(ProcessLookupError):
            os.kill(self._pids[name], signal.SIGKILL)

    def _thawed(self, name: str) -> list[float]:
        return [until for one, _, until in self.happened.frozen if one == name]

    def _waits(self) -> list[str]:
        try:
            return [] if self.shop.server is None else self.shop.server.waits()
        except psycopg.Error as error:
            return [str(error)]

    def _alive(self) -> list[str]:
        return [name for name, pid in self._pids.items() if is_alive(pid)]

    def _begin(self, name: str) -> None:
        number = list(self.journals).index(name)
        self._begun += 1
        order = TillOrder(
            name=name,
            where=self.shop.way(number),
            journal=str(self._folder / f"{name}.jsonl"),
            stop=str(self._stop),
            began=self.began,
            seed=self._seed + 1000 * self._begun,
            numbers_from=1 + 40 * self._begun,
            patience_s=self.patience_s,
            without=self._without,
            leaves_settings=self._leaves_settings,
        )
        self._pids[name] = self._nursery.begin(order)
        self._begun_at[name] = monotonic()

    def _log(self, name: str) -> str:
        log = Path(f"{self._folder / name}.jsonl.log")
        return log.read_text(encoding="utf-8")[-2000:] if log.exists() else ""


def _names(tills: int) -> list[str]:
    return [f"till-{number}" for number in range(1, tills + 1)]
