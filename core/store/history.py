"""What happened, line after line, never changed: each line carries a digest of itself and of the line before.

SQLite's own checks call a file sound after one letter of a text was altered; the chain does not. Lines are
appended inside the transaction of the step they tell about, so neither exists without the other.

The words of a line may name a customer. They go into its digest by way of ``sealed``, their digest with a
salt of their own: of somebody who was erased words and salt are thrown away, and the chain still holds.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterable, Iterator
from contextlib import closing
from datetime import datetime
from typing import Any

from sqlalchemy import Select, bindparam, select

from core.model import serialization
from core.model.errors import WrongInput
from core.model.names import JobNumber, TapeCode
from core.model.tape_records import JournalEntry
from core.store import row_digests
from core.store.columns import StoredTable, written
from core.store.sharing.shop_scope import narrowed_once
from core.store.shop_tables import CounterRow, EventRow
from core.store.tape_tables import TapeRow
from core.store.unit import Unit, allot
from core.wording.messages import say

BEGINNING = "0" * 64
"""What the first line has as the digest before it."""

ERASED = "customer-erased"
"""Of the line that names the lines an erasure emptied."""
DONOR = "donor"
"""Of the lines about the shelf of donor parts."""
ERASED_WORDS = ("", "{}")
"""What an emptied line says."""

_HEAD = "head_of_history"
_EVENTS = StoredTable.metadata.tables[EventRow.__tablename__]


def append(
    unit: Unit,
    kind: str,
    words: str,
    *,
    job: JobNumber | str | None = None,
    tape: TapeCode | str | None = None,
    **payload: object,
) -> int:
    """Adds one line: ``words`` for people, ``payload`` (plain or frozen values) for the checks. Its number.

    Its moment is never before that of the line before it: a clock that was set back does not turn the order
    of what happened. WrongInput when nobody is said to have done it: every line bears a name.
    """
    if not unit.who.strip():
        raise WrongInput(say("settings", "people-name"), unit.who, say("files", "some-words"))
    seq, salt, said = allot(unit, "event"), row_digests.new_salt(), serialization.dumps(payload)
    previous, before = _head(unit, seq)
    event = EventRow(
        seq=seq,
        job=job,
        tape=tape,
        kind=kind,
        words=words,
        payload=said,
        salt=salt,
        sealed=sealed(words, said, salt),
        at=unit.now if before is None else max(unit.now, before),
        by=unit.who,
        previous=previous,
        digest="",
    )
    event.digest = digest(event)
    unit.session.info[_HEAD] = event.digest, event.at
    unit.session.add(event)
    return seq


def append_of_tape(unit: Unit, row: TapeRow, kind: str, words: str, **more: object) -> None:
    """One line about a tape with what the audit compares, and everything written to the database."""
    append(
        unit,
        kind,
        words,
        job=row.code[:6],
        tape=row.code,
        station=row.station,
        findings=row.findings,
        settled=row.settled,
        not_for_reuse=row.not_for_reuse,
        marked=row.marked_at is not None,
        look=row.look,
        label_astray=row.astray_since is not None,
        disposition=row.disposition,
        signed_off_by=row.signed_off_by,
        **more,
    )
    unit.session.flush()


def told_digests(unit: Unit, kinds: Collection[str], number: str, digest: str) -> dict[int, str]:
    """What lines of these kinds say of single rows: by the number under one key the digest under the other.

    Lines whose words were erased say nothing.
    """
    asked = select(EventRow.payload).where(EventRow.kind.in_(kinds), EventRow.salt.is_not(None))
    lines = map(payload_of, unit.session.scalars(asked))
    return {int(said.get(number, 0)): str(said.get(digest)) for said in lines}


def append_rows(unit: Unit) -> None:
    """The lines with the digests of all rows the transaction wrote; its last act."""
    for digests in row_digests.taken(unit.session):
        append(unit, row_digests.KIND, "", rows=digests)
    unit.session.flush()


def digest(event: EventRow) -> str:
    """SHA-256 over all that the line says, its words sealed, and the digest before it."""
    said = [
        *(event.seq, event.job, event.tape, event.kind, event.sealed),
        *(written(event.at), event.by, event.previous),
    ]
    return fingerprint(serialization.dumps(said))


def sealed(words: str, payload: str, salt: str) -> str:
    """SHA-256 over what a line says, with its salt before it."""
    return fingerprint(salt + serialization.dumps([words, payload]))


def is_erased(event: EventRow) -> bool:
    """Whether what the line said was thrown away with its salt."""
    return event.salt is None


def fingerprint(text: str) -> str:
    """SHA-256 of a text, in hexadecimal."""
    return hashlib.sha256(text.encode()).hexdigest()


def happenings(events: Iterable[EventRow]) -> tuple[JournalEntry, ...]:
    """The lines as people read them."""
    return tuple(JournalEntry(event.at, event.by, event.words) for event in events)


def of_tape(unit: Unit, code: TapeCode) -> tuple[JournalEntry, ...]:
    """What happened to one tape, oldest first."""
    return happenings(unit.session.scalars(_lines().where(EventRow.tape == code)))


def of_job(unit: Unit, number: JobNumber) -> tuple[JournalEntry, ...]:
    """What happened to a job and to all its tapes, oldest first."""
    return happenings(unit.session.scalars(_lines().where(EventRow.job == number)))


def latest(unit: Unit) -> int:
    """The number of the last line, 0 at the beginning: it grows whenever anybody stored anything."""
    found = unit.session.scalars(select(CounterRow.last).where(CounterRow.name == "event")).one_or_none()
    return found or 0


def last_at(unit: Unit) -> datetime | None:
    """The moment of the last line; None at the beginning."""
    return unit.session.scalars(select(EventRow.at).order_by(EventRow.seq.desc()).limit(1)).one_or_none()


def last_by(unit: Unit, tape: TapeCode | str, kinds: Collection[str]) -> str | None:
    """Who did the last thing of these kinds to a tape; None where nobody did."""
    mine = select(EventRow.by).where(EventRow.tape == tape, EventRow.kind.in_(kinds))
    return unit.session.scalars(mine.order_by(EventRow.seq.desc()).limit(1)).one_or_none()


def verify(unit: Unit) -> tuple[str, ...]:
    """Recomputes the whole chain; one sentence for each place where it breaks, none when it holds."""
    problems: list[str] = []
    seq, before, erased = 0, BEGINNING, _erased_lines(unit)
    for event in lines(unit):
        if event.seq != seq + 1:
            problems.append(_missing("history_line_missing", "history_lines_missing", seq + 1, event.seq - 1))
        elif event.previous != before:
            problems.append(say("records", "history_line_unlinked", seq=event.seq))
        if not _says_what_was_sealed(event, erased) or digest(event) != event.digest:
            problems.append(say("records", "history_line_altered", seq=event.seq, kind=event.kind))
        seq, before = event.seq, event.digest
    if (last := latest(unit)) > seq:
        problems.append(_missing("history_end_missing", "history_lines_end_missing", seq + 1, last))
    elif last < seq:
        problems.append(say("records", "history_counter_behind", last=last, seq=seq))
    return tuple(problems)


def _says_what_was_sealed(event: EventRow, erased: Collection[int]) -> bool:
    if event.salt is None:
        return event.seq in erased and (event.words, event.payload) == ERASED_WORDS
    return sealed(event.words, event.payload, event.salt) == event.sealed


def _erased_lines(unit: Unit) -> set[int]:
    """The numbers of the lines that erasures name as emptied."""
    told = unit.session.scalars(select(EventRow.payload).where(EventRow.kind == ERASED))
    return {int(seq) for payload in told for seq in payload_of(payload).get("lines", ())}


def payload_of(text: str) -> dict[str, Any]:
    """The payload of a line; nothing where it cannot be read (the chain names such a line)."""
    try:
        said = json.loads(text)
    except ValueError:
        return {}
    return said if isinstance(said, dict) else {}


def holds(unit: Unit, head: str) -> int | None:
    """The number of the line whose digest begins with ``head`` (hexadecimal); None: the chain has none."""
    begins = EventRow.digest.startswith(head.lower(), autoescape=True)
    return unit.session.scalars(select(EventRow.seq).where(begins).limit(1)).one_or_none()


def head(unit: Unit) -> str:
    """The digest of the newest line, on which all of the history and of the rows hangs."""
    newest = select(EventRow.digest).order_by(EventRow.seq.desc()).limit(1)
    return unit.session.scalars(newest).one_or_none() or BEGINNING


def lines(unit: Unit) -> Iterator[EventRow]:
    """Every line from the first, a few hundred at a time."""
    with closing(unit.session.scalars(_lines().execution_options(yield_per=500))) as found:
        for event in found:
            unit.session.expunge(event)
            yield event


def _lines() -> Select[EventRow]:
    return select(EventRow).order_by(EventRow.seq)


_LINE = select(_EVENTS.c.digest, _EVENTS.c.at).where(_EVENTS.c.seq == bindparam("line"))


def _head(unit: Unit, seq: int) -> tuple[str, datetime | None]:
    """The digest and moment of the line before ``seq``; remembered while the transaction lasts."""
    known: tuple[str, datetime] | None = unit.session.info.get(_HEAD)
    if known is None:
        connection = unit.session.connection()
        line = narrowed_once(connection, _LINE, _EVENTS)
        found = connection.execute(line, {"line": seq - 1}).one_or_none()
        known = None if found is None else (found.digest, found.at)
    return known or (BEGINNING, None)


def _missing(one: str, several: str, first: int, last: int) -> str:
    return say("records", one if first == last else several, first=first, last=last)
