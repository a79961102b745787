"""``python -m tests.fuzzed_readers [--count N] [--seed S] [--processes N] [--postgres] [--only NAME]``.

Feeds N inputs (150,000 unless told) to all readers in this process, then some to processes of their own. With
``--postgres`` the shop lies on a server of its own, and those readers are fed that read the records.
``--only NAME --input N`` feeds one input again.
Prints each reader's answers and each fault with the words that feed it again; exit code 1 where there is one.
"""

from __future__ import annotations

import argparse
import faulthandler
import os
import resource
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path

from tests.fuzzed_readers import feeding, real_processes
from tests.fuzzed_readers.feeding import Tally, Trough
from tests.fuzzed_readers.reader_list import Reader
from tests.support import own_postgres

PROCESSES = 300
PROCESSES_NAME = "processes"
SEED = 20261130


def main(arguments: Sequence[str]) -> int:
    """Feeds and tells; the number of kinds of faults decides the exit code."""
    asked = _asked(arguments)
    faulthandler.enable()
    with ExitStack() as kept:
        folder = Path(kept.enter_context(tempfile.TemporaryDirectory(prefix="tapewright-fuzzed-")))
        server = kept.enter_context(_server()) if asked.postgres else None
        trough = kept.enter_context(feeding.filled(folder, server))
        readers = feeding.chosen(asked.only, on_a_server=asked.postgres)
        tallies = {each.name: _fed(trough, each, asked) for each in readers}
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


@contextmanager
def _server() -> Iterator[str]:
    """The address of a PostgreSQL server that is gone afterwards."""
    there = own_postgres.programs()
    assert there is not None, "no PostgreSQL is installed"
    server = own_postgres.Server(there)
    try:
        yield server.url
    finally:
        server.stop()


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
    parser.add_argument("--postgres", action="store_true")
    parser.add_argument("--input", type=int, metavar="N")
    return parser.parse_args(arguments)


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    sys.exit(main(sys.argv[1:]))
