"""How long a person is busy with one copy: writing it, labeling it, checking it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CopyingMinutes:
    """Minutes of a person's time for each piece; the writing itself runs unattended beside other work.

    The usual ten minutes are common practice, no source: start it, compare the checksums, play the beginning
    and the end, label it.
    """

    stick: float = 10.0
    disc: float = 10.0
    drive: float = 10.0
    """A hard disk, or the customer's own drive."""
    download: float = 10.0
    """Of one download: putting the files there and sending the link."""


USUAL_MINUTES = CopyingMinutes()
