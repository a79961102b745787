"""What could be done about a copy that cannot be made as it was ordered; each solves it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from core.model.copies.copy_questions import CopyChoice, CopyMisfit, MisfitReason, NewCopy
from core.model.copies.copy_records import DOWNLOAD, OWN_DRIVE, CopyRecord, FileSystem
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.names import TvSystem
from core.model.own_shop import shop_additions
from core.model.ranges import ZERO, Range, exactly
from core.pricing import bitrates, copy_fit, copy_sizes, discs, sticks
from core.wording.messages import say

Option = tuple[CopyChoice, NewCopy]


def options(job: Job, copy: CopyRecord, misfit: CopyMisfit) -> tuple[Option, ...]:
    """The ways out, in the order in which they are offered."""
    minutes, tv = _minutes(job), copy_fit.tv_of(job)
    found = [
        *_of_drive(copy, misfit),
        *_other_pieces(copy, minutes, tv),
        *_smaller(copy, minutes, tv),
    ]
    codec = _codec(copy)
    found.append((CopyChoice.DOWNLOAD, _download(codec)))
    return tuple(found)


def _minutes(job: Job) -> list[Range]:
    """Of the recordings: those played as they were, the others as they are believed."""
    least = copy_fit.known_least(job)
    return [
        tape.minutes if tape.played_minutes is None else exactly(least[tape.code])
        for tape in job.tapes
        if tape.code in least
    ]


def _of_drive(copy: CopyRecord, misfit: CopyMisfit) -> Iterator[Option]:
    """A drive whose file system ends a file too early: formatted anew, or the files split."""
    drive, now = copy.drive, _as_now(copy)
    if drive is None or misfit.reason is not MisfitReason.FILE_SIZE:
        return
    yield CopyChoice.SPLIT, replace(now, drive=replace(drive, splits=True))
    yield CopyChoice.REFORMAT, replace(now, drive=replace(drive, file_system=FileSystem.EXFAT))


def _other_pieces(copy: CopyRecord, minutes: Sequence[Range], tv: TvSystem | None) -> Iterator[Option]:
    delivery = copy.delivery or copy_sizes.USUAL
    if copy.is_own_drive:
        yield CopyChoice.STICK, _on_stick(delivery, minutes, tv)
        return
    larger = _made(delivery, minutes, tv)
    if larger is not None and larger.code != copy.code and larger.pieces == 1:
        yield CopyChoice.LARGER, larger
    needed = int(copy_fit.pieces_needed(delivery, copy.code, [each.likely for each in minutes], tv))
    yield CopyChoice.MORE, replace(_as_now(copy), pieces=max(needed, copy.pieces + 1))


def _on_stick(delivery: Delivery, minutes: Sequence[Range], tv: TvSystem | None) -> NewCopy:
    """The smallest stick that holds all, else a disk."""
    on_stick = _made(replace(delivery, carrier="usb"), minutes, tv)
    if on_stick is not None and on_stick.pieces == 1:
        return on_stick
    on_disk = _made(replace(delivery, carrier="disk"), minutes, tv)
    return on_disk or _download(delivery.codec or "h264")


def _smaller(copy: CopyRecord, minutes: Sequence[Range], tv: TvSystem | None) -> Iterator[Option]:
    """The best of the smaller kinds of files with which all goes onto what was ordered."""
    if copy.delivery is None or copy.delivery.kind != "files":
        return
    now = bitrates.rate(_codec(copy)).likely
    smaller = [codec for codec in bitrates.CODECS if bitrates.rate(codec).likely < now]
    for codec in sorted(smaller, key=lambda each: -bitrates.rate(each).likely):
        delivery = replace(copy.delivery, codec=codec)
        if _goes_on(copy, delivery, [each.likely for each in minutes], tv):
            words = piece_words(copy.code, codec)
            yield CopyChoice.SMALLER, replace(_as_now(copy), delivery=delivery, words=words)
            return


def _goes_on(copy: CopyRecord, delivery: Delivery, minutes: Sequence[float], tv: TvSystem | None) -> bool:
    if copy.drive is None:
        return copy_fit.pieces_needed(delivery, copy.code, minutes, tv) <= copy.pieces
    each, most = copy_fit.sizes(delivery, minutes, tv), copy.drive.longest_file
    fits = sum(each) <= copy_fit.drive_room(copy.drive)
    return fits and (most is None or max(each, default=0.0) * copy_fit.GB <= most)


def piece_words(code: str, codec: str) -> str:
    """What a piece with files of a codec is called: ``USB stick, 64 GB: H.264 files``."""
    files = bitrates.words(codec)
    kind, _, size = code.partition("-")
    if code == OWN_DRIVE:
        return say("media", "own-drive", files=files)
    if code in ("dvd-r", "bd-r"):
        return say("media", "disc-of", disc=discs.disc_words(code), files=files)
    if kind in ("usb", "disk") and size.isdecimal():
        return say("media", "stick-of", stick=sticks.stick_words(kind, int(size)), files=files)
    own = shop_additions.medium(code)
    return say("media", "stick-of", stick=own.words if own else code, files=files)


def _made(delivery: Delivery, minutes: Sequence[Range], tv: TvSystem | None) -> NewCopy | None:
    copies = copy_sizes.made(delivery, sum(minutes, ZERO), minutes, tv).copies
    if not copies:
        return None
    return NewCopy(delivery, copies[0].code, copies[0].words, round(copies[0].count.likely))


def _download(codec: str) -> NewCopy:
    words = say("media", "download-of", files=bitrates.words(codec))
    return NewCopy(Delivery("files", codec, DOWNLOAD), DOWNLOAD, words, 1)


def _as_now(copy: CopyRecord) -> NewCopy:
    return NewCopy(copy.delivery or copy_sizes.USUAL, copy.code, copy.words, copy.pieces, copy.drive)


def _codec(copy: CopyRecord) -> str:
    return (copy.delivery.codec if copy.delivery else None) or "h264"
