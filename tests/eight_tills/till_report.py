"""A run as a table: what became of the steps that began while each fault was at work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from core.services.records_door import Shop
from core.store.engines import BUSY_SECONDS
from tests.eight_tills import stored_steps, till_reckoning
from tests.eight_tills.till_at_work import RunningClock
from tests.eight_tills.till_journal import Attempt, Intent
from tests.eight_tills.till_run import LONGEST_S, Happened, TillRun

HEAD = (
    "engine    fault                      sent  acknowledged  retried  lost  doubled  refused  longest wait"
)
AT_ONCE = 0.8
"""Whoever is told sooner than this share of the time-out that somebody else writes did not wait."""


@dataclass(frozen=True, slots=True)
class Row:
    """One phase of a run."""

    engine: str
    fault: str
    sent: int
    acknowledged: int
    retried: int
    lost: int
    doubled: int
    refused: int
    longest_s: float

    def line(self) -> str:
        return (
            f"{self.engine:<9} {self.fault:<25}{self.sent:>6}{self.acknowledged:>14}{self.retried:>9}"
            f"{self.lost:>6}{self.doubled:>9}{self.refused:>9}{self.longest_s:>12.1f} s"
        )


@dataclass(frozen=True, slots=True)
class TillReport:
    """What is known when all tills are gone."""

    rows: tuple[Row, ...]
    problems: tuple[str, ...]
    kinds: int
    """How many of the registered steps were acknowledged at least once."""
    unfit: int
    happened: Happened

    @property
    def lines(self) -> Iterator[str]:
        for row in self.rows:
            yield row.line()
        yield (
            f"          {self.kinds} kinds of steps; {self.happened.struck} faults, {self.happened.killed}"
            f" tills killed; {self.unfit} scenes did not fit the shop they found"
        )


def report(run: TillRun) -> TillReport:
    """Opens the shop as nobody else has it open any more, and compares."""
    intents = {key: each for one in run.journals.values() for key, each in one.intents.items()}
    with Shop.open(run.shop.where, clock=RunningClock(run.began), who="Kim", create=False) as shop:
        stored = shop.ask(stored_steps.read)
        found = [*shop.ask(lambda unit: list(till_reckoning.problems(unit, intents, stored))), *shop.verify()]
    lost, doubled = till_reckoning.lost(intents, stored), till_reckoning.doubled(intents, stored)
    found += [f"{each.step} ({each.command}) of {each.till} is lost" for each in lost]
    found += [f"{each.step} ({each.command}) of {each.till} is there twice" for each in doubled]
    found += [f"{key} is there, and nobody sent it" for key in till_reckoning.nobodys(intents, stored)]
    found += _told_of_attempts(run, intents)
    found += [trace for one in run.journals.values() for trace in one.broke]
    found += run.happened.stuck
    return TillReport(
        rows=tuple(_rows(run, intents, lost, doubled)),
        problems=tuple(found),
        kinds=len({each.step for each in intents.values() if each.outcome == "acknowledged"}),
        unfit=sum(len(one.unfit) for one in run.journals.values()),
        happened=run.happened,
    )


def _told_of_attempts(run: TillRun, intents: Mapping[str, Intent]) -> Iterator[str]:
    """Whoever waited too long, and whoever was told to wait and did not."""
    for each in intents.values():
        for attempt in each.attempts:
            waited = _waited(run, each, attempt)
            if waited > LONGEST_S[run.shop.kind]:
                yield f"{each.till} waited {waited:.1f} s with {each.step}"
            stood = (attempt.ended or attempt.at) - attempt.at
            if attempt.outcome == "busy" and stood < AT_ONCE * BUSY_SECONDS:
                yield f"{each.till} was sent away after {stood:.2f} s with {each.step}: {attempt.said}"


def _rows(
    run: TillRun, intents: Mapping[str, Intent], lost: Sequence[Intent], doubled: Sequence[Intent]
) -> Iterator[Row]:
    phases = run.happened.phases
    for number, (name, begun, _) in enumerate(phases):
        until = phases[number + 1][1] if number + 1 < len(phases) else float("inf")
        here = [each for each in intents.values() if number == 0 or each.attempts[0].at >= begun]
        here = [each for each in here if each.attempts[0].at < until]
        yield Row(
            engine=run.shop.kind,
            fault=name,
            sent=len(here),
            acknowledged=sum(each.outcome == "acknowledged" for each in here),
            retried=sum(len(each.attempts) - 1 for each in here),
            lost=sum(each in lost for each in here),
            doubled=sum(each in doubled for each in here),
            refused=sum(each.outcome == "refused" for each in here),
            longest_s=max((_waited(run, each, one) for each in here for one in each.attempts), default=0.0),
        )


def _waited(run: TillRun, intent: Intent, attempt: Attempt) -> float:
    """Without the time in which the till itself was stopped; nothing where it was killed."""
    if attempt.ended is None:
        return 0.0
    stopped = sum(
        max(0.0, min(until, attempt.ended) - max(since, attempt.at))
        for name, since, until in run.happened.frozen
        if name == intent.till
    )
    return attempt.ended - attempt.at - stopped
