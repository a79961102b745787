"""What a disk may hold after the power went out, when only flushed bytes and flushed names are sure.

Two models. `STRICT` is what POSIX promises and no more: flushing a file makes its bytes sure, flushing a
folder the names in it; names that nobody flushed may be there in any choice, bytes in any choice of their
sectors. `JOURNAL` is a file system with an ordered journal of names, as ext4 has it: names are there up to
some moment, and any flush makes all names so far sure. (ext4 also writes the bytes of a file before it
renames it over another; that is left out.) Neither knows a disk that says "flushed" and lies.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path, PurePosixPath

SECTOR = 512
FOLDER = -1
"""What stands for a folder where a file has the number of its bytes."""


class Model(Enum):
    STRICT = "strict"
    JOURNAL = "journal of names"


class Left(Enum):
    """What a cut leaves of what nobody flushed."""

    NOTHING = "nothing"
    FIRST = "the first of it, in order"
    ANY = "any of it, torn"


@dataclass(frozen=True, slots=True)
class Call:
    """One call of the system: ``deed`` on the file or folder called ``name``, relative to what is watched."""

    deed: str
    """make, mkdir, write, truncate, flush, rename, link, unlink, rmdir, or say (to standard output)."""
    name: str
    data: bytes = b""
    at: int = 0
    """Offset of a write, length of a truncation."""
    to: str = ""
    """The other name of `rename` and `link`."""


@dataclass(frozen=True, slots=True)
class NameChange:
    """Names given and taken at one stroke in one folder."""

    folder: str
    given: tuple[tuple[str, int], ...] = ()
    taken: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ByteChange:
    """A write or a truncation of one file, by its number."""

    file: int
    call: Call


@dataclass(frozen=True, slots=True)
class Remains:
    """Files and folders as one cut leaves them."""

    files: dict[str, bytes]
    folders: frozenset[str]

    def lay_out(self, root: Path) -> None:
        """Puts them into an empty folder."""
        for name in sorted(self.folders):
            (root / name).mkdir(parents=True, exist_ok=True)
        for name, data in self.files.items():
            (root / name).write_bytes(data)


@dataclass(slots=True)
class Disk:
    """What is sure to be there, and in order what is only under way."""

    model: Model
    names: dict[str, int] = field(default_factory=dict)
    bytes: dict[int, bytearray] = field(default_factory=dict)
    under_way: list[NameChange | ByteChange] = field(default_factory=list)
    seen: dict[str, int] = field(default_factory=dict)
    """The names as the program sees them."""

    @classmethod
    def holding(cls, files: dict[str, bytes], folders: Sequence[str], model: Model) -> Disk:
        """A disk on which all of this is sure."""
        disk = cls(model, dict.fromkeys(folders, FOLDER))
        for number, (name, data) in enumerate(files.items()):
            disk.names[name], disk.bytes[number] = number, bytearray(data)
        disk.seen = dict(disk.names)
        return disk

    def take(self, call: Call) -> None:
        """Follows one call."""
        if call.deed == "flush":
            self._flush(call.name)
        elif call.deed in ("write", "truncate"):
            self.under_way.append(ByteChange(self.seen[call.name], call))
        else:
            for change in self._changes(call):
                self.under_way.append(change)
                _rename(self.seen, change)

    def after_a_cut(self, left: Left, dice: random.Random) -> Remains:
        """One of the states that the disk may be found in."""
        names, data = dict(self.names), {file: bytearray(held) for file, held in self.bytes.items()}
        for change in self._surviving(left, dice):
            if isinstance(change, NameChange):
                _rename(names, change)
            else:
                _write(data.setdefault(change.file, bytearray()), change.call)
        there = {name: file for name, file in names.items() if _has_folder(name, names)}
        return Remains(
            {name: bytes(data.get(file, b"")) for name, file in there.items() if file != FOLDER},
            frozenset(name for name, file in there.items() if file == FOLDER),
        )

    def _changes(self, call: Call) -> Iterator[NameChange]:
        here, there = _folder(call.name), _folder(call.to)
        if call.deed == "make":
            yield NameChange(here, ((call.name, self._new_number()),))
        elif call.deed == "mkdir":
            yield NameChange(here, ((call.name, FOLDER),))
        elif call.deed in ("unlink", "rmdir"):
            yield NameChange(here, (), (call.name,))
        elif call.deed == "link":
            yield NameChange(there, ((call.to, self.seen[call.name]),))
        elif call.deed == "rename" and (here == there or self.model is Model.JOURNAL):
            yield NameChange(there, ((call.to, self.seen[call.name]),), (call.name,))
        elif call.deed == "rename":  # from one folder to another: each is flushed for itself
            yield NameChange(there, ((call.to, self.seen[call.name]),))
            yield NameChange(here, (), (call.name,))
        else:
            raise AssertionError(f"{call.deed} is a call that this model does not know")

    def _new_number(self) -> int:
        return 1 + max((*self.bytes, *self.seen.values(), *self.names.values()), default=-1)

    def _flush(self, name: str) -> None:
        rest: list[NameChange | ByteChange] = []
        for change in self.under_way:
            if not self._is_flushed(change, name):
                rest.append(change)
            elif isinstance(change, NameChange):
                _rename(self.names, change)
            else:
                _write(self.bytes.setdefault(change.file, bytearray()), change.call)
        self.under_way = rest

    def _is_flushed(self, change: NameChange | ByteChange, name: str) -> bool:
        if isinstance(change, ByteChange):
            return self.seen.get(name) == change.file
        return self.model is Model.JOURNAL or change.folder == name

    def _surviving(self, left: Left, dice: random.Random) -> Iterator[NameChange | ByteChange]:
        if left is Left.NOTHING:
            return
        until = dice.randint(0, len(self.under_way))
        for n, change in enumerate(self.under_way):
            if left is Left.FIRST:
                if n < until:
                    yield change
            elif isinstance(change, ByteChange):
                yield from (ByteChange(change.file, part) for part in torn(change.call, dice))
            elif n < until if self.model is Model.JOURNAL else dice.random() < 0.5:
                yield change


def torn(call: Call, dice: random.Random) -> Iterator[Call]:
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


def _rename(names: dict[str, int], change: NameChange) -> None:
    for name in change.taken:
        names.pop(name, None)
    names.update(change.given)


def _write(data: bytearray, call: Call) -> None:
    if call.deed == "truncate":
        del data[call.at :]
        data.extend(bytes(call.at - len(data)))
    else:
        data.extend(bytes(max(0, call.at - len(data))))
        data[call.at : call.at + len(call.data)] = call.data


def _folder(name: str) -> str:
    return str(PurePosixPath(name).parent)


def _has_folder(name: str, names: dict[str, int]) -> bool:
    folder = _folder(name)
    return folder == "." or (names.get(folder) == FOLDER and _has_folder(folder, names))
