"""What is kept of customers, typed: told, given out as a file, erased."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

from core.cli.invocation import Invocation, Reply
from core.cli.subcommands import paper_folder
from core.model import private_files, regular_files
from core.model.errors import Unavailable
from core.services import decks, paper_files
from core.services.privacy import backup_renewal, customer_export, erasures, kept_entries
from core.services.privacy.backup_renewal import Renewal
from core.services.shop_places import shop_folders
from core.store import current_settings
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop


def tell_kept(call: Invocation) -> Reply:
    """``data-kept``: the page as text; ``--paper`` writes it as well."""
    place = paper_folder.folder(call)
    with call.open() as shop:
        settings, found = shop.ask(decks.settings), shop.ask(kept_entries.entries)
        day = shop.ask(current_settings.local, call.clock()).date()
    lines = [f"{each.what}: {each.why} {each.how_long}" for each in found]
    written, note = paper_folder.after(
        lines[0], place, lambda folder: paper_files.of_kept(found, settings.front, day, folder)
    )
    document = {"kept": [asdict(each) for each in found], "papers": [str(path) for path in written]}
    words = [say("privacy", "about", name=settings.front.name), *lines, say("privacy", "rights")]
    return Reply(document, "\n".join([*words, *map(str, written)]), note=note)


def export(call: Invocation) -> Reply:
    """``export-customer CUSTOMER FILE``; ``-`` for the answer itself."""
    with call.open() as shop:
        found = shop.ask(customer_export.export, call.asked.customer)
        text = json.dumps(found, ensure_ascii=False, indent=2)
        if call.asked.file == "-":
            return Reply(found, text)
        path = regular_files.expanded(call.asked.file).absolute()
        private_files.try_file(path)  # what cannot be written to is not noted as a copy
        call.run(shop, customer_export.note, call.asked.customer, str(path))
        _write(path, text)
    return Reply({"file": str(path), "orders": found["orders"]}, say("privacy", "exported", path=str(path)))


def _write(path: Path, text: str) -> None:
    try:
        private_files.write(path, text.encode())
    except OSError as failure:
        why = failure.strerror or str(failure)
        raise Unavailable(say("privacy", "export-failed", path=path.name, why=why)) from failure


def erase(call: Invocation) -> Reply:
    """``erase CUSTOMER``: from the records, their papers from ``--paper`` and from the shop's folders."""
    folders = [*shop_folders.all_papers(call.where)]
    folders += [] if call.asked.paper is None else [regular_files.expanded(call.asked.paper).absolute()]
    with call.open() as shop:
        gone = call.run(shop, erasures.erase_rows, call.asked.customer)
        done = erasures.clean_up(shop, gone, folders)
        renewed = _renewed(call, shop) if call.asked.renew_backups else None
    document: dict[str, Any] = {
        "erased": list(done.orders),
        "removed": [str(path) for path in done.files],
        "exported": [str(path) for path in done.exported],
        "papers_elsewhere": [asdict(each) for each in done.elsewhere],
    }
    if renewed is None:
        until = done.in_backups_until
        document["in_backups_until"] = None if until is None else until.isoformat()
        document["copies"] = [str(each) for each in done.copies]
        return Reply(document, " ".join(done.sentences))
    said = " ".join((*done.sentences_without_backups, *renewed.sentences))
    return Reply(document | _told(renewed), said, exit_code=_exit_code(renewed))


def renew_backups(call: Invocation) -> Reply:
    """``renew-backups``: a new backup in each place, and none left that holds somebody who was erased."""
    with call.open() as shop:
        done = _renewed(call, shop)
    return Reply(_told(done), " ".join(done.sentences), exit_code=_exit_code(done))


def _renewed(call: Invocation, shop: Shop) -> Renewal:
    """Under the id typed, or the next one: what was done under it before is told again."""
    done = backup_renewal.renew(shop, call.next_command())
    if done.was_before:
        call.notes.append(say("cli", "saved_before"))
    return done


def _told(done: Renewal) -> dict[str, Any]:
    return {
        "files": [str(path) for path in done.made],
        "thinned": [str(path) for path in done.removed],
        "left": [str(path) for path in done.left],
        "failed": [folder for folder, _ in done.failures],
    }


def _exit_code(done: Renewal) -> int:
    return 0 if not done.failures else Unavailable.exit_code
