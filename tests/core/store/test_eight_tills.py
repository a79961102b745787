"""Tills killed, frozen and cut off while they work: nothing is lost, doubled, overwritten or stuck.

A small share of ``python -m tests.eight_tills``, which also shows that each guard is missed when it is out.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from time import monotonic

import pytest
from sqlalchemy import text

from core.services import jobs
from core.services.records_door import Shop
from tests.eight_tills import stored_steps, till_engines, till_faults
from tests.eight_tills.till_nursery import Nursery
from tests.eight_tills.till_report import TillReport, report
from tests.eight_tills.till_run import LONGEST_S, Phase, TillRun
from tests.sent_again import step_scenes
from tests.support.booked import KINDS, Desk, command
from tests.support.own_postgres import programs
from tests.support.patience import PATIENCE_S
from tests.support.postgres import WITHOUT

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="only there a till is begun in no time")

SEED = 20260303
TILLS = 4
STEPS = 20
SILENT_S = 0.5
PAUSE_S = 0.4
BRIEF = {
    "sqlite": (till_faults.KILLED, till_faults.FROZEN),
    "postgres": (
        till_faults.KILLED,
        till_faults.CUT,
        till_faults.SWALLOWED,
        till_faults.PROCESS_KILLED,
        till_faults.SERVER_KILLED,
    ),
}


@pytest.fixture(scope="module")
def nursery(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Nursery]:
    with Nursery(tmp_path_factory.mktemp("nursery")) as made:
        yield made


def _lived(kind: str, nursery: Nursery, folder: Path) -> TillReport:
    if kind == "postgres" and programs() is None:
        pytest.skip(WITHOUT)
    with (
        till_engines.made(kind, folder) as shop,
        TillRun(shop, nursery, folder, seed=SEED, tills=TILLS, patience_s=SILENT_S) as run,
    ):
        run.live_through(Phase("all", BRIEF[kind], STEPS, rounds=1), PAUSE_S)
        run.end()
        return report(run)


def test_a_row_written_over_what_another_one_wrote_is_found(file_desk: Desk) -> None:
    """Two tills read version 1; each writes version 2."""
    shop, number = file_desk.shop, file_desk.book().number
    shop.run(jobs.correct_fields, number, phone="303 555 0101")
    with shop.database.writing.begin() as connection:
        connection.execute(text("UPDATE customers SET version = 1"))
    shop.run(jobs.correct_fields, number, phone="303 555 0102")
    found = shop.ask(lambda unit: list(stored_steps.overwritten(unit, stored_steps.read(unit))))
    assert found == ["customers 1 was written 3 times, and is at version 2"]


def test_whoever_was_erased_was_not_stored_twice(file_desk: Desk) -> None:
    """An erasure empties every command and the rows of the person; that is no second storing."""
    shop, job = file_desk.shop, file_desk.book()
    shop.run(jobs.correct_fields, job.number, phone="303 555 0101")
    step, args, named = step_scenes.gone_home(file_desk)
    before = shop.ask(stored_steps.read).commands
    shop.once(command(), step, *args, **named)
    stored = shop.ask(stored_steps.read)
    assert set(stored.commands.values()) == {1}
    assert len(stored.commands) == len(before) + 1
    assert shop.ask(lambda unit: list(stored_steps.overwritten(unit, stored))) == []


def test_a_till_that_waits_longer_than_any_time_out_is_told_by_name(
    nursery: Nursery, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(LONGEST_S, "sqlite", 0.3)
    with (
        till_engines.made("sqlite", tmp_path) as shop,
        Shop.open(shop.where, create=False) as other,
        other.database.writing.begin(),
        TillRun(shop, nursery, tmp_path, seed=SEED, tills=1) as run,
    ):
        given_up = monotonic() + PATIENCE_S
        while not run.happened.stuck and monotonic() < given_up:
            run.watch(0.05)
    assert run.happened.stuck[0].startswith("till-1 waits ")


@pytest.mark.parametrize("kind", KINDS)
def test_eight_tills_under_every_fault_lose_and_double_nothing(
    kind: str, nursery: Nursery, tmp_path: Path
) -> None:
    found = _lived(kind, nursery, tmp_path)
    assert found.problems == ()
    assert found.happened.killed > 0
    (row,) = found.rows
    assert row.sent >= STEPS
    assert found.happened.struck == len(BRIEF[kind])
