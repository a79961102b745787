"""Sticks, disks and downloads: what fits after formatting, and files too long for FAT32.

All figures and their sources are in ``resources/catalogue/media.toml``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.model.quote_records import Copy, Storage
from core.model.ranges import ZERO, Range, exactly
from core.pricing import bitrates, whole_pieces
from core.wording.locale_figures import figure
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether a file set goes onto a stick. Sizes in GiB as an operating system shows them."""

    fits: bool
    is_near_full: bool
    needs_gib: float
    holds_gib: float


def onto_stick(gigabytes: float, stick_gb: float) -> Fit:
    """Whether ``gigabytes`` go onto a stick or disk sold as ``stick_gb``, formatting taken off."""
    filling = bitrates.page()["filling"]
    return Fit(
        fits=gigabytes <= holds(stick_gb),
        is_near_full=gigabytes > stick_gb * filling["near_full"],
        needs_gib=bitrates.gib(gigabytes),
        holds_gib=bitrates.gib(stick_gb),
    )


def holds(stick_gb: float) -> float:
    """Gigabytes of files on a stick or disk sold as ``stick_gb``, formatting taken off."""
    return stick_gb * float(bitrates.page()["filling"]["usable"])


def sold(carrier: str) -> Sequence[int]:
    """Sizes in which ``usb`` sticks or hard ``disk`` are sold, in gigabytes, smallest first."""
    sizes: Sequence[int] = bitrates.page()["sticks" if carrier == "usb" else "disks"]["gigabytes"]
    return sizes


def stick_words(carrier: str, stick_gb: int) -> str:
    """``USB stick, 64 GB``, ``hard disk, 2 TB``."""
    if carrier == "usb":
        return say("media", "stick", gb=stick_gb)
    return say("media", "disk", tb=stick_gb / 1000)


def fat32_minutes(codec: str) -> float:
    """Minutes of a codec after which FAT32 ends a file."""
    a_minute = bitrates.gigabytes(bitrates.rate(codec).high, 1)
    return float(bitrates.page()["filling"]["fat32_bytes"]) / 1e9 / a_minute


def fat32_parts(gigabytes: float) -> int:
    """Parts into which FAT32 would cut a file, to the byte; 1 when it takes it whole."""
    most = int(bitrates.page()["filling"]["fat32_bytes"])
    return max(-(-round(gigabytes * 1e9) // most), 1)


def of_files(size: Range, sizes: Sequence[Range], carrier: str, codec: str) -> Storage:
    """Files of ``sizes``, ``size`` gigabytes together: the smallest stick or disk that holds all, else the
    largest several times."""
    chosen = next((gb for gb in sold(carrier) if onto_stick(size.high, gb).fits), sold(carrier)[-1])
    named = stick_words(carrier, chosen)
    count = whole_pieces.whole(size, lambda gb: gb / holds(chosen))
    copy = Copy(
        f"{carrier}-{chosen}", say("media", "stick-of", stick=named, files=bitrates.words(codec)), count
    )
    notes = (*_full_notes(size, chosen, named), *_file_notes(sizes, codec))
    return Storage(size, ZERO, (copy,), notes)


def onto_own_drive(size: Range, sizes: Sequence[Range], codec: str) -> Storage:
    """Files onto a drive that the customer brings."""
    if not size.high:
        return Storage(size, ZERO, ())
    copy = Copy("own-drive", say("media", "own-drive", files=bitrates.words(codec)), exactly(1.0))
    notes = (say("media", "own-drive-needs", gb=round(size.high)), *_file_notes(sizes, codec))
    return Storage(size, ZERO, (copy,), notes)


def to_download(size: Range) -> Storage:
    """Files that nobody carries home."""
    note = say("media", "download", gb=round(size.high))
    return Storage(size, ZERO, (), (note,) if size.high else ())


def _full_notes(size: Range, chosen: int, named: str) -> Iterator[str]:
    fit = onto_stick(size.high, chosen)
    if fit.fits and fit.is_near_full:
        needs, room = figure(fit.needs_gib, digits=1), figure(fit.holds_gib, digits=1)
        yield say("media", "nearly-full", stick=named, needs=needs, holds=room)


def _file_notes(sizes: Sequence[Range], codec: str) -> Iterator[str]:
    longest = max((size.high for size in sizes), default=0.0)
    parts = fat32_parts(longest)
    if parts > 1:
        minutes = math.floor(fat32_minutes(codec))
        yield say("media", "fat32", size=figure(longest, digits=2), minutes=minutes, parts=parts)
