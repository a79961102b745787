"""What happens to tills, to their link and to their server; each ends after a while."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tests.eight_tills.till_run import TillRun

Deed = Callable[["TillRun"], None]


@dataclass(frozen=True, slots=True)
class Fault:
    """Begins, lasts so many seconds, and is over."""

    name: str
    strike: Deed
    heal: Deed
    lasts_s: Callable[[TillRun], float]


def _after(seconds: float) -> Callable[[TillRun], float]:
    return lambda run: seconds * run.dice.uniform(0.5, 1.5)


def _nothing(_: TillRun) -> None:
    """It heals by itself."""


def _cut(run: TillRun) -> None:
    run.dice.choice(run.shop.links).cut()


def _silence(run: TillRun) -> None:
    run.dice.choice(run.shop.links).swallows_answers = True


def _swallow_commit(run: TillRun) -> None:
    """The next COMMIT of somebody who writes arrives, and its answer does not."""
    run.dice.choice(run.shop.links).swallows_after = (b"INSERT INTO events", b"COMMIT")


def _heal_links(run: TillRun) -> None:
    for link in run.shop.links:
        link.heal()


def _kill_server(run: TillRun) -> None:
    assert run.shop.server is not None
    run.shop.server.kill()


def _kill_server_process(run: TillRun) -> None:
    assert run.shop.server is not None
    run.shop.server.kill_one_at_work()


def _start_server(run: TillRun) -> None:
    assert run.shop.server is not None
    run.shop.server.start_again()


def _silent_for(run: TillRun) -> float:
    return 1.2 * run.patience_s


KILLED = Fault("a till killed", lambda run: run.kill_one(), lambda run: run.begin_again(), _after(0.2))
FROZEN = Fault("a till frozen", lambda run: run.freeze_one(), lambda run: run.thaw(), _after(1.0))
CUT = Fault("link cut", _cut, _heal_links, _after(0.6))
SILENT = Fault("link silent", _silence, _heal_links, _silent_for)
SWALLOWED = Fault("answer to COMMIT lost", _swallow_commit, _heal_links, _silent_for)
PROCESS_KILLED = Fault("server process killed", _kill_server_process, _nothing, _after(1.0))
SERVER_KILLED = Fault("server killed", _kill_server, _start_server, _after(0.5))
