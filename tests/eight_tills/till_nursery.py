"""Begins tills: a program that has read everything once, and becomes a till in no time.

Told on a line each what a till is to do (`TillOrder` as JSON), it says the number of the new process.
"""

from __future__ import annotations

import dataclasses
import json
import os
import signal
import subprocess
import sys
import traceback
from contextlib import suppress
from pathlib import Path
from types import TracebackType

from argon2 import profiles

from tests.eight_tills.till_at_work import TillOrder, live
from tests.support import cheap_hashes

ROOT = Path(__file__).parents[2]


class Nursery:
    """The program as whoever begins tills sees it. Its tills end with it."""

    def __init__(self, folder: Path) -> None:
        (folder / "tmp").mkdir()
        self._program = subprocess.Popen(
            [sys.executable, "-m", __name__],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            cwd=ROOT,
            env={**os.environ, "TMPDIR": str(folder / "tmp")},
        )

    def begin(self, order: TillOrder) -> int:
        """The process of a new till."""
        assert self._program.stdin is not None
        assert self._program.stdout is not None
        print(json.dumps(dataclasses.asdict(order)), file=self._program.stdin, flush=True)
        return int(self._program.stdout.readline())

    def __enter__(self) -> Nursery:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        assert self._program.stdin is not None
        assert self._program.stdout is not None
        self._program.stdin.close()
        self._program.wait()
        self._program.stdout.close()


def is_alive(pid: int) -> bool:
    """Whether a till is still there; the nursery keeps none that is dead."""
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def _main() -> None:
    # A hash as the program makes it takes a fifth of a second.
    cheap_hashes.secret_hashes._hasher = cheap_hashes._cheap
    costs = dataclasses.replace(profiles.RFC_9106_LOW_MEMORY, time_cost=1, memory_cost=8, parallelism=1)
    profiles.RFC_9106_LOW_MEMORY = costs  # type: ignore[misc]
    signal.signal(signal.SIGCHLD, _bury)
    for line in sys.stdin:
        order = TillOrder(**json.loads(line))
        pid = os.fork()
        if pid == 0:
            _become(order)
        print(pid, flush=True)


def _bury(*_: object) -> None:
    """None that is dead is kept."""
    with suppress(ChildProcessError):
        while os.waitpid(-1, os.WNOHANG)[0]:
            """The next one."""


def _become(order: TillOrder) -> None:
    """Never comes back."""
    nothing = os.open(os.devnull, os.O_RDWR)
    os.dup2(nothing, 0)
    os.dup2(nothing, 1)
    os.dup2(os.open(f"{order.journal}.log", os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600), 2)
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    try:
        live(order)
    except BaseException:  # noqa: BLE001  # the border: it must reach the log
        traceback.print_exc()
        os._exit(1)
    os._exit(0)


if __name__ == "__main__":
    _main()
