"""What is kept of customers, typed: told, given out as a file, erased."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from core.cli.invocation import Invocation, Reply, is_url
from core.cli.subcommands import paper_folder
from core.model import private_files
from core.services import decks, paper_files
from core.services.privacy import customer_export, erasures, kept_entries
from core.store import current_settings
from core.wording.messages import say


def tell_kept(call: Invocation) -> Reply:
    """``data-kept``: the page as text; ``--paper`` writes it as well."""
    place = paper_folder.folder(call)
    with call.open() as shop:
        settings = shop.ask(decks.settings)
        day = shop.ask(current_settings.local, call.clock()).date()
    found = kept_entries.entries(settings)
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
    path = Path(call.asked.file).expanduser().absolute()
    private_files.write(path, text.encode())
    return Reply({"file": str(path), "orders": found["orders"]}, say("privacy", "exported", path=str(path)))


def erase(call: Invocation) -> Reply:
    """``erase CUSTOMER``: from the records, their papers from ``--paper`` and from beside the shop."""
    folders = [] if call.asked.paper is None else [Path(call.asked.paper).expanduser().absolute()]
    if not is_url(call.where):
        folders.append(Path(call.where).expanduser().absolute().parent / "papers")
    with call.open() as shop:
        done = erasures.erase(shop, call.asked.customer, [each for each in folders if each.is_dir()])
    said = [say("privacy", "erased", n=len(done.orders))]
    if done.files:
        said.append(say("privacy", "files-removed", n=len(done.files)))
    document = {"erased": list(done.orders), "removed": [str(path) for path in done.files]}
    return Reply(document, " ".join([*said, say("privacy", "older-copies")]))
