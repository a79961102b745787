"""What the copies take up: gigabytes, discs, sticks and disks, and what to warn about.

All figures and their sources are in ``resources/catalogue/media.toml``. Gigabytes are decimal.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from core import resources
from core.errors import WrongInput
from core.inventory import Delivery
from core.ranges import ZERO, Range, exactly
from core.records import Copy, Storage

KINDS = ("files", "dvd", "bluray")
CODECS = ("h264", "h264-8", "dv", "hdv", "mpeg2", "ffv1", "v210")
CARRIERS = ("usb", "disk", "download", "own-drive", "dvd-r", "bd-r")
USUAL = Delivery("files", "h264", "usb")
"""What is made when the customer orders nothing."""

GB_PER_MB_S_MINUTE = 0.0075
"""Published check: GB = Mb/s × minutes × 0.0075 (handbook: Dalhousie Libraries moving images)."""
GIB = 1.073741824
"""Decimal gigabytes in one GiB, which most systems show."""
SECTOR_BYTES = 2048
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether a file set goes onto a stick. Sizes in GiB as an operating system shows them."""

    fits: bool
    is_near_full: bool
    needs_gib: float
    holds_gib: float


def storage(minutes: Range, tape_minutes: Sequence[Range], deliver: Sequence[Delivery]) -> Storage:
    """What the copies of one job take up.

    ``minutes`` is the play time of all tapes together, ``tape_minutes`` that of each. The gigabytes are
    those of the files; video discs count as discs, and as gigabytes only when nothing else is made.
    WrongInput for a codec or carrier that is not known.
    """
    parts = [_made(delivery, minutes, tape_minutes) for delivery in deliver or (USUAL,)]
    files = [
        part for part, delivery in zip(parts, deliver or (USUAL,), strict=True) if delivery.kind == "files"
    ]
    return Storage(
        gigabytes=sum((part.gigabytes for part in files or parts), ZERO),
        discs=sum((part.discs for part in parts), ZERO),
        copies=tuple(copy for part in parts for copy in part.copies if copy.count.high > 0),
        notes=tuple(dict.fromkeys(note for part in parts for note in part.notes)),
    )


def gigabytes(mb_s: float, minutes: float) -> float:
    """Decimal gigabytes of a stream of ``mb_s`` megabits a second over ``minutes``."""
    return mb_s * minutes * GB_PER_MB_S_MINUTE


def gib(gigabytes: float) -> float:
    """Decimal gigabytes as GiB."""
    return gigabytes / GIB


def disc_bytes(disc: str) -> int:
    """Exact capacity of a disc, e.g. ``dvd-r``; WrongInput when the kind is not known."""
    discs = _page()["discs"]
    if disc not in discs:
        raise WrongInput("disc", disc, f"accepted are {', '.join(discs)}")
    return int(discs[disc]["sectors"]) * SECTOR_BYTES


def discs_for(gigabytes: float, disc: str) -> int:
    """Data discs that hold so many gigabytes, when files may be shared out freely."""
    return math.ceil(gigabytes * 1e9 / disc_bytes(disc) - _ROUNDING)


def dvd_rate(seconds: float, layers: int = 1) -> float:
    """Average Mb/s at which ``seconds`` of video fill a DVD of one or two layers (no cap applied)."""
    budget = _page()["dvd_video"]["dvd_9_gbit" if layers == 2 else "dvd_5_gbit"]
    return float(budget) * 1000 / seconds


def dvd_minutes() -> float:
    """Minutes on one single-layer DVD before the picture gets marginal (4 Mb/s)."""
    page = _page()["dvd_video"]
    return float(page["dvd_5_gbit"] * 1000 / page["least_mb_s"] / 60)


def dvd_verdict(minutes: float) -> str:
    """What ``minutes`` on one single-layer DVD look like: good, fair, marginal or poor."""
    rate, page = dvd_rate(minutes * 60), _page()["dvd_video"]
    if rate >= page["fair_mb_s"]:
        return "good"
    if rate >= page["least_mb_s"]:
        return "fair"
    return "marginal" if rate >= page["poor_mb_s"] else "poor"


def onto_stick(gigabytes: float, stick_gb: float) -> Fit:
    """Whether ``gigabytes`` go onto a stick or disk sold as ``stick_gb``, formatting taken off."""
    filling = _page()["filling"]
    return Fit(
        fits=gigabytes <= stick_gb * filling["usable"],
        is_near_full=gigabytes > stick_gb * filling["near_full"],
        needs_gib=gib(gigabytes),
        holds_gib=gib(stick_gb),
    )


def rate(codec: str) -> Range:
    """Mb/s of a codec, sound included; WrongInput when it is not known."""
    table = _codec(codec)
    usual = float(table["mb_s"])
    return Range(table.get("mb_s_low", usual), usual, table.get("mb_s_high", usual))


def codec_words(codec: str) -> str:
    """``H.264 files``."""
    return str(_codec(codec)["words"])


@cache
def _page() -> Mapping[str, Any]:
    return tomllib.loads(resources.path("catalogue", "media.toml").read_text(encoding="utf-8"))


