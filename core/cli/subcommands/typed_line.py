"""An order typed as one line: the inventory it stands for, or what of it was not understood."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from core.catalogue.box_line import line_reading, line_told
from core.catalogue.box_line.line_records import LineCustomer, LineReading
from core.catalogue.box_line.line_words import ROOM
from core.cli import json_lines
from core.cli.invocation import Invocation, Reply, contents
from core.model.errors import AsWritten, WrongInput
from core.wording.messages import say

if TYPE_CHECKING:
    from argparse import Namespace

OPTION = "--line"


def inventory(call: Invocation) -> bytes:
    """The inventory to quote or book: a file, or what ``--line`` names and the options beside it.

    WrongInput where both or neither is given, and for a line of which a word was not taken.
    """
    asked = call.asked
    if (asked.file is None) is (asked.line is None):
        raise WrongInput("FILE", AsWritten(asked.file or ""), say(ROOM, "file-or-line"))
    if asked.line is None:
        _refuse_beside_file(asked)
        return contents(asked.file)
    reading = line_reading.read(asked.line)
    _refuse_faults(reading)
    document: dict[str, object] = {"tapes": [json_lines.inventory_row(row) for row in reading.rows]}
    if who := _customer(asked, reading.customer):
        document["customer"] = who
    if asked.tv is not None:
        document["tv"] = asked.tv
    return json.dumps(document).encode()


def _customer(asked: Namespace, named: LineCustomer | None) -> dict[str, object]:
    """Who is named by the options, and by the line as far as those say nothing."""
    in_line = (named.name or None, named.phone or None) if named is not None else (None, None)
    name = in_line[0] if asked.customer_name is None else asked.customer_name
    phone = in_line[1] if asked.phone is None else asked.phone
    return {} if name is None else {"name": name, "phone": phone, "email": asked.email}


def told(call: Invocation) -> dict[str, object]:
    """The reading of ``--line`` for a JSON answer; nothing where a file was read."""
    line = call.asked.line
    return {} if line is None else {"line": json_lines.reading(line_reading.read(line))}


def faulty(call: Invocation) -> Reply | None:
    """For JSON the reading of a line that was not understood, with code 2; else None."""
    if not call.asked.json or call.asked.line is None:
        return None
    try:
        _refuse_faults(line_reading.read(call.asked.line))
    except WrongInput as failure:
        return Reply(told(call), "", note=failure.sentence, exit_code=failure.exit_code)
    return None


def _refuse_faults(reading: LineReading) -> None:
    if not reading.rows:
        raise WrongInput(OPTION, reading.text, say(ROOM, "line-accepted"))
    fault = line_told.first_fault(reading)
    if fault is not None:
        at, sentence = fault
        raise _NotUnderstood(reading.text, at, sentence)


class _NotUnderstood(WrongInput):
    """A sentence that says by itself what was found and what may have been meant."""

    def __init__(self, found: str, at: int, sentence: str) -> None:
        super().__init__(OPTION, found, say(ROOM, "line-accepted"))
        self.sentence = say(ROOM, "line-fault", option=OPTION, at=at + 1, sentence=sentence)


def _refuse_beside_file(asked: Namespace) -> None:
    """Who brings the tapes stands in a file itself."""
    for option, given in (
        ("--name", asked.customer_name),
        ("--phone", asked.phone),
        ("--email", asked.email),
    ):
        if given is not None:
            raise WrongInput(option, AsWritten(asked.file), say(ROOM, "only-with-line", option=option))
