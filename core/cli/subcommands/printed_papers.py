"""Papers of an order, printed when somebody wants them: ``job-sheet NUMBER --paper DIR`` and the others."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from core.cli.invocation import Invocation, Reply
from core.cli.subcommands import paper_folder
from core.model import numbers
from core.model.job_records import Job
from core.model.names import JobNumber
from core.papers.handover import not_saved
from core.papers.voice import voice
from core.services import decks, jobs
from core.services.printing import order_papers
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop

Write = Callable[[Path], tuple[Path, ...]]


def print_job_sheet(call: Invocation) -> Reply:
    with call.open() as shop:
        job, front = shop.ask(jobs.get, _number(call)), shop.ask(decks.settings).front
        told = {
            "tapes": [
                {
                    "code": tape.code,
                    "findings": [finding.value for finding in tape.findings],
                    "to_do": [repair.words for repair in tape.verdict.repairs],
                    "cautions": list(tape.verdict.cautions),
                }
                for tape in job.tapes
            ]
        }
        return _written(call, shop, job, partial(order_papers.write_job_sheet, job, front), told)


def print_reminder(call: Invocation) -> Reply:
    with call.open() as shop:
        (job, found), front = shop.ask(order_papers.waiting, _number(call)), shop.ask(decks.settings).front
        told = {
            "due_minor": found.due_minor,
            "storage_minor": found.storage_minor,
            "told_on": found.told_on.isoformat() if found.told_on else None,
        }
        return _written(call, shop, job, partial(order_papers.write_reminder, job, found, front), told)


def print_not_saved(call: Invocation) -> Reply:
    with call.open() as shop:
        (job, found), front = shop.ask(order_papers.unsaved, _number(call)), shop.ask(decks.settings).front
        of = {each.tape: each for each in found}
        told = {
            "tapes": [
                {
                    "code": tape.code,
                    "disposition": tape.disposition.value if tape.disposition else None,
                    "why": list(not_saved.reasons(tape, of.get(tape.code), voice(front))),
                }
                for tape in not_saved.losses(job)
            ]
        }
        return _written(call, shop, job, partial(order_papers.write_unsaved, job, found, front), told)


def print_refund_slip(call: Invocation) -> Reply:
    with call.open() as shop:
        job, payment = shop.ask(order_papers.last_refund, _number(call))
        front = shop.ask(decks.settings_then, payment.at).front
        write = partial(order_papers.write_refund, job, payment, "", front)
        return _written(call, shop, job, write, {"refund_minor": -payment.minor})


def print_receipt(call: Invocation) -> Reply:
    with call.open() as shop:
        pickup = shop.ask(order_papers.last_pickup, _number(call))
        front = shop.ask(decks.settings_then, pickup.at).front
        write = partial(order_papers.write_receipt, pickup, front, on_roll=call.asked.roll)
        told = {"handed_back": [tape.code for tape in pickup.handed_back]}
        return _written(call, shop, pickup.job, write, told)


def print_claim_slip(call: Invocation) -> Reply:
    with call.open() as shop:
        job = shop.ask(jobs.get, _number(call))
        front = shop.ask(decks.settings_then, job.quote.made_at).front
        asked = call.asked
        write = partial(
            order_papers.write_slip, job, front, on_roll=asked.roll, with_agreement=asked.agreement
        )
        return _written(call, shop, job, write, {})


def print_labels(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        whole, front = shop.ask(jobs.get, _number(call)), shop.ask(decks.settings).front
        job = order_papers.with_tapes(whole, [numbers.read_tape_code(code) for code in asked.tape])
        write = partial(
            order_papers.write_labels,
            job,
            front,
            start_at=asked.start,
            only_marks=asked.marks,
            one_by_one=asked.single,
        )
        return _written(call, shop, whole, write, {"tapes": [tape.code for tape in job.tapes]})


def _number(call: Invocation) -> JobNumber:
    return JobNumber(call.asked.number)


def _written(call: Invocation, shop: Shop, job: Job, write: Write, told: Mapping[str, object]) -> Reply:
    """The paper in its folder, which the records know of from then on."""
    done = say("cli", "job_read", number=job.number)
    place = paper_folder.remembered(call, shop, paper_folder.folder(call), job.number, done)
    written, note = paper_folder.after(done, place, write)
    papers = [str(path) for path in written]
    return Reply({"number": job.number, **told, "papers": papers}, "\n".join(papers), note=note)
