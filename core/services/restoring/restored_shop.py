"""Puts a checked backup in the place of a shop, whatever was there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Permission, ShopSettings
from core.services import backup
from core.services.privacy.emptied_records import Emptied
from core.services.restoring import erased_since, restored_file, restored_server, shop_there
from core.services.restoring.given_numbers import RestoreNote
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
    erased_again: tuple[str, ...] = ()
    """Orders whose customers had been erased since the backup was made, and were again."""


def restore(
    where: str | Path,
    file: Path,
    *,
    now: datetime,
    who: str,
    replace: bool = False,
    another: bool = False,
    last_given: int = 0,
    key: str = "",
) -> Restored:
    """Puts a backup in the place of the shop at ``where``; what was there before is kept.

    The backup is checked first: WrongInput when it is none of ours, damaged or does not agree with its own
    history, and then nothing is changed. Refused where one of the two is a shop to practise in and the other
    is real, where the people of the shop at ``where`` can be read and ``who`` is none of those who may, where
    the backup is of another shop and ``another`` does not say that this is meant, or whose people do not let
    ``who``, and on a server while anybody else is connected, or was at work since the backup and ``replace``
    does not say that the backup shall take its place all the same. Unavailable while another program has a
    file open. Numbers go on after ``last_given``, the sequence of the last order known, and after those of
    the shop that is replaced. Whoever was erased since is erased again, as far as the shop that is replaced,
    or a list beside it or beside the backup, tells. ``key`` unlocks a locked backup; without it that is
    Refused.
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
    note = RestoreNote(file.name, now, who, last_given, erased_since.known(where, file))
    with failures.named_here(target.where):
        if target.path is None:
            done = restored_server.put_in_place(
                where, file, note, there, replace=replace, another=another, key=key
            )
        else:
            done = _in_a_file(target.path, file, note, there, another, key)
        kept, is_known, gone = done
        erased_since.settle(where, note, gone)
        return Restored(kept, is_known or last_given > 0, gone.orders)


def _in_a_file(
    path: Path, file: Path, note: RestoreNote, there: ShopSettings | None, another: bool, key: str
) -> tuple[Path | None, bool, Emptied]:
    with restore_journal.under_way(path, restored_file.kept_at(path, note.now)) as journal:
        backup.make_ready(file, journal.sound, note.now, key)
        shop_there.check_not_mixed(there, journal.sound, note.now)
        shop_there.check_may_read(path, there, journal.sound, note.who, note.now)
        if not another:
            shop_there.check_same_shop(path, there, journal.sound, note.now)
        gone = erased_since.erase(journal.sound, note)
        is_known = restored_file.put_in_place(journal, note)
        return journal.kept, is_known, gone
