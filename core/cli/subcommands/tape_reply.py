"""The answer that every subcommand about one tape gives."""

from __future__ import annotations

from core.cli import json_answers, plain_answers
from core.cli.invocation import Reply
from core.model.tape_records import TapeRecord


def told(record: TapeRecord) -> Reply:
    """One tape as it is now."""
    return Reply(json_answers.tape(record), plain_answers.tape(record))
