"""What is known of a shop that is not open: its settings, and whether it is one to practice in."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from sqlalchemy.exc import SQLAlchemyError

from core.model.errors import Refused, TapewrightError
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import shop_settings
from core.store import current_settings
from core.store.engines import open_database
from core.store.sharing.shop_scope import ShopSession
from core.store.unit import Unit
from core.wording.messages import say


def check_not_mixed(there: ShopSettings | None, sound: Path, now: datetime) -> None:
    """Refused when practice would take the place of the real shop, or the real one that of practice."""
    comes = settings(sound, now)
    if there is not None and comes is not None and there.front.practice is not comes.front.practice:
        raise Refused(say("records", "practice_over_real" if comes.front.practice else "real_over_practice"))


def settings(where: str | Path, now: datetime) -> ShopSettings | None:
    """The settings of a shop that is not open, those of a new one before any were kept; None where none can
    be read."""
    if "://" not in str(where) and not Path(where).expanduser().is_file():
        return None
    database = open_database(where)
    try:
        with ShopSession(database.reading) as session, session.begin():
            row = current_settings.newest(Unit(session, now, "restore"))
            return shop_settings.new_shop() if row is None else current_settings.of_text(row.value)
    except (SQLAlchemyError, TapewrightError):
        return None
    finally:
        database.close()
