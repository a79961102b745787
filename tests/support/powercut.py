"""The power going out: what a disk may hold when only flushed bytes are sure.

Killing a process proves nothing, because the system still writes what was left. So a till books under
`strace`, which tells every write and every flush; afterwards the disk is put together as it may have been
at any moment in between: all that was flushed, and of the rest nothing, the first part in order, or any
part, with sectors of 512 bytes torn apart. The model knows no disk that says "flushed" and lies.
"""

from __future__ import annotations

import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path

ROOT = Path(__file__).parents[2]
SECTOR = 512
CHECKPOINT_PAGES = 200
"""Pages of the log after which it is copied into the file; fewer than usual, so that a short run is cut
in that copying too."""

TILL = """
import sys
from core.services import jobs
from core.services.records_door import Shop
from tests.support.booked import Clock, command, quoted

where, boxes, synchronous, pages = sys.argv[1:]
with Shop.open(where, clock=Clock(), who="till", create=False) as shop:
    quote = quoted(shop)
    connection = shop.database.writing.raw_connection()  # the pool holds this one only
    connection.execute(f"PRAGMA wal_autocheckpoint={pages}")
    if synchronous:
        connection.execute(f"PRAGMA synchronous={synchronous}")
    connection.close()
    for _ in range(int(boxes)):
        print(shop.run(jobs.book, quote, command=command()).number, flush=True)
"""


class Left(Enum):
    """What a cut leaves of the bytes that nobody flushed."""

    NOTHING = "nothing"
    FIRST = "the first of them, in order"
    ANY = "any of them, torn"


@dataclass(frozen=True, slots=True)
class Call:
    """One call of the system: ``deed`` on the file called ``name``."""

    deed: str
    name: str
    data: bytes = b""
    at: int = 0
    """Offset of a write, length of a truncation."""


@dataclass(frozen=True, slots=True)
class Cut:
    """The folder's files as one cut may leave them, and the jobs that had been acknowledged by then."""

    files: dict[str, bytes]
    acknowledged: tuple[str, ...]
    at: int
    left: Left

    def lay_out(self, folder: Path) -> None:
        """Puts the files into an empty folder."""
        for name, data in self.files.items():
            (folder / name).write_bytes(data)


@dataclass(slots=True)
class Disk:
    """What is sure to be there, and in order what is only under way."""

    sure: dict[str, bytearray]
    under_way: list[Call] = field(default_factory=list)

    def take(self, call: Call) -> None:
        """A flush makes one file's bytes sure; that of the folder, the names of its files."""
        if call.deed != "flush":
            self.under_way.append(call)
            return
        self._carry_out([each for each in self.under_way if self._is_flushed(each, call.name)])
        self.under_way = [each for each in self.under_way if not self._is_flushed(each, call.name)]

    def after_a_cut(self, left: Left, dice: random.Random) -> dict[str, bytes]:
        """One of the states that the disk may be found in."""
        found = Disk({name: bytearray(data) for name, data in self.sure.items()})
        if left is Left.FIRST:
            found._carry_out(self.under_way[: dice.randint(0, len(self.under_way))])
        elif left is Left.ANY:
            found._carry_out([part for call in self.under_way for part in _torn(call, dice)])
        return {name: bytes(data) for name, data in found.sure.items()}

    @staticmethod
    def _is_flushed(call: Call, name: str) -> bool:
        return call.deed in ("make", "unlink") if name == "." else call.name == name and call.deed != "unlink"

    def _carry_out(self, calls: Sequence[Call]) -> None:
        for call in calls:
            if call.deed == "unlink":
                self.sure.pop(call.name, None)
                continue
            data = self.sure.setdefault(call.name, bytearray())
            if call.deed == "truncate":
                del data[call.at :]
                data.extend(bytes(call.at - len(data)))
            elif call.deed == "write":
                data.extend(bytes(max(0, call.at - len(data))))
                data[call.at : call.at + len(call.data)] = call.data


