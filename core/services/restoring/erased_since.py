"""Whoever was erased since a backup was made is erased again before it takes the place of a shop.

Who that was stands in the records that are replaced and on the lists beside the shop and beside the backup:
any of the three may be lost. They name orders by a digest, so that nothing personal is kept to erase by.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from sqlalchemy.exc import SQLAlchemyError

from core.model import regular_files
from core.model.errors import TapewrightError
from core.services.privacy import emptied_records, personal_files
from core.services.privacy.emptied_records import Emptied
from core.services.records_door import Shop
from core.services.restoring.given_numbers import RestoreNote
from core.services.shop_places import shop_folders
from core.store.engines import open_database
from core.store.shop_files import erased_orders


def known(where: str | Path, file: Path) -> frozenset[str]:
    """Orders of erased customers, by the shop at ``where``, as far as it can be read, and by the lists."""
    lists = erased_orders.listed(erased_orders.beside(where)) | erased_orders.listed(file.parent)
    return lists | _of_shop(where)


def erase(sound: Path, note: RestoreNote) -> Emptied:
    """Erases them from the shop file that is made ready, and overwrites what they leave there."""
    if not note.erased:
        return Emptied(())
    with Shop(open_database(sound), lambda: note.now, note.who) as shop:
        gone = shop.run(emptied_records.empty_again, note.erased)
        if gone.orders:
            shop.scrub()
    return gone


def settle(where: str | Path, note: RestoreNote, gone: Emptied) -> None:
    """Keeps the list beside the restored shop, and removes files of theirs that came back by other ways.

    Unavailable, naming it, when such a file cannot be removed.
    """
    with suppress(OSError):
        erased_orders.add(erased_orders.beside(where), note.erased)
    if gone.orders:
        personal_files.remove(str(where), gone, shop_folders.all_papers(where))


def _of_shop(where: str | Path) -> frozenset[str]:
    if "://" not in str(where) and not regular_files.expanded(where).is_file():
        return frozenset()
    database = open_database(where)
    try:
        with database.reading.connect() as connection:
            return erased_orders.of_records(connection)
    except (SQLAlchemyError, TapewrightError, ValueError):
        return frozenset()  # damaged, or no shop of ours: the lists tell
    finally:
        database.close()
