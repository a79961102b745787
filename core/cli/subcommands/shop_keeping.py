"""The shop itself: copied, put back, checked, and the invented one."""

from __future__ import annotations

import os
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic
from typing import TYPE_CHECKING

from core.cli.invocation import Invocation, Reply, contents, default_demo
from core.cli.subcommands import paper_folder
from core.model import regular_files
from core.model.errors import Refused, TapewrightError, Unavailable, WrongInput
from core.model.own_shop.settings_records import Permission
from core.wording import record_heads
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.own_shop.kept_heads import HeadsLookedAt
    from core.services.records_door import Shop


def back_up(call: Invocation) -> Reply:
    """A copy in the named folder, or one in each place of the settings; ``--check`` rehearses the newest."""
    from core.services import backup
    from core.services.own_shop import backup_places
    from core.store import current_settings

    with call.open() as shop:
        places = shop.ask(backup_places.read).plan.places
        if call.asked.dir is not None:
            folder = str(_path(call.asked.dir))
            if folder not in places and not call.asked.check:
                lock = shop.ask(current_settings.read).backup.lock
                copy = backup.make(shop.database, Path(folder), call.clock(), lock)
                return Reply({"file": str(copy)}, str(copy))
            places = (folder,)
        if not places:
            raise Refused(say("cli", "backup_no_place"))
        if call.asked.check:
            files = [backup_places.rehearse(shop, folder, _key(call)).path for folder in places]
        else:
            files = [backup_places.back_up(shop, folder) for folder in places]
    document = {"file": str(files[0]), "files": [str(each) for each in files]}
    return Reply(document, "\n".join(map(str, files)))


def restore(call: Invocation) -> Reply:
    from core.model import numbers
    from core.services.restoring import restored_shop

    asked = call.asked
    key = _key(call)
    last = 0 if asked.last_number is None else numbers.sequence(numbers.read_job_number(asked.last_number))
    done = restored_shop.restore(
        call.where,
        _path(asked.file),
        now=call.clock(),
        who=_who_restores(call, key),
        replace=asked.replace,
        another=asked.another_shop,
        last_given=last,
        key=key,
    )
    before = None if done.kept is None else str(done.kept)
    text = say("cli", "restored") if before is None else say("cli", "restored_what_before_kept", kept=before)
    note = "" if done.numbers_known else say("cli", "restored_numbers_unknown")
    again = list(done.erased_again)
    said = [text, *([say("cli", "restored_erased_again", n=len(again))] if again else [])]
    document = {"restored": asked.file, "kept": before, "numbers_known": done.numbers_known}
    return Reply(document | {"erased_again": again}, " ".join(said), note=note)


def _who_restores(call: Invocation, key: str) -> str:
    """Who acts, proven to the shop that would be replaced; where nobody is in that, to the one that comes."""
    from core.cli import proving
    from core.services import backup
    from core.services.records_door import Shop
    from core.services.restoring import shop_there
    from core.store import current_settings
    from core.store.engines import open_database

    open_database(call.where).close()  # a place that is none is complained of first
    there, file = shop_there.settings(call.where, call.clock()), _path(call.asked.file)
    if there is not None and there.working_staff:
        with call.open() as shop:
            return shop.who
    if not file.exists():
        return str(call.asked.who)
    with TemporaryDirectory(prefix="tapewright-restoring-") as scratch:
        sound = Path(scratch) / "shop.sqlite"
        backup.make_ready(file, sound, call.clock(), key)
        with Shop.open(sound, clock=call.clock, who=call.asked.who, create=False) as shop:
            return proving.prove(shop, call.asked, shop.ask(current_settings.read)).name


