"""Discs: their exact bytes, files on them, and what a picture looks like on a DVD for a given length.

All figures and their sources are in ``resources/catalogue/media.toml``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from core.model.errors import WrongInput, one_of
from core.model.quote_records import Copy, Storage
from core.model.ranges import ZERO, Range
from core.pricing import bitrates, whole_pieces
from core.wording.locale_figures import figure
from core.wording.messages import say

SECTOR_BYTES = 2048
"""User data of one logical sector, by definition (ECMA-267 for DVD; of BD the same, from memory)."""


def disc_bytes(disc: str) -> int:
    """Exact capacity of a disc, e.g. ``dvd-r``; WrongInput when the kind is not known."""
    discs = bitrates.page()["discs"]
    if disc not in discs:
        raise WrongInput("disc", disc, one_of(discs))
    return int(discs[disc]["sectors"]) * SECTOR_BYTES


def holds(disc: str) -> float:
    """Gigabytes of files on a disc, its file system taken off."""
    return (disc_bytes(disc) - int(bitrates.page()["disc_file_system"]["bytes"])) / 1e9


def disc_words(disc: str) -> str:
    """``DVD-R``."""
    return str(bitrates.page()["discs"][disc]["words"])


def of_files(size: Range, sizes: Sequence[Range], disc: str, files: str) -> Storage:
    """Files of ``sizes``, ``size`` gigabytes together, on data discs in order; ``files`` names the codec."""
    count = whole_pieces.columns_in_order(sizes, size, holds(disc))
    copy = Copy(disc, say("media", "disc-of", disc=disc_words(disc), files=files), count)
    return Storage(size, count, (copy,), tuple(_cut_notes(sizes, disc)))


def _cut_notes(sizes: Sequence[Range], disc: str) -> Iterator[str]:
    longest = max((size.high for size in sizes), default=0.0)
    parts = math.ceil(longest / holds(disc) - whole_pieces.DUST)
    if parts > 1:
        yield say(
            "media",
            "file-is-cut",
            size=figure(longest, digits=2),
            disc=disc_words(disc),
            holds=figure(holds(disc), digits=2),
            parts=parts,
        )


# --- DVD-Video ---------------------------------------------------------------------------


def dvd_rate(seconds: float, layers: int = 1) -> float:
    """Average Mb/s at which ``seconds`` of video fill a DVD of one or two layers (no cap applied)."""
    budget = bitrates.page()["dvd_video"]["dvd_9_gbit" if layers == 2 else "dvd_5_gbit"]
    return float(budget) * 1000 / seconds


def encoded_rate(minutes: float, layers: int = 1) -> float:
    """Mb/s that ``minutes`` really get on one DVD: an encoder uses no more than it usefully can."""
    return min(dvd_rate(minutes * 60, layers), float(bitrates.page()["dvd_video"]["usual_mb_s"]))


def dvd_minutes(layers: int = 1) -> float:
    """Minutes on one DVD before the picture gets marginal (4 Mb/s)."""
    budget = dvd_rate(1, layers)
    return budget / float(bitrates.page()["dvd_video"]["least_mb_s"]) / 60


def dvd_verdict(minutes: float, layers: int = 1) -> str:
    """What ``minutes`` on one DVD look like: good, fair, marginal or poor."""
    rate, page = dvd_rate(minutes * 60, layers), bitrates.page()["dvd_video"]
    if rate >= page["fair_mb_s"]:
        return "good"
    if rate >= page["least_mb_s"]:
        return "fair"
    return "marginal" if rate >= page["poor_mb_s"] else "poor"


def video_dvds(tapes: Sequence[Range]) -> Storage:
    """Every tape begins a disc of its own (common practice, no source) and takes as many as it needs."""
    each = dvd_minutes()
    count = sum((whole_pieces.whole(tape, lambda minutes: minutes / each) for tape in tapes), ZERO)
    most = bitrates.page()["dvd_video"]["usual_mb_s"]
    size = sum((tape.times(most * bitrates.GB_PER_MB_S_MINUTE) for tape in tapes), ZERO)
    full = float(bitrates.page()["dvd_video"]["dvd_5_gbit"]) / 8
    held = Range(
        min(size.low, count.low * full),
        min(size.likely, count.likely * full),
        min(size.high, count.high * full),
    )
    copies = (Copy("dvd-r", say("media", "dvd-video"), count),)
    return Storage(
        held, count, copies, tuple(_picture_notes(max((tape.high for tape in tapes), default=0.0)))
    )


def _picture_notes(longest: float) -> Iterator[str]:
    """What the picture of the longest tape looks like, when that is not simply good on one disc."""
    parts = max(math.ceil(longest / dvd_minutes() - whole_pieces.DUST), 1)
    share = longest / parts
    if parts > 1:
        yield say(
            "media",
            "several-dvds",
            minutes=round(longest),
            parts=parts,
            rate=figure(encoded_rate(share), digits=1),
            quality=_quality(share),
            one_rate=figure(dvd_rate(longest * 60), digits=1),
            one_quality=_quality(longest),
        )
    elif longest and dvd_verdict(longest) != "good":
        rate = figure(encoded_rate(longest), digits=1)
        yield say("media", "one-dvd", minutes=round(longest), rate=rate, quality=_quality(longest))


def _quality(minutes: float) -> str:
    return say("media", f"quality-{dvd_verdict(minutes)}")


def video_blurays(minutes: Range) -> Storage:
    """Video on BD-R discs, shared out freely."""
    size = minutes.times(bitrates.page()["bluray"]["mb_s"] * bitrates.GB_PER_MB_S_MINUTE)
    count = whole_pieces.whole(size, lambda gb: gb * 1e9 / disc_bytes("bd-r"))
    return Storage(size, count, (Copy("bd-r", say("media", "bluray-video"), count),))
