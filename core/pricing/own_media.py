"""Sticks and discs of the shop's own: how many pieces hold the recordings of a box."""

from __future__ import annotations

from collections.abc import Sequence

from core.model.own_shop.shop_additions import OwnMedium
from core.model.quote_records import Copy, Storage
from core.model.ranges import ZERO, Range
from core.pricing import bitrates, sticks, whole_pieces
from core.wording.messages import say


def by_size(medium: OwnMedium, size: Range, sizes: Sequence[Range], codec: str) -> Storage:
    """Files of ``sizes``, ``size`` gigabytes together, in the order of the tapes; formatting taken off."""
    count = whole_pieces.columns_in_order(sizes, size, sticks.holds(medium.gigabytes))
    words = say("media", "stick-of", stick=medium.words, files=bitrates.words(codec))
    return Storage(size, ZERO, (Copy(medium.name, words, count),))


def by_minutes(medium: OwnMedium, size: Range, minutes: Range, tapes: Sequence[Range]) -> Storage:
    """Recordings of ``minutes`` together, tape after tape; only one longer than a piece is cut."""
    count = whole_pieces.columns_in_order(tapes, minutes, medium.minutes)
    return Storage(size, count, (Copy(medium.name, medium.words, count),))
