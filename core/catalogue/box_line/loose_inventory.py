"""An inventory file whose faults stand in the cells: for a person who sees them and puts them right.

The strict reader is `core.services.inventory_file`; it refuses the whole file, as the command line must.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from core.catalogue.box_line import pasted_table
from core.catalogue.box_line.line_words import ROOM
from core.catalogue.formats import catalogue
from core.model import json_reader
from core.model.inventory import MOST_TAPES
from core.model.names import finding_of
from core.model.spoken_names import spoken
from core.model.typed_draft import TypedBox, TypedRow
from core.wording.messages import say

_CUSTOMER = ("name", "phone")


def read(data: bytes, file: str) -> TypedBox:
    """The rows and who brings them, cell by cell; `WrongInput` for what is no JSON object with ``tapes``."""
    box = json_reader.read(data, file)
    if not isinstance(box.content, dict) or not isinstance(box.content.get("tapes"), list):
        box.missing("tapes", say("readers", "needed_list_least_one"))
    tapes = box.content["tapes"]
    if len(tapes) > MOST_TAPES:
        box.refuse(say(ROOM, "rows-accepted", most=MOST_TAPES))
    who = box.content.get("customer")
    name, phone = (_text(who.get(key)) if isinstance(who, dict) else "" for key in _CUSTOMER)
    rows = tuple(_row(tape) for tape in tapes)
    return TypedBox(rows or (TypedRow(),), name, phone, _text(box.content.get("tv")).upper())


def _row(tape: Any) -> TypedRow:
    if not isinstance(tape, dict):
        return TypedRow(format=_text(tape))
    cells = {key: _cell(key, tape[key]) for key in pasted_table.COLUMNS if tape.get(key) is not None}
    others = [", ".join(_others(tape))] if any(_others(tape)) else []
    cells["findings"] = ", ".join([text for text in (cells.get("findings", ""), *others) if text])
    return pasted_table.typed_row(cells)


def _cell(key: str, value: Any) -> str:
    if key == "findings" and isinstance(value, list):
        return ", ".join(_finding(each) for each in value)
    text = _text(value)
    if key in ("format", "recorded_as") and text in catalogue().names:
        return catalogue().format(text).words
    if key == "speed" and text == "unknown":
        return ""
    return text.upper() if key in ("speed", "tv") else text


def _finding(value: Any) -> str:
    text = _text(value)
    return spoken(finding_of(text)) if text and text == finding_of(text).value and _is_known(text) else text


def _is_known(text: str) -> bool:
    from core.catalogue import condition

    return any(finding.value == text for finding in condition.offered())


def _others(tape: dict[str, Any]) -> Iterator[str]:
    """What the Counter has no cell for."""
    for key, value in tape.items():
        if key not in pasted_table.COLUMNS and value is not None:
            yield say(ROOM, "unread-cell", head=_text(key), text=_text(value))


def _text(value: Any) -> str:
    text = value if isinstance(value, str) else "" if value is None else json.dumps(value)
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
