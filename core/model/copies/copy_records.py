"""Copies as work: what is on each, who made and checked it, on which drive or by which link it goes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum

from core.model.inventory import Delivery
from core.model.names import TapeCode

DOWNLOAD = "download"
OWN_DRIVE = "own-drive"
"""Codes, and carriers, of copies that the price book has no piece for."""


class FileSystem(Enum):
    """What a customer's own drive is formatted with. The value is the name typed and stored."""

    FAT32 = "fat32"
    EXFAT = "exfat"
    NTFS = "ntfs"
    APFS = "apfs"
    HFS_PLUS = "hfs-plus"
    EXT4 = "ext4"
    OTHER = "other"
    """One without a limit for a file that matters here."""

    @property
    def longest_file(self) -> int | None:
        """Bytes of the longest file it takes; None: no limit that matters.

        FAT keeps the size of a file in 32 bits (Microsoft, FAT32 File System Specification, DIR_FileSize;
        from memory): 4 GiB less one byte.
        """
        return 2**32 - 1 if self is FileSystem.FAT32 else None


class CopyStepKind(Enum):
    """What was done to a copy. The value is what the database says."""

    MADE = "made"
    CHECKED = "checked"
    DRIVE = "drive"
    """The customer's own drive was described."""
    LINK = "link"
    """The customer was given the link."""
    DELETED = "deleted"
    """The download was deleted."""
    STRUCK = "struck"
    """The newest of made, checked and link was entered by mistake."""

    @property
    def may_be_struck(self) -> bool:
        return self in (CopyStepKind.MADE, CopyStepKind.CHECKED, CopyStepKind.LINK)


class CopyState(Enum):
    """How far a copy is."""

    TO_MAKE = "to-make"
    MADE = "made"
    CHECKED = "checked"
    HANDED_OVER = "handed-over"
    DELETED = "deleted"


@dataclass(frozen=True, slots=True)
class CopiedFile:
    """A file on a copy; ``tape`` is None where nobody said which one it was recorded from."""

    name: str
    size_bytes: int
    sha256: str
    tape: TapeCode | None = None


@dataclass(frozen=True, slots=True)
class CopyContents:
    """What is on a copy: the tapes, and the files where it is made of files."""

    tapes: tuple[TapeCode, ...]
    files: tuple[CopiedFile, ...] = ()

    @property
    def size_bytes(self) -> int:
        """Bytes of all files."""
        return sum(each.size_bytes for each in self.files)


@dataclass(frozen=True, slots=True)
class OwnDrive:
    """A drive that the customer brought, as it was found."""

    size_bytes: int
    """As it is sold; what formatting takes is taken off by whoever asks what goes onto it."""
    file_system: FileSystem
    splits: bool = False
    """Whether its owner agreed that longer files are split into parts."""

    @property
    def longest_file(self) -> int | None:
        """Bytes of the longest file that is put onto it in one; None: no limit."""
        return None if self.splits else self.file_system.longest_file


@dataclass(frozen=True, slots=True)
class DownloadLink:
    """Where a customer downloads the files, and the last day on which that is possible."""

    link: str
    until: date


@dataclass(frozen=True, slots=True)
class CopyStep:
    """One thing that was done to a copy, by whom and when."""

    kind: CopyStepKind
    at: datetime
    by: str
    contents: CopyContents | None = None
    drive: OwnDrive | None = None
    download: DownloadLink | None = None
    reason: str = ""
    """Why the step before it was struck out."""


@dataclass(frozen=True, slots=True)
class CopyRecord:
    """One copy that was ordered: a stick, a set of discs, a drive, a download."""

    id: int
    code: str
    words: str
    handed_back_at: datetime | None
    """When it was handed over, or its link was given."""
    pieces: int = 1
    """Discs of a set, sticks of one copy."""
    delivery: Delivery | None = None
    """The order it is made for; None of one booked before copies were followed."""
    steps: tuple[CopyStep, ...] = ()
    """All that was done to it, oldest first, struck out or not."""
    follows: int | None = None
    """The copy that was handed over with some of the tapes; this one holds the others."""

    @property
    def standing_steps(self) -> tuple[CopyStep, ...]:
        """The steps that were not struck out."""
        found: list[CopyStep] = []
        for step in self.steps:
            if step.kind is not CopyStepKind.STRUCK:
                found.append(step)
            elif wrong := [place for place, each in enumerate(found) if each.kind.may_be_struck]:
                del found[wrong[-1]]
        return tuple(found)

    @property
    def made(self) -> CopyStep | None:
        """When it was made, as it is now."""
        return self._newest(CopyStepKind.MADE)

    @property
    def checked(self) -> CopyStep | None:
        """When it was checked since it was made."""
        steps = self.standing_steps
        if self.made is None:
            return None
        told = [each for each in steps if each.kind in (CopyStepKind.MADE, CopyStepKind.CHECKED)]
        return told[-1] if told[-1].kind is CopyStepKind.CHECKED else None

    @property
    def contents(self) -> CopyContents:
        """What is on it; nothing before it is made."""
        made = self.made
        return CopyContents(()) if made is None or made.contents is None else made.contents

    @property
    def drive(self) -> OwnDrive | None:
        """The customer's drive as it was described last."""
        step = self._newest(CopyStepKind.DRIVE)
        return None if step is None else step.drive

    @property
    def download(self) -> DownloadLink | None:
        """The link that was given last."""
        step = self._newest(CopyStepKind.LINK)
        return None if step is None else step.download

    @property
    def deleted(self) -> CopyStep | None:
        """When the download was deleted."""
        return self._newest(CopyStepKind.DELETED)

    @property
    def is_followed(self) -> bool:
        """Whether it is made, checked and handed over as an item; older orders kept no record of that."""
        return self.delivery is not None

    @property
    def is_download(self) -> bool:
        return self.code == DOWNLOAD

    @property
    def is_own_drive(self) -> bool:
        return self.code == OWN_DRIVE

    @property
    def state(self) -> CopyState:
        """How far it is."""
        if self.deleted is not None:
            return CopyState.DELETED
        if self.handed_back_at is not None:
            return CopyState.HANDED_OVER
        if self.checked is not None:
            return CopyState.CHECKED
        return CopyState.TO_MAKE if self.made is None else CopyState.MADE

    def _newest(self, kind: CopyStepKind) -> CopyStep | None:
        return next((each for each in reversed(self.standing_steps) if each.kind is kind), None)