def _codec(codec: str) -> Mapping[str, Any]:
    if codec not in CODECS:
        raise WrongInput("codec", codec, f"accepted are {', '.join(CODECS)}")
    table: Mapping[str, Any] = _page()["codecs"][codec]
    return table


def _made(delivery: Delivery, minutes: Range, tapes: Sequence[Range]) -> Storage:
    if delivery.kind == "files":
        return _files(delivery.codec or "h264", delivery.carrier or "usb", minutes, tapes)
    if delivery.kind == "dvd":
        return _video_dvds(tapes)
    if delivery.kind == "bluray":
        return _video_blurays(minutes)
    raise WrongInput("as", delivery.kind, f"accepted are {', '.join(KINDS)}")


def _files(codec: str, carrier: str, minutes: Range, tapes: Sequence[Range]) -> Storage:
    mb_s = rate(codec)
    size = Range(
        gigabytes(mb_s.low, minutes.low),
        gigabytes(mb_s.likely, minutes.likely),
        gigabytes(mb_s.high, minutes.high),
    )
    longest = max((gigabytes(mb_s.high, tape.high) for tape in tapes), default=0.0)
    if carrier in ("dvd-r", "bd-r"):
        return _data_discs(size, carrier, codec)
    if carrier in ("usb", "disk"):
        return _stick(size, longest, carrier, codec)
    if carrier == "own-drive":
        words = f"customer's own drive: {codec_words(codec)}"
        notes = (f"the customer's drive needs {size.high:.0f} GB free", *_one_file(longest))
        return Storage(size, ZERO, (Copy("own-drive", words, _once(size)),), notes if size.high else ())
    if carrier == "download":
        note = f"up to {size.high:.0f} GB to download; nothing to hand over but the tapes"
        return Storage(size, ZERO, (), (note,) if size.high else ())
    raise WrongInput("on", carrier, f"accepted are {', '.join(CARRIERS)}")


def _stick(size: Range, longest: float, carrier: str, codec: str) -> Storage:
    sold: Sequence[int] = _page()["sticks" if carrier == "usb" else "disks"]["gigabytes"]
    chosen = next((gb for gb in sold if onto_stick(size.high, gb).fits), sold[-1])
    holds = chosen * _page()["filling"]["usable"]
    named = f"USB stick, {chosen} GB" if carrier == "usb" else f"hard disk, {chosen / 1000:g} TB"
    copy = Copy(f"{carrier}-{chosen}", f"{named}: {codec_words(codec)}", _pieces(size, lambda gb: gb / holds))
    return Storage(size, ZERO, (copy,), tuple(_stick_notes(size, chosen, named, longest)))


def _stick_notes(size: Range, chosen: int, named: str, longest: float) -> Iterable[str]:
    fit = onto_stick(size.high, chosen)
    if fit.fits and fit.is_near_full:
        yield (
            f"the {named} may be nearly full: {fit.needs_gib:.1f} GiB needed,"
            f" {fit.holds_gib:.1f} GiB before formatting"
        )
    yield from _one_file(longest)


def _one_file(longest: float) -> tuple[str, ...]:
    if longest * 1e9 <= _page()["filling"]["fat32_bytes"]:
        return ()
    return ("one file may be over 4.29 GB: format the drive as exFAT, FAT32 cannot hold it",)


def _data_discs(size: Range, disc: str, codec: str) -> Storage:
    count = _pieces(size, lambda gb: gb * 1e9 / disc_bytes(disc))
    words = f"{_page()['discs'][disc]['words']} disc: {codec_words(codec)}"
    return Storage(size, count, (Copy(disc, words, count),))


def _video_dvds(tapes: Sequence[Range]) -> Storage:
    """Every tape begins a disc of its own (common practice, no source) and takes as many as it needs."""
    each = dvd_minutes()
    count = sum((_pieces(tape, lambda minutes: minutes / each) for tape in tapes), ZERO)
    most = _page()["dvd_video"]["usual_mb_s"]
    size = sum((tape.times(most * GB_PER_MB_S_MINUTE) for tape in tapes), ZERO)
    full = float(_page()["dvd_video"]["dvd_5_gbit"]) / 8
    held = Range(
        min(size.low, count.low * full),
        min(size.likely, count.likely * full),
        min(size.high, count.high * full),
    )
    return Storage(held, count, (Copy("dvd-r", "DVD-R disc: DVD-Video", count),))


def _video_blurays(minutes: Range) -> Storage:
    size = minutes.times(_page()["bluray"]["mb_s"] * GB_PER_MB_S_MINUTE)
    count = _pieces(size, lambda gb: gb * 1e9 / disc_bytes("bd-r"))
    return Storage(size, count, (Copy("bd-r", "BD-R disc: video", count),))


def _pieces(amount: Range, share: Callable[[float], float]) -> Range:
    """Whole pieces in every column."""
    low, likely, high = (
        float(math.ceil(share(column) - _ROUNDING)) for column in (amount.low, amount.likely, amount.high)
    )
    return Range(low, likely, high)


def _once(size: Range) -> Range:
    return exactly(1.0) if size.high > 0 else ZERO
