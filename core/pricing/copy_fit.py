"""Whether what is played really goes onto the copies that were ordered: told as soon as it is known.

It is known as soon as the tapes that were played, and the least that the others are believed to play (the
10th percentile of each), take more than there is. Until then what was sold may still hold it.
"""

from __future__ import annotations

from collections.abc import Sequence

from core.catalogue.formats import catalogue
from core.model.copies import copy_standing
from core.model.copies.copy_questions import CopyMisfit, MisfitReason
from core.model.copies.copy_records import CopyContents, CopyRecord, OwnDrive
from core.model.errors import Refused
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.names import TapeCode, TvSystem
from core.model.own_shop import shop_additions
from core.model.ranges import exactly
from core.model.tape_records import TapeRecord
from core.pricing import bitrates, discs, sticks, whole_pieces
from core.wording.locale_figures import figure, tape_code
from core.wording.messages import say

GB = 1e9
"""Bytes of a decimal gigabyte, by definition."""


def misfits(job: Job) -> tuple[CopyMisfit, ...]:
    """The copies of an order that cannot be made as ordered, as far as is known now."""
    played, tv = known_least(job), tv_of(job)
    found = (_misfit(copy, played, tv) for copy in copy_standing.here(job) if _is_to_be_made(job, copy))
    return tuple(each for each in found if each is not None)


def sentence(misfit: CopyMisfit) -> str:
    """What does not fit, in one sentence."""
    in_pieces = misfit.reason is MisfitReason.PIECES
    figures = {
        name: figure(value, digits=0 if in_pieces else 1)
        for name, value in (("needs", misfit.needs), ("holds", misfit.holds))
    }
    tape = tape_code(misfit.longest) if misfit.longest else ""
    return say("copies", f"misfit-{misfit.reason.value}", copy=misfit.words, tape=tape, **figures)


def tv_of(job: Job) -> TvSystem | None:
    """The TV system of all tapes of an order, as booked; None where it is not one."""
    return bitrates.tv_of(tape.draft.tv for tape in job.tapes)


def known_least(job: Job) -> dict[TapeCode, float]:
    """By tape: the minutes that its copy runs at least; tapes that are settled as not copied are left out."""
    found = {}
    for tape in job.tapes:
        is_out = tape.disposition is not None and not tape.disposition.is_copied
        if not is_out and tape.left_out_in is None:
            found[tape.code] = _minutes(tape)
    return found


def pieces_needed(
    delivery: Delivery, code: str, minutes: Sequence[float], tv: TvSystem | None = None
) -> float:
    """Pieces of a kind that the copies of tapes of so many ``minutes`` take; 0 where nothing limits them."""
    if delivery.kind == "dvd":
        return discs.video_dvds([exactly(each) for each in minutes]).discs.likely
    if delivery.kind == "bluray":
        return discs.video_blurays(exactly(sum(minutes))).discs.likely
    own = shop_additions.medium(code)
    if own is not None and own.minutes:
        return float(whole_pieces.in_order(minutes, own.minutes))
    holds = room(code)
    return float(whole_pieces.in_order(sizes(delivery, minutes, tv), holds)) if holds else 0.0


def sizes(delivery: Delivery, minutes: Sequence[float], tv: TvSystem | None = None) -> list[float]:
    """Gigabytes of the file of each tape, at the usual rate of its codec."""
    codec = delivery.codec or "h264"
    return [bitrates.gigabytes(bitrates.rate(codec, tv).likely, each) for each in minutes]


def room(code: str) -> float | None:
    """Gigabytes of files on one piece; None where that is not known from what it is called."""
    if code in ("dvd-r", "bd-r"):
        return discs.holds(code)
    kind, _, size = code.partition("-")
    if kind in ("usb", "disk") and size.isdecimal():
        return sticks.holds(float(size))
    own = shop_additions.medium(code)
    return sticks.holds(own.gigabytes) if own is not None and own.gigabytes else None


def check(copy: CopyRecord, contents: CopyContents) -> None:
    """Refused when the files of ``contents`` do not go onto the copy, or its drive was not described yet."""
    if copy.is_own_drive and copy.drive is None:
        raise Refused(say("copies", "drive-first", copy=copy.words, item=str(copy.id)))
    whole = contents.size_bytes / GB
    holds = drive_room(copy.drive) if copy.drive else _room_of_all(copy)
    if holds is not None and whole > holds:
        raise Refused(
            say(
                "copies",
                "too-much",
                copy=copy.words,
                needs=figure(whole, digits=2),
                holds=figure(holds, digits=2),
            )
        )
    most = copy.drive.longest_file if copy.drive else None
    for each in contents.files:
        if most is not None and each.size_bytes > most:
            raise Refused(say("copies", "file-too-long", name=each.name, copy=copy.words))


def drive_room(drive: OwnDrive) -> float:
    """Gigabytes of files on a customer's drive, formatting taken off."""
    return sticks.holds(drive.size_bytes / GB)


def _room_of_all(copy: CopyRecord) -> float | None:
    one = room(copy.code)
    return None if one is None else one * copy.pieces


def _is_to_be_made(job: Job, copy: CopyRecord) -> bool:
    is_there = copy.made is not None and not copy_standing.lacks(job, copy)
    return copy.is_followed and copy.follows is None and not copy.is_download and not is_there


def _misfit(copy: CopyRecord, played: dict[TapeCode, float], tv: TvSystem | None) -> CopyMisfit | None:
    delivery = copy.delivery
    if delivery is None:
        return None
    minutes = list(played.values())
    if copy.is_own_drive:
        return _of_drive(copy, delivery, played, tv)
    needed = pieces_needed(delivery, copy.code, minutes, tv)
    if needed <= copy.pieces:
        return None
    holds = _room_of_all(copy)
    if delivery.kind == "files" and holds is not None and not copy.code.startswith(("dvd", "bd")):
        return CopyMisfit(copy.id, copy.words, MisfitReason.SIZE, sum(sizes(delivery, minutes, tv)), holds)
    return CopyMisfit(copy.id, copy.words, MisfitReason.PIECES, needed, copy.pieces)


def _of_drive(
    copy: CopyRecord, delivery: Delivery, played: dict[TapeCode, float], tv: TvSystem | None
) -> CopyMisfit | None:
    drive = copy.drive
    if drive is None:
        return None
    each = dict(zip(played, sizes(delivery, list(played.values()), tv), strict=True))
    whole, holds = sum(each.values()), drive_room(drive)
    if whole > holds:
        return CopyMisfit(copy.id, copy.words, MisfitReason.SIZE, whole, holds)
    most = drive.longest_file
    code = max(each, key=lambda tape: each[tape], default=None)
    if most is None or code is None or each[code] * GB <= most:
        return None
    return CopyMisfit(copy.id, copy.words, MisfitReason.FILE_SIZE, each[code], most / GB, code)


def _minutes(tape: TapeRecord) -> float:
    """Of the recording: a scanner may take another time for it than it runs."""
    on_machine = tape.minutes.low if tape.played_minutes is None else tape.played_minutes
    amount = catalogue().format(tape.format).record.amount
    return on_machine / amount.pace.value if amount and amount.pace else on_machine
