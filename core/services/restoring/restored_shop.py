"""Puts a checked backup in the place of a shop, whatever was there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Permission
from core.services import backup
from core.services.restoring import given_numbers, restored_file, restored_server, shop_there
from core.store import failures, permissions
from core.store.engines import open_database
from core.store.shop_files import restore_journal
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Restored:
    """What came of it."""

    kept: Path | None
    """What was there before; None where there was nothing."""
    numbers_known: bool
    """Whether the last order number that was given out is known, so that none is given a second time."""


def restore(
    where: str | Path,
    file: Path,
    *,
    now: datetime,
    who: str,
    replace: bool = False,
    last_given: int = 0,
    key: str = "",
) -> Restored:
    """Puts a backup in the place of the shop at ``where``; what was there before is kept.

    The backup is checked first: WrongInput when it is none of ours, damaged or does not agree with its own
    history, and then nothing is changed. Refused where one of the two is a shop to practise in and the other
    is real, where the people of the shop at ``where`` can be read and ``who`` is none of those who may, and
    on a server while anybody else is connected, or was at work since the backup and ``replace`` does not say
    that the backup shall take its place all the same. Unavailable while another program has a file open.
    Numbers go on after ``last_given``, the sequence of the last order known, and after those of the shop
    that is replaced. ``key`` unlocks a locked backup; without it that is Refused.
    """
    target = open_database(where)
    target.close()
    if target.path is not None:
        restore_journal.settle(target.path)
    there = shop_there.settings(where, now)
    for refusal in permissions.refusals(there, who, Permission.RESTORE) if there is not None else ():
        raise refusal
    if not file.exists():
        raise WrongInput(say("records", "backup"), str(file), say("records", "backup_file_accepted"))
    note = given_numbers.RestoreNote(file.name, now, who, last_given)
    with failures.named_here(target.where):
        if target.path is not None:
            with restore_journal.under_way(target.path, restored_file.kept_at(target.path, now)) as journal:
                backup.make_ready(file, journal.sound, now, key)
                shop_there.check_not_mixed(there, journal.sound, now)
                is_known = restored_file.put_in_place(journal, note)
                return Restored(journal.kept, is_known or last_given > 0)
        kept, is_known = restored_server.put_in_place(where, file, note, there, replace=replace, key=key)
        return Restored(kept, is_known or last_given > 0)