def rehearse_restore(call: Invocation) -> Reply:
    """A backup restored in a scratch place, checked whole and told; of it nothing is left."""
    from core.model import numbers
    from core.services import backup

    file, begun = _path(call.asked.file), monotonic()
    if not file.exists():
        raise WrongInput(say("records", "backup"), str(file), say("records", "backup_file_accepted"))
    found = backup.check(file, call.clock(), _key(call))
    last = numbers.job_number(found.last_number) if found.last_number else None
    written = None if found.last_entry is None else found.last_entry.isoformat()
    document = {
        "file": str(file),
        "sound": True,
        "orders": found.orders,
        "last_number": last,
        "last_entry": written,
        "seconds": round(monotonic() - begun, 2),
    }
    text = say("cli", "rehearsed", file=file, orders=found.orders, last=last or "", entry=written or "")
    return Reply(document, text)


def make_key(call: Invocation) -> Reply:
    """A new key for the backups: shown once, on paper with ``--paper``."""
    from core.services.own_shop import backup_key, shop_document
    from core.store import permissions

    with call.open() as shop:
        shop.ask(permissions.check, Permission.SETTINGS)
        place, made = paper_folder.folder(call), backup_key.new()
        # The paper first: backups must not be locked with a key that nobody got.
        papers = [] if place is None else [str(shop.ask(backup_key.write_paper, made, place))]
        call.run(shop, shop_document.set_texts, [("backup.lock", made.public_key)])
    document = {"key": made.key, "lock": made.public_key, "papers": papers}
    return Reply(document, say("cli", "key_shown_once", key=made.key))


def _key(call: Invocation) -> str:
    """The key of locked backups: of ``--key FILE``, else from TAPEWRIGHT_BACKUP_KEY, else nothing."""
    if call.asked.key is None:
        return os.environ.get("TAPEWRIGHT_BACKUP_KEY", "")
    return contents(call.asked.key).decode("utf-8", errors="replace")


def verify(call: Invocation) -> Reply:
    """``verify``: also whether the history holds what names of backups say, or a receipt (``--head``)."""
    from core.services import backup
    from core.store import history
    from core.store.audits import row_audit

    with call.open() as shop:
        problems = backup.verify(shop.database, call.clock(), head=call.asked.head)
        heads = _heads(shop, call.asked.backups)
        problems = (*problems, *heads.problems)
        where, head = shop.where, shop.ask(history.head)
    document = {
        "sound": not problems,
        "problems": list(problems),
        "head": head,
        "backups_compared": heads.count,
        "outside": row_audit.outside(),
    }
    if not problems:
        number = say("cli", "verify_check_number", head=record_heads.short_head(head))
        return Reply(document, f"{say('cli', 'database_chain_history_sound')}\n{number}")
    advice = say("cli", "cannot_trusted_any_more", where=where, problems=problems[0])
    return Reply(document, "\n".join(problems), note=advice, exit_code=Unavailable.exit_code)


def _heads(shop: Shop, folder: str | None) -> HeadsLookedAt:
    """Nothing where the records are so damaged that they tell no places."""
    from core.services.own_shop import kept_heads

    try:
        return kept_heads.look(shop, [] if folder is None else [_path(folder)])
    except TapewrightError:
        return kept_heads.HeadsLookedAt(0, ())


def make_demo(call: Invocation) -> Reply:
    from core.services import invented_shop
    from core.services.records_door import as_shown

    given = None if call.asked.shop is None else as_shown(call.asked.shop)
    if given is not None and call.asked.dir is None:
        raise WrongInput("--shop", given, say("cli", "demo_takes_dir"))
    folder = default_demo() if call.asked.dir is None else _path(call.asked.dir)
    made = invented_shop.make(folder, call.clock())
    files = [str(path) for path in (made.shop, *made.papers)]
    opens = None if call.asked.no_window else str(made.shop)
    unused = say("cli", "demo_shop_unused", shop=given) if given is not None else ""
    return Reply({"shop": str(made.shop), "files": files}, "\n".join(files), opens, note=unused)


def _path(typed: str) -> Path:
    return regular_files.expanded(typed).absolute()
