"""Copies of the records that still hold somebody who was erased: which, until when; and the list of them."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from core.model.backup_records import BackupState
from core.services.own_shop import backup_places
from core.store.shop_files import dump_files, erased_orders

if TYPE_CHECKING:
    from core.services.records_door import Shop


STILL_GROWING = timedelta(hours=1)
"""Whatever grows is written to more often than that (an assumption)."""


def last_day(state: BackupState, now: datetime) -> date | None:
    """The day by which every backup that is there now is thinned out; None: there is none."""
    gone = state.gone_by(now)
    return None if gone is None else gone.astimezone(ZoneInfo(state.timezone)).date()


def list_erased(shop: Shop) -> None:
    """Writes the orders of everybody who was erased on the list beside the shop and in every place.

    A place that cannot be reached gets its list with its next backup, and no older one is thinned before.
    """
    orders, state = orders_of(shop), shop.ask(backup_places.read)
    places = [Path(place.folder) for place in state.places]
    for folder in (erased_orders.beside(shop.where), *(each for each in places if each.is_dir())):
        with suppress(OSError):
            erased_orders.add(folder, orders)


def remove_leftovers(shop: Shop) -> None:
    """Removes what a program that was killed left half made: copies that nobody knows and nobody thins out.

    An hour old, so that nothing goes that is just growing. What cannot be removed is tried again next time.
    """
    before = (shop.clock() - STILL_GROWING).timestamp()
    for path in _half_made(shop):
        with suppress(OSError):
            if path.stat().st_mtime < before:
                shutil.rmtree(path) if path.is_dir() else path.unlink()


def _half_made(shop: Shop) -> Iterator[Path]:
    """In the places and beside a file; and where backups are tried out and put back."""
    state, own = shop.ask(backup_places.read), shop.database.path
    folders = [Path(place.folder) for place in state.places] + ([] if own is None else [own.parent])
    for folder in folders:
        yield from (each for name in (".*.growing", ".backing-up-*") for each in folder.glob(name))
    for name in ("tapewright-rehearsal-*", "tapewright-restoring-*"):
        yield from Path(tempfile.gettempdir()).glob(name)


def orders_of(shop: Shop) -> frozenset[str]:
    """The orders of everybody who was erased, as the list names them."""
    with shop.database.reading.connect() as connection:
        return erased_orders.of_records(connection)


def beside(shop: Shop) -> tuple[Path, ...]:
    """The copies the program made before an update or a restore that hold somebody who was erased."""
    orders = orders_of(shop)
    return tuple(path for path in _made_before_something(shop) if erased_orders.held_in(path, orders))


def _made_before_something(shop: Shop) -> Iterator[Path]:
    """Beside a file; of a server in this user's data folder, and where a backup of it was restored from."""
    path = shop.database.path
    if path is not None:
        yield from sorted(path.parent.glob(f"{path.stem}-before-*{path.suffix}"))
        return
    folders = [dump_files.kept_in(), *map(Path, shop.ask(backup_places.read).plan.places)]
    for folder in folders:
        yield from sorted(folder.glob(f"before-*{dump_files.ENDING}"))
