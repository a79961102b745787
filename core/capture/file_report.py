"""What is known of a captured file: frozen records for the screens, the papers and the shop's books."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from core.model.names import TapeCode
from core.wording.messages import say


class StretchKind(Enum):
    """What is wrong, or missing, for a stretch of time."""

    BLACK = "black"
    BLUE = "blue"
    FROZEN = "frozen"
    SILENT = "silent"


class Sound(Enum):
    """Whether the sound was recorded."""

    PRESENT = "present"
    PARTLY = "partly"
    MISSING = "missing"


@dataclass(frozen=True, slots=True)
class Stretch:
    """From ``start`` to ``end``, in seconds from the beginning of the file."""

    kind: StretchKind
    start: float
    end: float

    @property
    def seconds(self) -> float:
        return self.end - self.start

    @property
    def words(self) -> str:
        """``0:00 to 0:12: black picture``."""
        key = f"stretch-{self.kind.value}"
        return say("capture", key, start=clock(self.start), end=clock(self.end))


@dataclass(frozen=True, slots=True)
class PictureFormat:
    """How the pictures of a file are coded."""

    width: int
    height: int
    rate: tuple[int, int] | None = None
    """Frames a second as a fraction; None where the file does not say."""
    pixel: tuple[int, int] | None = None
    """Width to height of one pixel (sample aspect ratio); None where the file does not say."""

    @property
    def frames_a_second(self) -> float | None:
        return self.rate[0] / self.rate[1] if self.rate else None

    @property
    def aspect(self) -> float:
        """Width to height of the picture as it is shown (display aspect ratio); pixels that the file does not
        tell are taken to be square, as players do."""
        wide, high = self.pixel or (1, 1)
        return self.width * wide / (self.height * high)


@dataclass(frozen=True, slots=True)
class Report:
    """What a captured file holds."""

    name: str
    """The file's own name, without its folder."""
    size_bytes: int
    sha256: str
    seconds: float
    """Real length: up to the end of the last picture or sound that could be read."""
    has_picture: bool
    sound: Sound
    stretches: tuple[Stretch, ...]
    """In order of their start."""
    keep_from: float
    keep_to: float
    """Proposed trims, in seconds: what lies outside is blank."""
    billable_minutes: float
    remarks: tuple[str, ...] = ()
    """Sentences for the person at the bench."""
    picture: PictureFormat | None = None
    """None without pictures, and in reports made before this was read."""
    picture_seconds: float | None = None
    """Where the last picture ends; None without any, and in reports made before this was read."""
    sound_seconds: float | None = None
    """Where the last sound ends; None as above."""
    unread: int = 0
    """Places that could not be decoded."""
    breaks_off: bool = False
    """Whether it ends before the length it claims, or in the middle of a packet."""
    dead_channels: int = 0
    """Channels that are silent all through while another is not."""

    @property
    def is_measured(self) -> bool:
        """Whether the format of the picture and both lengths were read; older reports lack them."""
        return self.picture_seconds is not None or self.sound_seconds is not None

    @property
    def is_trimmed(self) -> bool:
        """Whether anything is to be cut off at either end."""
        return self.keep_from > 0 or self.keep_to < self.seconds


@dataclass(frozen=True, slots=True)
class CapturedFile:
    """A report in the shop's books: the file made from one tape."""

    tape: TapeCode
    report: Report
    at: datetime
    by: str
    known: tuple[str, ...] = ()
    """What was found in it and left as it is when it was signed off; read for the files of an order."""


def clock(seconds: float) -> str:
    """``1:02:05`` or ``2:05``; rounded to the second."""
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
