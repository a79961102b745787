"""``python -m tests.fuzzed_readers [--count N] [--seed S] [--processes N] [--only NAME [--input N]]``.

Feeds N inputs (150,000 unless told) to all readers in this process, then some to processes of their own.
Prints each reader's answers and each fault with the words that feed it again; exit code 1 where there is one.
"""

from __future__ import annotations

import argparse
import faulthandler
import os
import resource
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.fuzzed_readers import feeding, real_processes
from tests.fuzzed_readers.feeding import Tally, Trough
from tests.fuzzed_readers.reader_list import Reader

PROCESSES = 300
PROCESSES_NAME = "processes"
SEED = 20261130


def main(arguments: Sequence[str]) -> int:
    """Feeds and tells; the number of kinds of faults decides the exit code."""
    asked = _asked(arguments)
    faulthandler.enable()
    with (
        tempfile.TemporaryDirectory(prefix="tapewright-fuzzed-") as folder,
        feeding.filled(Path(folder)) as trough,
    ):
        tallies = {each.name: _fed(trough, each, asked) for each in feeding.chosen(asked.only)}
        if asked.only in (None, PROCESSES_NAME) and asked.processes:
            tallies[PROCESSES_NAME] = _fed_processes(trough, asked)
    faults = sum(len(each.faults) for each in tallies.values())
    fed = sum(each.fed for each in tallies.values())
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(
        f"== {fed} inputs, {faults} kinds of faults, seed {asked.seed}, at most {most:.0f} MB here",
        flush=True,
    )
    return 1 if faults else 0


def _fed(trough: Trough, reader: Reader, asked: argparse.Namespace) -> Tally:
    count = feeding.share(reader, asked.count)
    numbers = range(count) if asked.input is None else (asked.input,)
    return _told(reader.name, trough.feed(reader, numbers, asked.seed), asked.seed)


def _fed_processes(trough: Trough, asked: argparse.Namespace) -> Tally:
    reader = Reader(PROCESSES_NAME, 0, real_processes.fed, limit_s=2 * real_processes.LIMIT_S)
    numbers = range(asked.processes) if asked.input is None else (asked.input,)
    return _told(reader.name, trough.feed(reader, numbers, asked.seed), asked.seed)


def _told(name: str, tally: Tally, seed: int) -> Tally:
    print(f"   {name}: {tally.words}", flush=True)
    for kind, (often, first, told) in tally.faults.items():
        print(
            f"      {often} × {kind} (--only '{name}' --seed {seed} --input {first})\n         {told}",
            flush=True,
        )
    return tally


def _asked(arguments: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="tests.fuzzed_readers", description=__doc__)
    parser.add_argument("--count", type=int, default=feeding.WHOLE)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--processes", type=int, default=PROCESSES)
    parser.add_argument("--only", metavar="NAME")
    parser.add_argument("--input", type=int, metavar="N")
    return parser.parse_args(arguments)


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    sys.exit(main(sys.argv[1:]))
