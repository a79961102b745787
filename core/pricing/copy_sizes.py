"""What the copies of a job take up: gigabytes, discs, sticks and disks, and what to warn about.

The values are in `bitrates`, `discs` and `sticks`; cheaper combinations in `savings`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from core.model.errors import WrongInput, one_of
from core.model.inventory import CARRIERS, Delivery
from core.model.names import TvSystem
from core.model.own_shop import shop_additions
from core.model.quote_records import Copy, Storage
from core.model.ranges import ZERO, Range
from core.pricing import bitrates, discs, own_media, sticks
from core.wording.messages import worded_cache

KINDS = ("files", "dvd", "bluray")
CODECS = bitrates.CODECS
USUAL = Delivery("files", "h264", "usb")
"""What is made when the customer orders nothing."""


def storage(
    minutes: Range, tape_minutes: Sequence[Range], deliver: Sequence[Delivery], tv: TvSystem | None = None
) -> Storage:
    """What the copies of one job take up.

    ``minutes`` is the play time of all tapes together, ``tape_minutes`` that of each, ``tv`` the TV system of
    all of them where it is one. The gigabytes are those of the files; video discs count as discs, and as
    gigabytes only when nothing else is made.
    WrongInput for a codec or carrier that is not known.
    """
    parts = [_remembered(delivery, minutes, tuple(tape_minutes), tv) for delivery in deliver or (USUAL,)]
    files = [
        part for part, delivery in zip(parts, deliver or (USUAL,), strict=True) if delivery.kind == "files"
    ]
    return Storage(
        gigabytes=sum((part.gigabytes for part in files or parts), ZERO),
        discs=sum((part.discs for part in parts), ZERO),
        copies=_together(copy for part in parts for copy in part.copies if copy.count.high > 0),
        notes=tuple(dict.fromkeys(note for part in parts for note in part.notes)),
    )


def _together(copies: Iterable[Copy]) -> tuple[Copy, ...]:
    """The same pieces of several sets as one."""
    found: dict[tuple[str, str], Range] = {}
    for copy in copies:
        key = (copy.code, copy.words)
        found[key] = found.get(key, ZERO) + copy.count
    return tuple(Copy(code, words, count) for (code, words), count in found.items())


def made(delivery: Delivery, minutes: Range, tapes: Sequence[Range], tv: TvSystem | None = None) -> Storage:
    """What one set of copies takes up; WrongInput when its kind, codec or carrier is not known."""
    if delivery.kind == "files":
        return _files(delivery.codec or "h264", delivery.carrier or "usb", minutes, tapes, tv)
    if delivery.kind == "dvd":
        return discs.video_dvds(tapes)
    if delivery.kind == "bluray":
        return discs.video_blurays(minutes)
    raise WrongInput("as", delivery.kind, one_of(KINDS))


@worded_cache(maxsize=256)
def _remembered(delivery: Delivery, minutes: Range, tapes: tuple[Range, ...], tv: TvSystem | None) -> Storage:
    """`made`, remembered: most keys leave the minutes of a box as they are."""
    return made(delivery, minutes, tapes, tv)


def carriers() -> tuple[str, ...]:
    """Everything files may be ordered on now."""
    own = shop_additions.offered(shop_additions.in_force().media)
    return (*CARRIERS, *(each.name for each in own))


def codec_words(codec: str) -> str:
    """``H.264 files``."""
    return bitrates.words(codec)


def _files(codec: str, carrier: str, minutes: Range, tapes: Sequence[Range], tv: TvSystem | None) -> Storage:
    size, sizes = bitrates.size(codec, minutes, tv), [bitrates.size(codec, tape, tv) for tape in tapes]
    if carrier in ("dvd-r", "bd-r"):
        return discs.of_files(size, sizes, carrier, bitrates.words(codec))
    if carrier in ("usb", "disk"):
        return sticks.of_files(size, sizes, carrier, codec)
    if carrier == "own-drive":
        return sticks.onto_own_drive(size, sizes, codec)
    if carrier == "download":
        return sticks.to_download(size)
    own = shop_additions.medium(carrier)
    if own is None:
        raise WrongInput("on", carrier, one_of(carriers()))
    if own.minutes:
        return own_media.by_minutes(own, size, minutes, tapes)
    return own_media.by_size(own, size, sizes, codec)
