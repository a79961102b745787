"""The names that cross every border: formats, systems, speeds, findings, joins.

The values are the names of the command line, the inventory file and the database.
"""

from __future__ import annotations

from enum import Enum
from typing import NewType, TypeAlias

FormatName = NewType("FormatName", str)
"""A key of the catalogue, e.g. ``vhs-c``; valid names are the catalogue's, never listed in code."""

JobNumber = NewType("JobNumber", str)
"""Six digits, the last a check digit: ``000018``."""

TapeCode = NewType("TapeCode", str)
"""Ten digits: the job number, three for the tape, one check digit: ``0000180014``."""

CommandId = NewType("CommandId", str)
"""Made by the caller and bound to what is asked for; the same command sent twice is carried out once."""

NO_COMMAND = CommandId("")
"""Of what writes nothing."""

EVERY_KIND = frozenset({"jobs", "tapes", "shop"})
"""Kinds of records that change, by what screens show; ``drafts`` are read by their own counter alone."""

ELSEWHERE = "elsewhere"
"""Stands among the kinds of a change that nobody at this window made."""


class TvSystem(Enum):
    NTSC = "ntsc"
    PAL = "pal"


class Speed(Enum):
    """Recording speed. Formats of one speed call it sp; Betamax has b1, b2, b3, film its frames a second."""

    SP = "sp"
    LP = "lp"
    EP = "ep"
    B1 = "b1"
    B2 = "b2"
    B3 = "b3"
    FPS16 = "16fps"
    FPS18 = "18fps"
    FPS24 = "24fps"

    @property
    def words(self) -> str:
        """As printed: ``SP``, ``βII``, ``18 fps``."""
        if self.frames_a_second:
            return f"{self.frames_a_second} fps"
        return {"b1": "βI", "b2": "βII", "b3": "βIII"}.get(self.value, self.value.upper())

    @property
    def frames_a_second(self) -> int:
        """Of film; 0 for tape."""
        number = self.value.removesuffix("fps")
        return int(number) if number != self.value else 0


class Origin(Enum):
    """Where a recording comes from, as far as the customer knows."""

    CAMERA = "camera"
    BROADCAST = "broadcast"


class FillKnown(Enum):
    """How somebody knows which share of a tape is recorded."""

    TOLD = "told"
    """About so much: an eye's or a memory's estimate."""
    READ = "read"
    """Measured, for instance off the packs: the recording ends there."""
    AT_LEAST = "at-least"
    """The tape stands wound to there, within the recording: it goes at least so far."""


class Finding(Enum):
    """What can be wrong with a tape, or must be known before it is copied."""

    SNAPPED = "snapped"
    OFF_HUB = "off-hub"
    CHEWED = "chewed"
    STRETCHED = "stretched"
    CREASED = "creased"
    SCRATCHED = "scratched"
    EDGE_DAMAGE = "edge-damage"
    MOULD = "mould"
    STICKY = "sticky"
    SHELL_BROKEN = "shell-broken"
    REEL_BROKEN = "reel-broken"
    LID_DAMAGED = "lid-damaged"
    SOUND_MISSING = "sound-missing"
    CRUSHED = "crushed"
    COMMERCIAL_RECORDING = "commercial-recording"
    TORN_PERFORATION = "torn-perforation"
    SHRUNKEN = "shrunken"
    VINEGAR = "vinegar"
    NITRATE = "nitrate"
    FADED = "faded"
    DISC_SCRATCHED = "disc-scratched"


class FindingKey(str):
    """The key of a finding of the shop's own, as `Finding` is of one of the program.

    What it means stands in the settings (`core.model.own_shop.shop_additions`).
    """

    __slots__ = ()

    @property
    def value(self) -> str:
        """The name of the command line, the inventory file and the database."""
        return str(self)


AnyFinding: TypeAlias = Finding | FindingKey
"""What can be wrong with a tape, whoever thought of it."""


def finding_of(value: str) -> AnyFinding:
    """The finding of a name; one that the program does not know is the shop's own."""
    return Finding(value) if value in Finding._value2member_map_ else FindingKey(value)


class Container(Enum):
    """What the things of a format are counted in: each has a code of its own and is followed by it."""

    TAPE = "tape"
    REEL = "reel"
    """Of film."""
    BOX = "box"
    """Of slides or prints: a tray, an album, an envelope."""
    DISC = "disc"


class Outcome(Enum):
    """What the shop expects of a tape, worst last."""

    PLAYS = "plays"
    REPAIR = "repair"
    PARTLY = "partly"
    CANNOT = "cannot"


class Join(Enum):
    """How two ends were joined."""

    TAPE = "tape"
    ADHESIVE = "adhesive"
    LEADER = "leader"


class Measure(Enum):
    """What a place on a tape was read in."""

    MINUTES = "minutes"
    METRES = "metres"


class Section(Enum):
    """What of a tape a joint lies in: the clear leader holds no recording."""

    LEADER = "leader"
    PROGRAMME = "programme"


class DonorPart(Enum):
    """What a donor cassette can give."""

    SHELL = "shell"
    REEL = "reel"
    LID = "lid"
    SCREWS = "screws"


class Look(Enum):
    """What a look at a repaired tape told: it may go on, or the repair has to be done again."""

    OK = "ok"
    AGAIN = "again"
