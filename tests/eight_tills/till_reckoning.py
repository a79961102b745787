"""What must hold after a run: the journals of the tills against what the shop holds."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import select

from core.model import numbers
from core.model.names import DonorPart
from core.services import donors, drafts, expectations, jobs, payments, pickups
from core.services.own_shop import shop_document
from core.store import current_settings, history
from core.store.job_tables import JobRow, PaymentRow
from core.store.shop_tables import EventRow, SettingsVersionRow
from core.store.tape_tables import DonorRow
from core.store.unit import Unit
from tests.eight_tills import stored_steps
from tests.eight_tills.stored_steps import StoredSteps
from tests.eight_tills.till_journal import Intent
from tests.sent_again.step_scenes import VHS

Intents = Mapping[str, Intent]
"""By their command ids."""


def lost(intents: Intents, stored: StoredSteps) -> list[Intent]:
    """What was acknowledged and is not there."""
    return [
        each
        for each in intents.values()
        if each.outcome == "acknowledged" and not each.leaves_the_same and not _times(each, stored)
    ]


def doubled(intents: Intents, stored: StoredSteps) -> list[Intent]:
    """What was stored more than once."""
    return [each for each in intents.values() if _times(each, stored) > 1]


def nobodys(intents: Intents, stored: StoredSteps) -> list[str]:
    """Commands that are there, and that no till sent."""
    return sorted(stored.commands.keys() - {key for each in intents.values() for key in each.ids})


def _times(intent: Intent, stored: StoredSteps) -> int:
    return sum(stored.commands[key] for key in set(intent.ids))


def problems(unit: Unit, intents: Intents, stored: StoredSteps) -> Iterator[str]:
    """Everything else that is wrong, a line each."""
    by_command = stored.by_command()
    kept = [each for each in intents.values() if not by_command.keys().isdisjoint(each.ids)]
    yield from _refusals(intents, by_command)
    yield from stored_steps.overwritten(unit, stored)
    yield from _orders(unit, kept)
    yield from _money(unit, kept)
    yield from _customers(unit)
    yield from _settings(unit, kept, by_command)
    yield from _donors(unit, kept)
    yield from _draft(unit, list(intents.values()))


def _refusals(intents: Intents, by_command: Mapping[str, object]) -> Iterator[str]:
    for each in intents.values():
        if each.outcome == "refused" and not by_command.keys().isdisjoint(each.ids):
            yield f"{each.step} ({each.command}) was refused and stored: {each.said}"
        if each.outcome == "refused" and each.said.startswith("Conflict: ") and _is_told_by_rows(each):
            yield f"{each.step} was told of a conflict, and should have waited: {each.said}"


def _is_told_by_rows(intent: Intent) -> bool:
    """Whether the database told of it; a step itself compares what was seen with what is there."""
    from core.wording.messages import say

    told = [say("records", key) for key in ("changed_by_somebody", "stored_by_somebody")]
    return intent.said.removeprefix("Conflict: ") in told


def _orders(unit: Unit, kept: Sequence[Intent]) -> Iterator[str]:
    """No number twice, none left out, and one order for each booking."""
    rows = unit.session.execute(select(JobRow.id, JobRow.number, JobRow.command).order_by(JobRow.id)).all()
    if [row.id for row in rows] != list(range(1, len(rows) + 1)):
        yield f"the orders are not numbered without gaps: {[row.id for row in rows]}"
    booked = {key: each.said for each in kept if each.call[0] in (jobs.book, drafts.book) for key in each.ids}
    for row in rows:
        if row.number != numbers.job_number(row.id):
            yield f"order {row.id} bears the number {row.number}"
        if row.command not in booked:
            yield f"order {row.number} was booked by nobody"
        elif booked[row.command] not in ("", row.number):
            yield f"order {row.number} was acknowledged as {booked[row.command]}"
    times = sum(each.call[0] in (jobs.book, drafts.book) for each in kept)
    if times != len(rows):
        yield f"{times} boxes were booked, and there are {len(rows)} orders"


def _money(unit: Unit, kept: Sequence[Intent]) -> Iterator[str]:
    """Of each order the payments sum up to what was sent."""
    number_of = {
        row.command: row.number for row in unit.session.execute(select(JobRow.number, JobRow.command))
    }
    due: Counter[str] = Counter()
    for each in kept:
        step = each.call[0]
        if step in (jobs.book, drafts.book):
            due[next(number_of[key] for key in each.ids if key in number_of)] += each.argument(
                "deposit_minor"
            )
        elif step is payments.take or step is payments.refund:
            due[_plain(each)] += each.argument("minor") * (1 if step is payments.take else -1)
        elif step is pickups.hand_back:
            due[_plain(each)] += each.argument("paid_minor")
    asked = select(JobRow.number, PaymentRow.minor).join(PaymentRow, PaymentRow.job_id == JobRow.id)
    paid: Counter[str] = Counter()
    for row in unit.session.execute(asked):
        paid[row.number] += row.minor
    for number in due.keys() | paid.keys():
        if due[number] != paid[number]:
            yield f"order {number}: {paid[number]} was entered, {due[number]} was sent"


def _plain(intent: Intent) -> str:
    return str(intent.argument("number"))


def _customers(unit: Unit) -> Iterator[str]:
    """Each correction of a customer begins with what the one before left.

    The line says whose details they were: an order can go to another person afterwards.
    """
    last: dict[int, Any] = {}
    asked = select(EventRow.seq, EventRow.payload).where(EventRow.kind == "customer-corrected")
    told = asked.where(EventRow.salt.is_not(None))  # not of those who were erased
    for row in unit.session.execute(told.order_by(EventRow.seq)):
        said = history.payload_of(row.payload)
        customer = int(said["customer"])
        if last.get(customer, said["before"]) != said["before"]:
            was = said["before"]
            yield f"line {row.seq} corrects customer {customer} from {was}, who was {last[customer]}"
        last[customer] = said["now"]


def _settings(unit: Unit, kept: Sequence[Intent], by_command: Mapping[str, Any]) -> Iterator[str]:
    """A change of the settings changes what was asked for, and puts nothing back to what it was before."""
    asked = select(SettingsVersionRow).where(SettingsVersionRow.part == current_settings.PART)
    rows = {str(row.id): row for row in unit.session.scalars(asked)}
    before = {row.number: row for row in rows.values()}
    for each in kept:
        if not (allowed := _settings_of(each)):
            continue
        for key in by_command.get(each.command, {}).get("settings_versions", ()):
            row = rows.get(key)
            if row is None or row.number - 1 not in before:
                continue
            was, now = (_flat(json.loads(one.value)) for one in (before[row.number - 1], row))
            changed = {path for path in was.keys() | now.keys() if was.get(path) != now.get(path)}
            wrong = {path for path in changed if not path.startswith((*allowed, "confirmed"))}
            if wrong:
                yield f"version {row.number} of the settings changes {sorted(wrong)} beside {allowed}"


def _settings_of(intent: Intent) -> tuple[str, ...]:
    if intent.call[0] is expectations.expect_figures or intent.call[0] is expectations.expect:
        return ("expected",)
    if intent.call[0] is shop_document.set_texts:
        paths = [path for path, _ in intent.argument("typed")]
        return tuple(paths) if all(path.startswith("front.") for path in paths) else ()
    return ()


def _flat(value: Any, path: str = "") -> dict[str, Any]:
    if isinstance(value, dict):
        found: dict[str, Any] = {}
        for key, inner in value.items():
            found.update(_flat(inner, f"{path}.{key}".lstrip(".")))
        return found
    return {path: value}


def _donors(unit: Unit, kept: Sequence[Intent]) -> Iterator[str]:
    """On the shelf lies what was put there; no example takes a lid away."""
    put = [each for each in kept if each.call[0] is donors.add and each.argument("part") is DonorPart.LID]
    asked = select(DonorRow.count).where(DonorRow.part == DonorPart.LID, DonorRow.format == VHS)
    there, sent = sum(unit.session.scalars(asked)), sum(each.argument("count") for each in put)
    if there != sent:
        yield f"{there} lids lie on the shelf, and {sent} were put there"


def _draft(unit: Unit, intents: Sequence[Intent]) -> Iterator[str]:
    """The draft on the counter is one that nobody kept over or booked for sure afterwards."""
    wrote = [each for each in intents if each.call[0] is drafts.keep and each.argument("key") == "counter"]
    cleared = [each for each in intents if each.call[0] is drafts.book and each.argument("key") == "counter"]
    sure = [each for each in [*wrote, *cleared] if each.outcome == "acknowledged"]
    kept = drafts.kept(unit, "counter")
    meant = cleared if kept is None else [each for each in wrote if each.argument("draft") == kept]
    if not meant and not sure:
        return
    newest_begun = max((each.attempts[-1].at for each in sure), default=0.0)
    if all((each.attempts[-1].ended or newest_begun) < newest_begun for each in meant):
        yield f"the draft on the counter is an older one: {kept}"
