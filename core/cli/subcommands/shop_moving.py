"""The whole shop from a file to a server, or back."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import replace

from core.cli.invocation import Invocation, Reply
from core.wording.messages import say


def move_shop(call: Invocation) -> Reply:
    from core.services.shop_places import shop_move

    came = replace(call, asked=Namespace(**{**vars(call.asked), "shop": call.asked.from_place}))
    with came.open() as source:
        before = source.where
        moved = shop_move.move(source, call.asked.to_place)
    count = sum(moved.rows.values())
    document = {"from": before, "to": moved.where, "rows": count, "tables": moved.rows}
    files = {
        "files": moved.files.copied,
        "staying": [{"file": str(each.path), "reachable": each.is_reachable} for each in moved.files.staying],
        "elsewhere": moved.files.elsewhere,
    }
    key = "shop_move_finished" if moved.was_there else "shop_moved"
    said = say("cli", key, before=before, where=moved.where, rows=count)
    return Reply(document | files, " ".join((said, *moved.files.sentences)))
