"""Command lines carried out by processes of their own, with limits of time and memory."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path
from random import Random

from tests.fuzzed_readers import fed_commands, shop_readers, typed_lines
from tests.fuzzed_readers.fault_found import ROOT, FaultFound
from tests.fuzzed_readers.fed_commands import CommandAnswer, CommandLine
from tests.fuzzed_readers.line_examples import EXAMPLES, REFUSED
from tests.fuzzed_readers.throwaway_shop import ThrowawayShop

MOST_BYTES = 3_000_000_000
"""Addresses of one process: what the libraries map is most of it."""
MOST_RESIDENT = 400_000_000
MOST_CPU_S = 30
LIMIT_S = 180.0
"""By the clock on the wall: the invented shop takes ten seconds of work, and ten times that beside others."""


def fed(shop: ThrowawayShop, files: Mapping[str, bytes], dice: Random) -> str:
    """One line; as `fed_commands.fed` judges it, and no more memory than a quote of the largest box takes."""
    names = [*EXAMPLES, *REFUSED]
    line = typed_lines.spoiled(dice.choice(names), shop, files, dice)
    if "demo" in line.words and "--no-window" not in line.words:
        line = CommandLine((*line.words, "--no-window"), line.environment, line.standard_input)
    before = shop.standing()
    answer, resident = carried_out(line, shop.place)
    try:
        code = fed_commands.judged(line, answer)
        if "went wrong inside" in answer.err:
            raise FaultFound("a bug told by a process", f"{line!r} {answer.err[:300]}")
        if resident > MOST_RESIDENT:
            raise FaultFound("too much memory", f"{line!r} {resident / 1e6:.0f} MB")
        news = shop.standing().told_against(before)
        if news and answer.code:
            raise FaultFound(
                f"a process changed with code {answer.code}", f"{line!r} {news} {answer.err[:300]}"
            )
    finally:
        shop_readers.restored(files)
        shop.renew()
    return code


def carried_out(line: CommandLine, place: Path) -> tuple[CommandAnswer, int]:
    """The answer, and the most bytes it had in memory; `FaultFound` where it had to be ended."""
    words = [sys.executable.encode(), b"-m", b"core.cli.entry", *map(_bytes, line.words)]
    environment = {**os.environ, **line.environment, "PYTHONPATH": str(ROOT)}
    with subprocess.Popen(
        words,
        cwd=place,
        env=environment,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=_limits,
    ) as process:
        try:
            out, err = process.communicate(line.standard_input, timeout=LIMIT_S)
        except subprocess.TimeoutExpired:
            process.kill()
            raise FaultFound("a process hangs", repr(line)) from None
    resident = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * 1024
    return CommandAnswer(process.returncode, out.decode(), err.decode()), resident


def _bytes(word: str) -> bytes:
    """A word as the shell hands it on."""
    return word.encode("utf-8", "surrogateescape")[:100_000]


def _limits() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_CPU_S, MOST_CPU_S))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def timed(shop: ThrowawayShop, files: Mapping[str, bytes], dice: Random) -> float:
    """Seconds one line takes."""
    began = time.monotonic()
    fed(shop, files, dice)
    return time.monotonic() - began
