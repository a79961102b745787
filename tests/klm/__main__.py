"""``python -m tests.klm [--only WORD]``: seconds of each task beside its goals and a plain spreadsheet."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator, Sequence

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("QT_LOGGING_RULES", "*.warning=false")  # the offscreen platform grumbles

from tests.klm.desk_tasks import TASKS, Task  # Qt reads where to show windows when it is imported
from tests.klm.operators import Deed, operators


def main(arguments: Sequence[str]) -> int:
    """Exit code 1 where a goal is missed."""
    parser = argparse.ArgumentParser(prog="tests.klm", description=__doc__)
    parser.add_argument("--only", metavar="WORD", default="")
    asked = parser.parse_args(arguments)
    missed = 0
    print(f"{'':50}{'seconds':>8} {'goal':>6} {'sheet':>7}  operators")
    for task in TASKS:
        if asked.only in task.name:
            for line, is_kept in _lines(task):
                print(line, flush=True)
                missed += not is_kept
    print(f"{missed} goals missed" if missed else "every goal kept")
    return 1 if missed else 0


def _lines(task: Task) -> Iterator[tuple[str, bool]]:
    ways = (
        ("keys", task.by_keys, task.goal_keys, task.sheet_by_keys),
        ("mouse", task.by_mouse, task.goal_mouse, task.sheet_by_mouse),
    )
    for way, play, goal, sheet in ways:
        if play is not None:
            took = task.played(play)
            kept = goal is None or took.seconds <= goal
            told = f"{'' if goal is None else f'{goal:.0f}':>6} {_sheet(sheet):>7}  {took.words}"
            yield f"{task.name + ', ' + way:50}{took.seconds:>8.1f} {told}{'' if kept else '  missed'}", kept


def _sheet(sheet: Sequence[Deed]) -> str:
    return f"{operators(sheet).seconds:.1f}" if sheet else ""


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
