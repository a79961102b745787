"""What a program wrote, named and flushed in a folder, in order, and what it said meanwhile: from `strace`.

Killing a process proves nothing, because the system still writes what was left. So a program works under
`strace`, which tells every call; afterwards the disk is put together as it may have been found at any moment
in between.
"""

from __future__ import annotations

import json
import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from tests.power_cuts.cut_disk import Call, Disk, Left, Model, Remains

ROOT = Path(__file__).parents[2]
_WATCHED = (
    "openat,write,pwrite64,lseek,fdatasync,fsync,ftruncate,sendfile,copy_file_range,"
    "unlink,unlinkat,rename,renameat,renameat2,link,linkat,mkdir,mkdirat,rmdir"
)


@dataclass(frozen=True, slots=True)
class Cut:
    """The folder as one cut may leave it, and the lines the program had said by then."""

    remains: Remains
    said: tuple[str, ...]
    at: int
    left: Left
    model: Model

    @property
    def where(self) -> str:
        """Which cut this is, for the reader of a failure."""
        return f"cut before call {self.at}, {self.left.value} of the rest, {self.model.value}"


@dataclass(frozen=True, slots=True)
class Trace:
    """The files and folders that a program began with, and every call it made there."""

    files: dict[str, bytes]
    folders: tuple[str, ...]
    calls: tuple[Call, ...]

    def cuts(self, count: int, dice: random.Random, model: Model = Model.STRICT) -> Iterator[Cut]:
        """The power goes out before ``count`` calls, in turn with each way of `Left`.

        Half of them are picked among all calls, half among those right after something was said.
        """
        said_at = [n for n, call in enumerate(self.calls, 1) if call.deed == "say"]
        places = dice.choices(range(len(self.calls) + 1), k=count - count // 2)
        places += dice.choices(said_at, k=count // 2) if said_at else []
        disk = Disk.holding(self.files, self.folders, model)
        said, ways, done = "", list(Left), 0
        for n, at in enumerate(sorted(places)):
            for call in self.calls[done:at]:
                if call.deed == "say":
                    said += call.data.decode()
                else:
                    disk.take(call)
            done, left = at, ways[n % len(ways)]
            yield Cut(disk.after_a_cut(left, dice), tuple(said.split("\n")[:-1]), at, left, model)


def is_possible() -> bool:
    """Whether this system can tell a program's calls."""
    return sys.platform == "linux" and shutil.which("strace") is not None


def traced(program: str, root: Path, *arguments: str) -> Trace:
    """Runs the Python of ``program`` with ``root`` and ``arguments``; gives what it does there and says."""
    told = root.parent / f"{root.name}.trace"
    files = {str(each.relative_to(root)): each.read_bytes() for each in root.rglob("*") if each.is_file()}
    folders = tuple(str(each.relative_to(root)) for each in root.rglob("*") if each.is_dir())
    strace = ["strace", "-f", "--seccomp-bpf", "-y", "-xx", "-s", "10000000", "-e", f"trace={_WATCHED}"]
    single = {"OPENBLAS_NUM_THREADS": "1", "PYTHONDONTWRITEBYTECODE": "1", "TMPDIR": str(root.parent)}
    out = subprocess.run(
        [*strace, "-o", str(told), sys.executable, "-c", program, str(root), *arguments],
        cwd=ROOT,
        env={**os.environ, **single},
        capture_output=True,
        text=True,
        check=False,
        timeout=600,
    )
    assert out.returncode == 0, out.stderr
    with told.open(encoding="ascii") as lines:
        calls = tuple(_Reader(root, {*files, *folders}).calls(_whole(lines)))
    told.unlink()
    said = b"".join(call.data for call in calls if call.deed == "say").decode()
    assert said == out.stdout, "the trace does not tell what the program said"
    return Trace(files, folders, calls)


_IN_TURN = """
import json, os, sys
from pathlib import Path
root, *told = sys.argv[1:]
for folder, program, *arguments in map(json.loads, told):
    os.write(1, f"begin {folder}\\n".encode())
    sys.argv = ["-c", str(Path(root) / folder), *arguments]
    exec(compile(program, folder, "exec"), {"__name__": "__main__"})
"""


def traced_in_turn(programs: Mapping[str, Sequence[str]], root: Path) -> dict[str, Trace]:
    """`traced` for several programs, each with its arguments and a folder of its own below ``root``, in one
    process one after the other: to begin and to import takes longer than most of them."""
    told = [json.dumps([folder, *program]) for folder, program in programs.items()]
    whole = traced(_IN_TURN, root, *told)
    calls: dict[str, list[Call]] = {folder: [] for folder in programs}
    folder = ""
    for call in whole.calls:
        if call.deed == "say" and call.data.startswith(b"begin "):
            folder = call.data.decode().split()[1]
        elif call.deed == "say":
            calls[folder].append(call)
        else:
            calls[folder].append(replace(call, name=_below(folder, call.name), to=_below(folder, call.to)))
    return {
        folder: Trace(
            {_below(folder, name): data for name, data in whole.files.items() if _is_below(folder, name)},
            tuple(_below(folder, name) for name in whole.folders if _is_below(folder, name)),
            tuple(calls[folder]),
        )
        for folder in programs
    }


def _is_below(folder: str, name: str) -> bool:
    return name.startswith(f"{folder}/")


def _below(folder: str, name: str) -> str:
    """A name as it is seen from the folder of its program."""
    if name == folder:
        return "."
    assert not name or _is_below(folder, name), f"{name} is none of {folder}"
    return name.removeprefix(f"{folder}/")


_LINE = re.compile(r"(\d+) +(\w+)\((.*)\) += (\d+)")
_STRING = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')
_FILE = re.compile(r"<((?:\\x[0-9a-f]{2})+)>")
_AT = re.compile(r"(?:AT_FDCWD|\d+)<((?:\\x[0-9a-f]{2})+)>, \"((?:\\x[0-9a-f]{2})*)\"")
_GONE = " (deleted)"


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


class _Reader:
    """The calls on what lies under ``root``, without the log's shared memory: it dies with the power too."""

    def __init__(self, root: Path, there: set[str]) -> None:
        self._root = root
        self._there = there
        self._at: dict[str, int] = {}
        """How far each open file was written, by its handle."""

    def calls(self, lines: Iterator[str]) -> Iterator[Call]:
        for line in lines:
            matched = _LINE.match(line)
            if matched is None:
                continue
            _, deed, arguments, result = matched.groups()
            if deed == "write" and arguments.startswith("1<"):
                yield Call("say", "", _bytes(_STRING, arguments))
            elif deed in ("openat", "unlinkat", "renameat", "renameat2", "linkat", "mkdirat"):
                yield from self._by_place(deed, arguments, result)
            elif deed in ("unlink", "rename", "link", "mkdir", "rmdir"):
                names = [self._name(os.fsdecode(_plain(each))) for each in _STRING.findall(arguments)]
                yield from self._on_names(deed, names)
            else:
                yield from self._on_open_file(deed, arguments, int(result))

    def _name(self, path: str) -> str | None:
        """Relative to the root; None outside of it, for shared memory, and for what has no name any more."""
        found = Path(path if not path.endswith(_GONE) else "/")
        if found == self._root:
            return "."
        if self._root not in found.parents or found.name.endswith("-shm"):
            return None
        return str(found.relative_to(self._root))

    def _by_place(self, deed: str, arguments: str, result: str) -> Iterator[Call]:
        places = [
            os.path.join(os.fsdecode(_plain(folder)), os.fsdecode(_plain(name)))
            for folder, name in _AT.findall(arguments)
        ]
        names = [self._name(os.path.normpath(each)) for each in places]
        if deed != "openat":
            plain = "rmdir" if "AT_REMOVEDIR" in arguments else deed.removesuffix("2").removesuffix("at")
            yield from self._on_names(plain, names)
            return
        self._at[result] = 0
        (name,) = names
        if name is None or "O_DIRECTORY" in arguments:
            return
        if "O_CREAT" in arguments and name not in self._there:
            self._there.add(name)
            yield Call("make", name)
        elif "O_TRUNC" in arguments:
            yield Call("truncate", name)

    def _on_names(self, deed: str, names: list[str | None]) -> Iterator[Call]:
        name, to = names[0], names[-1]
        if name is None and to is None:
            return
        assert name is not None, f"{deed} brings something in from outside"
        assert to is not None, f"{deed} takes something out"
        if deed in ("unlink", "rmdir", "rename"):
            self._there.discard(name)
        if deed in ("mkdir", "link", "rename"):
            self._there.add(to)
        yield Call(deed, name, to=to if len(names) > 1 else "")

    def _on_open_file(self, deed: str, arguments: str, result: int) -> Iterator[Call]:
        handle = arguments.split("<", 1)[0]
        if deed == "lseek":
            self._at[handle] = result
            return
        found = _FILE.search(arguments)
        name = None if found is None else self._name(os.fsdecode(_plain(found[1])))
        if name is None:
            return
        if deed in ("fsync", "fdatasync"):
            yield Call("flush", name)
        elif deed == "ftruncate":
            yield Call("truncate", name, at=int(arguments.rsplit(", ", 1)[1]))
        elif deed in ("pwrite64", "write"):
            data = _bytes(_STRING, arguments)
            assert len(data) == result, f"{name} was written in part"
            at = self._at[handle] if deed == "write" else int(arguments.rsplit(", ", 1)[1])
            self._at[handle] = at + len(data)
            yield Call("write", name, data, at)
        else:
            raise AssertionError(f"{deed} of {name} is a call that this model does not know")


def _bytes(pattern: re.Pattern[str], text: str) -> bytes:
    found = pattern.search(text)
    assert found is not None, f"no bytes in {text[:80]}"
    return _plain(found[1])


def _plain(hexadecimal: str) -> bytes:
    return bytes.fromhex(hexadecimal.replace("\\x", ""))
