"""Feeds readers: each input by a number, so that one can be fed again; what hangs is told by its name."""

from __future__ import annotations

import shutil
import signal
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from types import FrameType

from tests.fuzzed_readers import fault_found, fed_commands, input_files, shop_readers
from tests.fuzzed_readers.fault_found import FaultFound
from tests.fuzzed_readers.reader_list import ON_A_SERVER, READERS, Reader
from tests.fuzzed_readers.throwaway_server import ThrowawayServerShop
from tests.fuzzed_readers.throwaway_shop import ThrowawayShop, at_home

LIMIT_S = 30.0
"""By the clock on the wall, of one input: a hundred times what a slow one takes on a busy machine."""
WHOLE = 150_000
"""Of them 20,000 and more are lines of the Counter."""


class _Hangs(BaseException):
    """Nobody may catch it but who set the alarm."""


@dataclass(slots=True)
class Tally:
    """What became of the inputs of one reader."""

    answers: Counter[str] = field(default_factory=Counter)
    faults: dict[str, tuple[int, int, str]] = field(default_factory=dict)
    """By kind: how often, the first input, and what was seen of it."""
    seconds: float = 0.0
    slowest: float = 0.0
    fed: int = 0

    def note(self, number: int, fault: FaultFound) -> None:
        often, first, told = self.faults.get(fault.kind, (0, number, fault.told))
        self.faults[fault.kind] = (often + 1, first, told)

    @property
    def words(self) -> str:
        """One line for a person."""
        answers = ", ".join(f"{answer}: {count}" for answer, count in sorted(self.answers.items()))
        faulty = sum(often for often, _, _ in self.faults.values())
        return f"{self.fed} ({answers}), {faulty} faults, {self.seconds:.0f} s, slowest {self.slowest:.2f} s"


class Trough:
    """Where readers are fed: one throwaway shop, and the good files beside it."""

    def __init__(self, folder: Path, server: str | None = None) -> None:
        """``server``: where the shop is to lie, if not in a file."""
        self.folder = folder
        self.shop = ThrowawayShop(folder) if server is None else ThrowawayServerShop(folder, server)
        self.files: dict[str, bytes] = {}

    def fill(self) -> None:
        self.files = input_files.made(self.folder)
        self.shop.make(self.files)

    def feed(self, reader: Reader, numbers: Sequence[int], seed: int) -> Tally:
        """Feeds the inputs of these numbers to one reader."""
        tally = Tally()
        self.shop.renew()
        for number in numbers:
            began = time.monotonic()
            try:
                with _not_longer(reader.limit_s or LIMIT_S):
                    answer = reader.feed(self.shop, self.files, Random(f"{seed}/{reader.name}/{number}"))
                tally.answers[answer] += 1
            except BaseException as error:
                if isinstance(error, KeyboardInterrupt):
                    raise
                tally.note(number, _named(error))
                self.shop.renew()
            taken = time.monotonic() - began
            tally.slowest, tally.fed = max(tally.slowest, taken), tally.fed + 1
            tally.seconds += taken
        return tally


@contextmanager
def filled(folder: Path, server: str | None = None) -> Iterator[Trough]:
    """A trough with the user's home in it, for as long as this lasts."""
    trough = Trough(folder, server)
    with at_home(folder), fed_commands.seen_through():
        try:
            trough.fill()
            yield trough
        finally:
            shop_readers.let_go(trough.shop)
            trough.shop.end()
    shutil.rmtree(folder / "place", ignore_errors=True)


def chosen(only: str | None, *, on_a_server: bool = False) -> tuple[Reader, ...]:
    """The readers of a name, or all; on a server only those of the records."""
    readers = ON_A_SERVER if on_a_server else READERS
    return tuple(each for each in readers if only in (None, each.name))


def share(reader: Reader, count: int) -> int:
    """How many of ``count`` inputs are for this reader; one at least."""
    whole = sum(each.share for each in READERS)
    return max(1, -(-count * reader.share // whole))


def _named(error: BaseException) -> FaultFound:
    if isinstance(error, FaultFound):
        return error
    if isinstance(error, _Hangs):
        return FaultFound(f"hangs at {error}", "")
    return fault_found.of_exception(error, "")


@contextmanager
def _not_longer(seconds: float) -> Iterator[None]:
    before = signal.signal(signal.SIGALRM, _give_up)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _give_up(_: int, frame: FrameType | None) -> None:
    while (
        frame is not None
        and "/core/" not in frame.f_code.co_filename
        and "/gui/" not in frame.f_code.co_filename
    ):
        frame = frame.f_back
    place = "elsewhere" if frame is None else f"{frame.f_code.co_filename}:{frame.f_lineno}"
    raise _Hangs(place)


Told = Callable[[str], None]
