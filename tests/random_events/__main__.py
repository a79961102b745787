"""``python -m tests.random_events [--screen NAME] [--count N] [--seed S] [--replay FILE]``.

Sends N events (10,000 unless told) to each screen and prints, for a fault, the seed and the shortest list of
events that leads to it; exit code 1 where there is one. ``--replay`` plays such a list again.
"""

from __future__ import annotations

import argparse
import faulthandler
import os
import shutil
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

os.environ["QT_QPA_PLATFORM"] = "offscreen"
os.environ["HOME"] = tempfile.mkdtemp(prefix="tapewright-events-")
os.environ["XDG_DATA_HOME"] = os.environ["XDG_CONFIG_HOME"] = os.environ["HOME"]
os.environ["XDG_CACHE_HOME"] = os.environ["XDG_DOCUMENTS_DIR"] = os.environ["HOME"]

from PySide6.QtWidgets import QApplication  # Qt reads where to show windows when it is imported

from gui.toolkit import theme
from tests.random_events import begun_shops, event_choice, event_runs
from tests.random_events.event_records import Event, of_lines, to_lines
from tests.random_events.event_runs import Fault, Run
from tests.random_events.played_window import kept_in

SEED = 20261201
COUNT = 10_000
A_WINDOW = 500
"""Events at one window: then another is opened, so that a fault has no longer history."""


def main(arguments: Sequence[str]) -> int:
    """Exit code 1 where something went wrong."""
    asked = _asked(arguments)
    faulthandler.enable()
    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    theme.apply(application)
    home = os.environ["HOME"]
    os.chdir(home)
    faults, begun = 0, begun_shops.make(Path(home))
    for screen in [asked.screen] if asked.screen else event_choice.SCREENS:
        with tempfile.TemporaryDirectory(dir=home) as folder, kept_in(Path(folder), begun) as bugs:
            run = Run(screen, begun, bugs, Path(folder))
            if asked.replay is not None:
                fault = run.first_fault(of_lines(asked.replay.read_text()))
                print(fault.sentence if fault else "no fault", flush=True)
                faults += fault is not None
            else:
                faults += _sent(run, screen, asked.count, asked.seed)
    shutil.rmtree(home, ignore_errors=True)
    return 1 if faults else 0


def _sent(run: Run, screen: str, count: int, seed: int) -> int:
    """Sends all events, window after window; returns how many windows ended with a fault."""
    began, faults = time.monotonic(), 0
    seen: set[str] = set()
    for place, events in enumerate(_windows(event_choice.drawn(screen, count, seed))):
        fault = run.first_fault(events)
        if fault is not None:
            faults += 1
            if fault.kind not in seen:
                seen.add(fault.kind)
                _tell(event_runs.shortest(fault, run.first_fault), screen, seed, place)
    print(
        f"{screen}: {count} events, seed {seed}, {faults} faults of {len(seen)} kinds,"
        f" {time.monotonic() - began:.0f} s",
        flush=True,
    )
    return faults


def _windows(events: tuple[Event, ...]) -> list[tuple[Event, ...]]:
    return [events[begin : begin + A_WINDOW] for begin in range(0, len(events), A_WINDOW)]


def _tell(fault: Fault, screen: str, seed: int, place: int) -> None:
    print(f"--- {screen}, seed {seed}, window {place}: {len(fault.events)} events")
    print(fault.sentence)
    print(to_lines(fault.events), flush=True)


def _asked(arguments: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="tests.random_events", description=__doc__)
    parser.add_argument("--screen", choices=event_choice.SCREENS)
    parser.add_argument("--count", type=int, default=COUNT)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--replay", type=Path)
    return parser.parse_args(arguments)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
