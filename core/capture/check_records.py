"""What a check of a recorded file tells, what it is held against, and who signed it off: frozen records."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from core.capture.file_report import CapturedFile
from core.model.names import TapeCode, TvSystem
from core.wording.messages import say


class Severity(Enum):
    """How grave a finding is, the gravest first."""

    STOP = "stop"
    """Nobody would hand this over; whoever signs it off all the same says why."""
    LOOK = "look"
    """Somebody has to look at it and say that it may stay so."""
    FINE = "fine"


class FileCheck(Enum):
    """What of a file is checked. The value is its name on the command line and in the database."""

    MEASURED = "measured"
    WHOLE = "whole"
    PICTURE = "picture"
    TV_SYSTEM = "tv-system"
    SIZE = "size"
    FRAME_RATE = "frame-rate"
    ASPECT = "aspect"
    SOUND = "sound"
    SOUND_LENGTH = "sound-length"
    BLANK = "blank"
    FROZEN = "frozen"
    LENGTH = "length"


@dataclass(frozen=True, slots=True)
class TapeFacts:
    """What is known of a tape that its files are held against."""

    picture: str = "sd"
    """``sd``: Rec. ITU-R BT.601; ``hd``: the sizes of HDV; ``any``: film, pictures, discs; ``none``: sound
    alone."""
    tv: TvSystem | None = None
    tv_is_seen: bool = False
    """A deck showed the TV system; else the order says it."""
    deck_minutes: float | None = None
    """What somebody read off the deck when it had played."""
    has_no_sound: bool = False
    """That there is no sound on the tape is known already."""


@dataclass(frozen=True, slots=True)
class FileFinding:
    """One thing that was checked, what came of it, and what to do about it."""

    check: FileCheck
    severity: Severity
    words: str
    to_do: str = ""
    code: str = ""
    """What it is called when accepted: the check, and the number of the file where there are several."""

    @property
    def is_fine(self) -> bool:
        return self.severity is Severity.FINE


def fine(check: FileCheck, key: str, **fill: str) -> FileFinding:
    """A finding that is as it should be, with its sentence."""
    return FileFinding(check, Severity.FINE, say("file_check", key, **fill))


def bad(severity: Severity, check: FileCheck, key: str, **fill: str) -> FileFinding:
    """A finding that is not, with its sentence and what to do."""
    return FileFinding(
        check, severity, say("file_check", key, **fill), say("file_check", f"do-{key}", **fill)
    )


@dataclass(frozen=True, slots=True)
class Accepted:
    """A finding that somebody looked at and left as it is; ``words`` as they stood then."""

    code: str
    severity: Severity
    words: str
    note: str = ""
    """Why it may stay so; needed where the finding says stop."""


@dataclass(frozen=True, slots=True)
class SignOff:
    """The files of a tape, signed off by name."""

    name: str
    at: datetime
    by: str
    """Who was signed in."""
    files: tuple[str, ...]
    """SHA-256 of each."""
    accepted: tuple[Accepted, ...] = ()

    def about(self, file: CapturedFile) -> tuple[str, ...]:
        """What was accepted of one file; what concerned all of them goes with the first."""
        sha = file.report.sha256
        if sha not in self.files:
            return ()
        number = self.files.index(sha) + 1
        return tuple(each.words for each in self.accepted if _number_in(each.code) == number)


def _number_in(code: str) -> int:
    """The number of the file in the code of a finding; 1 where it has none."""
    last = code.rpartition("-")[2]
    return int(last) if last.isdecimal() else 1


@dataclass(frozen=True, slots=True)
class TapeCheck:
    """The files of a tape with all that was found, and whether that is signed off."""

    tape: TapeCode
    files: tuple[CapturedFile, ...]
    findings: tuple[FileFinding, ...]
    """File by file, what concerns all of them last."""
    signed: SignOff | None = None
    """The last sign-off, whether it covers all of this or not."""

    @property
    def open(self) -> tuple[FileFinding, ...]:
        """Findings that are not fine and that nobody has accepted."""
        known = {each.code for each in self.signed.accepted} if self.signed else set()
        return tuple(each for each in self.findings if not each.is_fine and each.code not in known)

    @property
    def is_signed_off(self) -> bool:
        """Whether the sign-off covers every file and every finding of today."""
        if self.signed is None:
            return False
        return {each.report.sha256 for each in self.files} <= set(self.signed.files) and not self.open


def unmet(findings: Sequence[FileFinding], notes: Mapping[str, str]) -> tuple[FileFinding, ...]:
    """Findings that ``notes`` (by code) leave open: not named, or a stop without a reason."""
    return tuple(
        each
        for each in findings
        if not each.is_fine
        and (each.code not in notes or (each.severity is Severity.STOP and not notes[each.code]))
    )
