"""The window under the faults of a server, while others work in the same shop."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

from sqlalchemy import select

from core.services.records_door import Shop
from core.store.job_tables import JobRow
from core.store.unit import Unit
from tests.eight_tills import till_faults
from tests.eight_tills.till_nursery import ROOT, Nursery
from tests.eight_tills.till_run import Phase, SharedShop, TillRun
from tests.eight_tills.window_at_work import WindowReport

BLOCKED_S = 0.1
"""The window never stays away from its events for longer of its own doing."""
SILENT_S = 5.0
"""Nobody who waits for the records is left without a word for longer."""
TILLS = 2
FAULTS = (
    till_faults.CUT,
    till_faults.SILENT,
    till_faults.SWALLOWED,
    till_faults.PROCESS_KILLED,
    till_faults.SERVER_KILLED,
)
CLOSES_S = 30.0


def work(shop: SharedShop, folder: Path, *, rounds: int, pause_s: float, seed: int) -> WindowReport:
    """A window behind the first link for as long as each fault struck so many times."""
    behind = SharedShop(shop.kind, shop.where, shop.links[:1], shop.server)
    with ExitStack() as kept:
        nursery = kept.enter_context(Nursery(folder))
        run = kept.enter_context(
            TillRun(behind, nursery, folder, seed=seed, tills=TILLS, leaves_settings=True)
        )
        window = _begin(behind, folder, run.began)
        kept.callback(window.kill)
        run.live_through(Phase("opening", (), 20), pause_s)
        for _ in range(rounds):
            run.live_through(Phase("window", FAULTS, 1), pause_s)
        run.live_through(Phase("afterwards", (), 20), pause_s)
        run.end()
        try:
            window.wait(CLOSES_S)
        except subprocess.TimeoutExpired:
            last = (folder / "stacks.txt").read_text(encoding="utf-8").rsplit("Timeout", 1)[-1]
            raise AssertionError(f"the window did not close; it was in\n{last}") from None
    return WindowReport(**json.loads((folder / "window.json").read_text(encoding="utf-8")))


def problems(shop: SharedShop, report: WindowReport) -> Iterator[str]:
    """What does not hold, a line each."""
    if report.own > BLOCKED_S:
        yield f"the window stood still for {1000 * report.own:.0f} ms"
    if report.closing > BLOCKED_S:
        yield f"the window stood still for {1000 * report.closing:.0f} ms while it was being closed"
    if report.silent > SILENT_S:
        yield f"nothing was said for {report.silent:.1f} s"
    yield from report.bugs
    with Shop.open(shop.where, create=False) as opened:
        orders = opened.ask(_orders)
        yield from opened.verify()
    booked = Counter(name for name, _ in orders)
    for name in report.names:
        if booked[name] > 1 or (name in report.booked and not booked[name]):
            yield f"the box of {name} is there {booked[name]} times"
    for name, number in report.booked.items():
        if (name, number) not in orders:
            yield f"{name} was told of order {number}"


def lines(report: WindowReport) -> Iterator[str]:
    """The figures as they are printed."""
    stops = (report.wall, report.given, report.own, report.opening, report.closing)
    wall, given, own, opening, closing = (f"{1000 * each:.0f} ms" for each in stops)
    yield f"window    {len(report.booked)} of {len(report.names)} boxes told as booked; {report.beats} beats"
    yield f"          longest stop {own} of its own ({given} without waiting for a core, {wall} by the clock)"
    yield f"          longest silence {report.silent:.1f} s; stops while opening {opening}, closing {closing}"


def _begin(shop: SharedShop, folder: Path, began: float) -> subprocess.Popen[bytes]:
    home = folder / "home"
    home.mkdir()
    places = {f"XDG_{each}_HOME": str(home / each.lower()) for each in ("DATA", "STATE", "CACHE", "CONFIG")}
    surroundings = {**os.environ, **places, "HOME": str(home), "QT_QPA_PLATFORM": "offscreen"}
    program = [sys.executable, "-m", "tests.eight_tills.window_at_work", shop.way(0), str(folder), str(began)]
    return subprocess.Popen(program, cwd=ROOT, env=surroundings)


def _orders(unit: Unit) -> set[tuple[str, str]]:
    """For whom each order was booked: whose it is now somebody else may have changed since."""
    booked = ((job.quote.inventory.customer, job.number) for job in unit.session.scalars(select(JobRow)))
    return {(customer.name, number) for customer, number in booked if customer is not None}
