"""What is known of a shop that is not open: its settings, and whether it is one to practice in."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.exc import SQLAlchemyError

from core.model import regular_files
from core.model.errors import Refused, TapewrightError
from core.model.own_shop.settings_records import Permission, ShopSettings
from core.services.own_shop import shop_settings
from core.store import current_settings, permissions
from core.store.engines import open_database
from core.store.sharing.shop_rows import older_too
from core.store.sharing.shop_scope import ShopSession
from core.store.shop_tables import EventRow
from core.store.unit import Unit
from core.wording.messages import say


def check_not_mixed(there: ShopSettings | None, sound: Path, now: datetime) -> None:
    """Refused when practice would take the place of the real shop, or the real one that of practice."""
    comes = settings(sound, now)
    if there is not None and comes is not None and there.front.practice is not comes.front.practice:
        raise Refused(say("records", "practice_over_real" if comes.front.practice else "real_over_practice"))


def check_same_shop(where: str | Path, there: ShopSettings | None, sound: Path, now: datetime) -> None:
    """Refused, naming both, when the backup is of another shop than the one that is there.

    Of a shop without any history, or whose records cannot be read, nobody can tell.
    """
    comes = settings(sound, now)
    begun = None if there is None else beginning(where)
    if there is None or comes is None or begun is None or begun == beginning(sound):
        return
    names = (there.front.name, comes.front.name)
    is_same = "yes" if names[0] == names[1] else "no"
    raise Refused(say("records", "of_another_shop", there=names[0], comes=names[1], alike=is_same))


def check_may_read(
    where: str | Path, there: ShopSettings | None, sound: Path, who: str, now: datetime
) -> None:
    """NotPermitted where the people of the backup do not let ``who`` restore it.

    A backup of the very shop that it replaces asks nobody: the people of today decided already.
    """
    comes = settings(sound, now)
    is_own = there is not None and there.working_staff and beginning(where) == beginning(sound)
    if comes is not None and not is_own:
        for refusal in permissions.refusals(comes, who, Permission.RESTORE):
            raise refusal


def beginning(where: str | Path) -> str | None:
    """The digest of the first line of history, by which a shop is known; None where it has none."""
    database = open_database(where)
    try:
        with (
            database.reading.connect() as there,
            older_too(there),
            ShopSession(there) as session,
        ):
            found: str | None = session.execute(select(EventRow.digest).where(EventRow.seq == 1)).scalar()
            return found
    except SQLAlchemyError:
        return None
    finally:
        database.close()


def settings(where: str | Path, now: datetime) -> ShopSettings | None:
    """The settings of a shop that is not open, those of a new one before any were kept; None where none can
    be read."""
    if "://" not in str(where) and not regular_files.expanded(where).is_file():
        return None
    database = open_database(where)
    try:
        with (
            database.reading.connect() as there,
            older_too(there),
            ShopSession(there) as session,
        ):
            row = current_settings.newest(Unit(session, now, "restore"))
            return shop_settings.new_shop() if row is None else current_settings.of_text(row.value)
    except (SQLAlchemyError, TapewrightError):
        return None
    finally:
        database.close()
