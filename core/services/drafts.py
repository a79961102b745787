"""What lies on a counter and is not booked yet, kept so that a power cut costs seconds.

Kept is what was typed, not what could be read from it: the text nobody accepts yet is the very one
that would be lost. Older books hold the inventory that was read; it comes back as one.
"""

from __future__ import annotations

import json
from collections.abc import Sequence

from core.model import entered_text, serialization
from core.model.agreement_records import Consent
from core.model.errors import WrongInput
from core.model.inventory import Inventory
from core.model.job_records import Job
from core.model.quote_records import Quote
from core.model.typed_draft import TypedBox
from core.services import jobs
from core.store.steps import special_step
from core.store.tables import DraftRow
from core.store.unit import Unit
from core.wording.messages import say


@special_step(replaces=True)
def keep(unit: Unit, key: str, draft: TypedBox | Inventory | None) -> None:
    """Keeps the draft of one counter to the letter; None throws it away."""
    name = _named(key)
    row = unit.session.get(DraftRow, name)
    if draft is None:
        if row is not None:
            unit.session.delete(row)
        return
    written = serialization.dumps(draft)
    if row is None:
        unit.session.add(DraftRow(name=name, written=written, kept_at=unit.now, kept_by=unit.who))
    else:
        row.written, row.kept_at, row.kept_by = written, unit.now, unit.who


@special_step(replaces=True)
def take_over(unit: Unit, key: str, earlier: str) -> TypedBox | Inventory | None:
    """The draft of one counter; where it has none, the one under an earlier key becomes its own."""
    row = unit.session.get(DraftRow, _named(earlier))
    if row is not None and unit.session.get(DraftRow, _named(key)) is None:
        unit.session.delete(row)
        moved = DraftRow(name=_named(key), written=row.written, kept_at=row.kept_at, kept_by=row.kept_by)
        unit.session.add(moved)
        unit.session.flush()
    return kept(unit, key)


def kept(unit: Unit, key: str) -> TypedBox | Inventory | None:
    """The draft of one counter as it was last kept."""
    row = unit.session.get(DraftRow, _named(key))
    return None if row is None else _read(row.written)


@special_step(asks=jobs.ASKED)
def book(
    unit: Unit,
    key: str,
    quote: Quote,
    *,
    deposit_minor: int,
    deposit_by: str | None = None,
    consent: Consent | None = None,
    told: Sequence[str] = (),
) -> Job:
    """Books the quote of a counter and throws its draft away: a power cut leaves one or the other.

    What is hardly possible of it stood on the slip in front of whoever books.
    """
    job = jobs.book(
        unit,
        quote,
        deposit_minor=deposit_minor,
        deposit_by=deposit_by,
        consent=consent,
        told=told,
        sure=True,
    )
    keep(unit, key, None)
    return job


def _read(written: str) -> TypedBox | Inventory:
    kind: type[TypedBox] | type[Inventory] = TypedBox if "rows" in json.loads(written) else Inventory
    return serialization.loads(kind, written)


def _named(key: str) -> str:
    name = entered_text.line(say("orders", "draft"), key)
    if not 0 < len(name) <= 80:
        raise WrongInput(say("orders", "draft"), key, say("orders", "draft_name"))
    return name
