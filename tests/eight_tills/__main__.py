"""``python -m tests.eight_tills [steps] [--only WHAT] [--without GUARD]``: a table of what became of it all.

Eight tills on each engine under every fault, at least so many steps; then the window of the program under
those of a server. Exit code 1 when anything was lost, doubled, overwritten or stuck, when anybody waited
longer than the time-outs allow, or the window stood still or was silent. ``--without`` takes a guard out,
which must show.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path

from tests.eight_tills import guards_out, till_engines, till_report, window_run
from tests.eight_tills.till_nursery import Nursery
from tests.eight_tills.till_run import SharedShop, TillRun

STEPS = 2_000
SEED = 20260303
PAUSE_S = 1.0
WINDOW_PAUSE_S = 2.0
WINDOW = "window"
MOST_TOLD = 40


def main(arguments: Sequence[str]) -> int:
    asked = _parser().parse_args(arguments)
    engines = [asked.only] if asked.only else (*till_engines.KINDS, WINDOW)
    print(till_report.HEAD, flush=True)
    found = [problem for kind in engines for problem in _run(kind, asked)]
    print(f"== {len(found)} things are wrong", *found[:MOST_TOLD], sep="\n   ", flush=True)
    return 1 if found else 0


def _run(kind: str, asked: argparse.Namespace) -> Sequence[str]:
    """What is wrong after a run, a line each."""
    with ExitStack() as kept:
        folder = Path(kept.enter_context(tempfile.TemporaryDirectory(prefix="tapewright-tills-")))
        engine = "postgres" if kind == WINDOW else kind
        made = till_engines.made(engine, folder, is_slack=asked.without == guards_out.FLUSH)
        shop = kept.enter_context(made)
        if kind == WINDOW:
            return _watch_window(shop, folder, asked)
        nursery = kept.enter_context(Nursery(folder))
        run = kept.enter_context(TillRun(shop, nursery, folder, seed=asked.seed, without=asked.without))
        for phase in till_engines.phases(kind, asked.steps, asked.fault):
            run.live_through(phase, PAUSE_S)
        run.end()
        found = till_report.report(run)
    print(*found.lines, sep="\n", flush=True)
    return found.problems


def _watch_window(shop: SharedShop, folder: Path, asked: argparse.Namespace) -> Sequence[str]:
    seen = window_run.work(shop, folder, rounds=asked.rounds, pause_s=WINDOW_PAUSE_S, seed=asked.seed)
    print(*window_run.lines(seen), sep="\n", flush=True)
    found = list(window_run.problems(shop, seen))
    if asked.stacks:
        print((folder / "stacks.txt").read_text(encoding="utf-8"))
    return found


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m tests.eight_tills", description=__doc__)
    parser.add_argument("steps", nargs="?", type=int, default=STEPS, help="at least so many on each engine")
    parser.add_argument("--only", choices=(*till_engines.KINDS, WINDOW))
    parser.add_argument("--rounds", type=int, default=3, help="how often each fault strikes the window")
    parser.add_argument("--stacks", action="store_true", help="where the window was when it stood still")
    parser.add_argument("--without", choices=guards_out.ALL, default="", help="a guard that is left out")
    parser.add_argument("--fault", default="", help="one line of the table alone, by its name")
    parser.add_argument("--seed", type=int, default=SEED)
    return parser


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    sys.exit(main(sys.argv[1:]))
