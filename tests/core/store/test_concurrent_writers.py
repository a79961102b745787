"""Several tills at once, and the power going out: nothing acknowledged is ever lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from core.model import numbers
from core.model.names import JobNumber
from core.services import jobs
from core.services.records_door import Shop
from core.store import lookup
from core.store.tables import JobRow
from core.store.unit import Unit
from tests.support.booked import Clock, Desk, command, quoted

ROOT = Path(__file__).parents[3]
TILLS = 4
BOXES = 12

TILL = """
import sys
from core.services import jobs
from core.services.records_door import Shop
from tests.support.booked import Clock, command, quoted

where, boxes = sys.argv[1], int(sys.argv[2])
with Shop.open(where, clock=Clock(), who="till", create=False) as shop:
    quote = quoted(shop)
    print("open", flush=True)
    sys.stdin.readline()
    booked = 0
    while booked != boxes:
        print(shop.once(command(), jobs.book, quote).answer.number, flush=True)
        booked += 1
"""


def _till(where: str, boxes: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", TILL, where, str(boxes)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )


def _begin(till: subprocess.Popen[str]) -> None:
    assert till.stdout is not None
    assert till.stdin is not None
    assert till.stdout.readline() == "open\n"
    till.stdin.write("\n")
    till.stdin.flush()


def test_four_tills_book_without_gaps_and_lose_nothing(desk: Desk) -> None:
    tills = [_till(desk.where, BOXES) for _ in range(TILLS)]
    for till in tills:
        _begin(till)
    said = [till.communicate(timeout=120) for till in tills]
    assert [till.returncode for till in tills] == [0] * TILLS, said
    acknowledged = [number for out, _ in said for number in out.split()]
    expected = [numbers.job_number(each) for each in range(1, TILLS * BOXES + 1)]
    assert sorted(acknowledged) == expected
    assert [job.number for job in desk.shop.ask(jobs.open_jobs)] == expected
    assert desk.shop.verify() == ()


def test_the_write_lock_is_taken_before_anything_is_read(file_desk: Desk) -> None:
    """Without it, two tills that read first and write then would both be told that they had the next number.

    Shown on the two halves of one booking: the second till must not get between them.
    """
    seen: list[str] = []
    held = file_desk.shop.database.writing.raw_connection()
    held.dbapi_connection.set_trace_callback(seen.append)  # type: ignore[union-attr]  # the driver's own
    held.close()
    file_desk.book()
    assert next(each for each in seen if not each.startswith("PRAGMA")) == "BEGIN IMMEDIATE"


def test_tills_that_change_the_same_thing_wait_for_each_other(desk: Desk) -> None:
    """Nobody is told of a conflict: who comes second reads what the first one stored."""
    number = desk.book().number

    def till() -> None:
        with Shop.open(desk.where, clock=desk.clock) as shop:
            for _ in range(10):
                shop.run(_one_more, number)

    with ThreadPoolExecutor(TILLS) as tills:
        for done in [tills.submit(till) for _ in range(TILLS)]:
            done.result(timeout=60)
    assert desk.shop.ask(jobs.get, number).tapes[0].played_minutes == 10 * TILLS


def _one_more(unit: Unit, number: JobNumber) -> None:
    row = lookup.job_row(unit, number).tapes[0]
    row.played_minutes = (row.played_minutes or 0.0) + 1


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal on this system")
def test_a_till_that_is_killed_has_lost_nothing_it_acknowledged(desk: Desk) -> None:
    till = _till(desk.where, -1)
    _begin(till)
    assert till.stdout is not None
    acknowledged = [till.stdout.readline().strip() for _ in range(10)]
    os.kill(till.pid, signal.SIGKILL)
    rest, _ = till.communicate(timeout=30)
    acknowledged += rest.split()
    with Shop.open(desk.where, clock=Clock(), create=False) as shop:
        kept = [job.number for job in shop.ask(jobs.open_jobs)]
        assert kept[: len(acknowledged)] == acknowledged
        assert len(kept) - len(acknowledged) <= 1  # stored, and killed before it could say so
        assert shop.verify() == ()
        assert shop.run(jobs.book, quoted(shop)).number == numbers.job_number(len(kept) + 1)


def test_a_command_whose_answer_was_lost_may_be_sent_again(desk: Desk) -> None:
    sent, quote = command(), quoted(desk.shop)
    desk.shop.once(sent, jobs.book, quote)
    with Shop.open(desk.where, clock=desk.clock) as other:
        assert other.once(sent, jobs.book, quote).answer.number == "000018"

    def count(unit: Unit) -> int:
        return unit.session.query(JobRow).count()

    assert desk.shop.ask(count) == 1
