"""How long people are busy with the copies of an order: part of its date."""

from __future__ import annotations

from collections.abc import Sequence

from core.model.copies.copy_records import DOWNLOAD, OWN_DRIVE
from core.model.inventory import Delivery
from core.model.own_shop import shop_additions
from core.model.own_shop.copying_minutes import CopyingMinutes
from core.model.quote_records import Storage


def of_order(times: CopyingMinutes, deliver: Sequence[Delivery], storage: Storage) -> float:
    """Minutes for all copies of a quote, as many pieces as are likely."""
    pieces = sum(of_pieces(times, each.code, each.count.likely) for each in storage.copies)
    downloads = sum(each.carrier == DOWNLOAD for each in deliver) if storage.gigabytes.high else 0
    return pieces + downloads * times.download


def of_pieces(times: CopyingMinutes, code: str, pieces: float) -> float:
    """Minutes for so many pieces of one kind."""
    return pieces * _each(times, code)


def _each(times: CopyingMinutes, code: str) -> float:
    if code == DOWNLOAD:
        return times.download
    if code == OWN_DRIVE or code.startswith("disk-"):
        return times.drive
    own = shop_additions.medium(code)
    is_disc = own.minutes > 0 if own is not None else code in ("dvd-r", "bd-r")
    return times.disc if is_disc else times.stick