def _torn(call: Call, dice: random.Random) -> Iterator[Call]:
    """The call whole, not at all, or of its sectors only some; no byte outside a sector is touched."""
    how = dice.choice(("whole", "lost", "torn" if call.deed == "write" else "lost"))
    if how == "whole":
        yield call
    if how != "torn":
        return
    begins = call.at
    while begins < call.at + len(call.data):
        ends = min((begins // SECTOR + 1) * SECTOR, call.at + len(call.data))
        if dice.random() < 0.5:
            yield Call("write", call.name, call.data[begins - call.at : ends - call.at], begins)
        begins = ends


# --- the till under strace ---------------------------------------------------------------


def is_possible() -> bool:
    """Whether this system can tell a program's writes."""
    return sys.platform == "linux" and shutil.which("strace") is not None


@dataclass(frozen=True, slots=True)
class Trace:
    """The files that a till began with, and every call it made until it had booked its boxes."""

    files: dict[str, bytes]
    calls: tuple[Call, ...]

    def cuts(self, count: int, dice: random.Random) -> Iterator[Cut]:
        """The power goes out before ``count`` calls picked at random, in turn with each way of `Left`."""
        disk = Disk({name: bytearray(data) for name, data in self.files.items()})
        said, ways, done = "", list(Left), 0
        for n, at in enumerate(sorted(dice.choices(range(len(self.calls) + 1), k=count))):
            for call in self.calls[done:at]:
                if call.deed == "say":
                    said += call.data.decode()
                else:
                    disk.take(call)
            done, left = at, ways[n % len(ways)]
            yield Cut(disk.after_a_cut(left, dice), tuple(said.split("\n")[:-1]), at, left)


def booked_under_strace(shop: Path, boxes: int, synchronous: str = "") -> Trace:
    """A till books ``boxes`` equal boxes in the file ``shop``; an empty ``synchronous`` keeps our own."""
    told = shop.parent.parent / "trace"
    before = {file.name: file.read_bytes() for file in shop.parent.iterdir()}
    watched = "openat,write,pwrite64,fdatasync,fsync,ftruncate,unlink,rename"
    strace = ["strace", "-f", "--seccomp-bpf", "-y", "-xx", "-s", "1000000", "-e", f"trace={watched}"]
    till = [sys.executable, "-c", TILL, str(shop), str(boxes), synchronous, str(CHECKPOINT_PAGES)]
    single = {"OPENBLAS_NUM_THREADS": "1", "PYTHONDONTWRITEBYTECODE": "1"}
    out = subprocess.run(
        [*strace, "-o", str(told), *till],
        cwd=ROOT,
        env={**os.environ, **single},
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert out.returncode == 0, out.stderr
    with told.open(encoding="ascii") as lines:
        calls = tuple(_read(_whole(lines), shop.parent))
    told.unlink()
    said = b"".join(call.data for call in calls if call.deed == "say").decode()
    assert said == out.stdout, "the trace does not tell what the till said"
    return Trace(before, calls)


_LINE = re.compile(r"(\d+) +(\w+)\((.*)\) += (\d+)")
_STRING = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')
_FILE = re.compile(r"<((?:\\x[0-9a-f]{2})+)>")


def _whole(lines: Iterator[str]) -> Iterator[str]:
    """Calls that another thread interrupted, put together again."""
    begun: dict[str, str] = {}
    for line in lines:
        who = line.split(" ", 1)[0]
        if line.endswith("<unfinished ...>\n"):
            begun[who] = line.removesuffix("<unfinished ...>\n").rstrip()
        elif " resumed>" in line:
            yield begun.pop(who) + line.split(" resumed>", 1)[1]
        else:
            yield line


def _read(lines: Iterator[str], folder: Path) -> Iterator[Call]:
    """The calls on files of ``folder`` and what was said, without the log's shared memory: it dies too."""
    there = {file.name for file in folder.iterdir()}
    for line in lines:
        matched = _LINE.match(line)
        if matched is None:
            continue
        _, deed, arguments, result = matched.groups()
        if deed == "write" and arguments.startswith("1<"):
            yield Call("say", "", _bytes(_STRING, arguments))
            continue
        by_name = deed in ("openat", "unlink", "rename")
        path = Path(os.fsdecode(_bytes(_STRING if by_name else _FILE, arguments)))
        if path == folder and deed in ("fsync", "fdatasync"):
            yield Call("flush", ".")
        elif path.parent == folder and not path.name.endswith("-shm"):
            yield from _on_file(deed, path.name, arguments, int(result), there)


def _on_file(deed: str, name: str, arguments: str, result: int, there: set[str]) -> Iterator[Call]:
    if deed in ("fsync", "fdatasync"):
        yield Call("flush", name)
    elif deed == "pwrite64":
        data = _bytes(_STRING, arguments)
        assert len(data) == result, f"{name} was written in part"
        yield Call("write", name, data, int(arguments.rsplit(", ", 1)[1]))
    elif deed == "ftruncate":
        yield Call("truncate", name, at=int(arguments.rsplit(", ", 1)[1]))
    elif deed == "unlink":
        there.discard(name)
        yield Call("unlink", name)
    elif deed == "openat":
        if "O_CREAT" in arguments and name not in there:
            there.add(name)
            yield Call("make", name)
    else:
        raise AssertionError(f"{deed} of {name} is a call that this model does not know")


def _bytes(pattern: re.Pattern[str], text: str) -> bytes:
    found = pattern.search(text)
    assert found is not None, f"no bytes in {text[:80]}"
    return bytes.fromhex(found[1].replace("\\x", ""))
