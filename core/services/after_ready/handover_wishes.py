"""What a customer wishes for the handover: how to be told, who may collect, a pass-phrase."""

from __future__ import annotations

from sqlalchemy import select

from core.model import entered_text, folding
from core.model.errors import WrongInput
from core.model.handover_records import HandoverWishes, NamedCollector, ToldHow
from core.model.names import JobNumber
from core.services.own_shop import secret_hashes
from core.store import history, lookup
from core.store.steps import special_step
from core.store.tables import HandoverWishRow, JobRow
from core.store.unit import Unit
from core.wording.messages import say

HOW, COLLECTOR, PASS_PHRASE = "how", "collector", "pass-phrase"
SHORTEST_PHRASE = 4


def of_job(unit: Unit, number: JobNumber) -> HandoverWishes:
    """What holds for an order."""
    return of_row(unit, lookup.job_row(unit, number))


def of_row(unit: Unit, row: JobRow) -> HandoverWishes:
    """What holds for an order at hand."""
    asked = select(HandoverWishRow).where(HandoverWishRow.job_id == row.id).order_by(HandoverWishRow.id)
    newest = {each.kind: each for each in unit.session.scalars(asked)}
    how, named, phrase = (newest.get(kind) for kind in (HOW, COLLECTOR, PASS_PHRASE))
    return HandoverWishes(
        ToldHow(how.value) if how is not None and how.value else None,
        NamedCollector(named.value, named.said_by, named.at, named.by) if named and named.value else None,
        phrase.value if phrase is not None else "",
    )


@special_step(secrets=("pass_phrase",))
def wish(
    unit: Unit,
    number: JobNumber,
    *,
    how: ToldHow | None = None,
    collector: str | None = None,
    pass_phrase: str | None = None,
    said_by: str = "",
) -> HandoverWishes:
    """Keeps what a customer wishes from now on; None leaves a wish as it is, an empty text takes it back.

    ``said_by`` who said so, else the customer. Of a pass-phrase only the Argon2id hash is kept. WrongInput
    for words no paper could show, and for a pass-phrase of fewer than four characters.
    """
    row = lookup.job_row(unit, number)
    speaker = entered_text.line(say("telling", "said_by"), said_by) or row.customer.name
    before = of_row(unit, row)
    if how is not None and how is not before.how:
        _keep(unit, row, HOW, how.value, speaker, how.value)
    if collector is not None:
        named = entered_text.line(say("telling", "collector"), collector)
        if named != (before.collector.words if before.collector else ""):
            _keep(unit, row, COLLECTOR, named, speaker, named)
    if pass_phrase is not None and (pass_phrase or before.pass_phrase):
        _keep(unit, row, PASS_PHRASE, _hashed(pass_phrase), speaker, "")
    return of_row(unit, row)


def fits(hashed: str, phrase: str) -> bool:
    """Whether this is the pass-phrase; capitals, accents and spaces do not matter on a phone."""
    return secret_hashes.fits(hashed, _heard(phrase))


def _hashed(phrase: str) -> str:
    if not phrase:
        return ""
    heard = _heard(entered_text.line(say("telling", "pass_phrase"), phrase))
    if len(heard) < SHORTEST_PHRASE:
        raise WrongInput(say("telling", "pass_phrase"), "…", say("telling", "longer_phrase"))
    return secret_hashes.hash_of(heard)


def _heard(phrase: str) -> str:
    return "".join(folding.folded(phrase).split())


def _keep(unit: Unit, row: JobRow, kind: str, value: str, said_by: str, told: str) -> None:
    """One wish; ``told`` is what the history may say of it: nothing of a pass-phrase."""
    kept = HandoverWishRow(job_id=row.id, kind=kind, value=value, said_by=said_by, at=unit.now, by=unit.who)
    unit.session.add(kept)
    words = say("telling", "event_wish", kind=kind, what=told, given=len(value), who=said_by)
    digest = history.fingerprint(value)
    history.append(unit, "handover-wish", words, job=row.number, wish=kind, value_sha256=digest)
    unit.session.flush()
