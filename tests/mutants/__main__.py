"""Try mutants of the pure shelves: ``python -m tests.mutants [SHELF | FILE …] [--limit N]``.

Without a name all four shelves are tried, which takes hours. Of the tests those of the shelf and the
reference values are asked, or what ``--tests`` names; a module of tests that was measured as taking longer
than half a minute is left out unless it is named. ``--seconds`` bounds what the tests of one mutant may take
of the processor. ``--constants`` tries the constants only, each against the test that `constants.toml` names.
Exit code 1: a mutant is neither noticed nor argued in `argued.toml`, or an argument is out of date.
"""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

SHELVES = ("pricing", "scheduling", "playtime", "promise")


def main(arguments: list[str]) -> int:
    """Try what is named."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    os.environ["CI"] = "1"  # what hypothesis tries is the same each time
    asked = _parser().parse_args(arguments)
    from tests.mutants import mutation_run, owned_constants

    if asked.constants:
        return owned_constants.report(asked.names)
    files = mutation_run.files(asked.names)
    return mutation_run.report(files, asked.tests or mutation_run.tests_of(files), asked.limit, asked.seconds)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser("python -m tests.mutants", description=__doc__)
    parser.add_argument("names", nargs="*", default=list(SHELVES), help="a shelf, or a file")
    parser.add_argument("--limit", type=int, default=None, help="try so many mutants of each file")
    parser.add_argument("--seconds", type=float, default=20.0, help="of the tests of one mutant")
    parser.add_argument("--tests", nargs="+", type=Path, help="files or folders of tests to ask")
    parser.add_argument("--constants", action="store_true", help="try the constants, each against its test")
    return parser


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
