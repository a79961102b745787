"""``python -m tests.power_cuts [cuts]``: over a thousand cuts, then some with guards out, which must show."""

from __future__ import annotations

import os
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

from core.store.shop_files import restore_journal
from tests.power_cuts import cut_scenarios, kept_scenarios
from tests.power_cuts.cut_disk import Model
from tests.power_cuts.cut_scenarios import Scenario
from tests.power_cuts.system_calls import Trace, is_possible
from tests.support.booked import set_up

CUTS = 1_200
SEED = 20260303
ALL = (*cut_scenarios.ALL, *kept_scenarios.ALL)
TEETH = (
    (cut_scenarios.BOOKINGS, "NORMAL", 0.3),
    (cut_scenarios.FIRST_START, "flush_folder", 0.0),
    (cut_scenarios.FIRST_START, "flush", 0.0),
    (cut_scenarios.BACKUPS, "flush_folder", 0.0),
    (cut_scenarios.BACKUPS, "flush", 0.0),
    (cut_scenarios.RESTORES, "flush_folder", 0.0),
    (cut_scenarios.RESTORES, "settle", 0.0),
    (kept_scenarios.MOVES, "flush", 0.0),
)
"""Each with the guard that is out, and the share of cuts that must lose something then (more than that)."""
TEETH_CUTS = 60


def main(arguments: Sequence[str]) -> int:
    """Cuts every scenario on both disks; 1 when something acknowledged was lost or a guard was not missed."""
    if not is_possible():
        print("Only strace on Linux tells what was flushed.")
        return 4
    count = int(arguments[0]) if arguments else CUTS
    each = -(-count // (len(ALL) * len(Model)))
    with tempfile.TemporaryDirectory(prefix="tapewright-cuts-") as folder:
        place, empty = Path(folder), Path(folder) / "empty.sqlite"
        set_up(empty)
        lost = sum(_cut(scenario, empty, place, each) for scenario in ALL)
        total = each * len(ALL) * len(Model)
        print(f"== {lost} of {total} cuts lost something that was acknowledged", flush=True)
        missed = sum(not _shows(*one, empty, place) for one in TEETH)
    return 1 if lost or missed else 0


def _cut(scenario: Scenario, empty: Path, place: Path, count: int) -> int:
    begun = time.monotonic()
    trace, lost = scenario.trace(empty, _folder(place, scenario, "guarded")), 0
    for model in Model:
        broken = scenario.broken(trace, count, SEED, model, place / "after")
        lost += len(broken)
        print(f"   {scenario.name}, {model.value}: {len(broken)} of {count}", *broken[:3], sep="\n      ")
    print(f"   ({len(trace.calls)} calls, {time.monotonic() - begun:.0f} s)", flush=True)
    return lost


def _shows(scenario: Scenario, guard: str, share: float, empty: Path, place: Path) -> bool:
    """Whether the cuts find out that a guard is out."""
    trace = scenario.trace(empty, _folder(place, scenario, guard), guard)
    broken = _unsettled(scenario, trace, place) if guard == "settle" else _broken(scenario, trace, place)
    print(f"   without {guard}, {scenario.name}: {broken} of {TEETH_CUTS} lose something", flush=True)
    return broken > share * TEETH_CUTS


def _broken(scenario: Scenario, trace: Trace, place: Path) -> int:
    return len(scenario.broken(trace, TEETH_CUTS, SEED, Model.STRICT, place / "after"))


def _unsettled(scenario: Scenario, trace: Trace, place: Path) -> int:
    settle = restore_journal.settle
    restore_journal.settle = lambda path: None
    try:
        return _broken(scenario, trace, place)
    finally:
        restore_journal.settle = settle


def _folder(place: Path, scenario: Scenario, guard: str) -> Path:
    return place / f"{scenario.name.replace(' ', '-').replace(',', '')}-{guard}"


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    sys.exit(main(sys.argv[1:]))
