"""Copies, typed: made, checked, taken back; what no longer fits; the customer's own drive; downloads."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from core.capture import checksums
from core.cli import json_copies
from core.cli.invocation import Invocation, Reply
from core.model import regular_files, signature_file
from core.model.agreement_records import AgreedHow, Consent
from core.model.copies import copy_standing
from core.model.copies.copy_questions import CopyChoice, CopyQuestion, OfferedCopy
from core.model.copies.copy_records import CopiedFile, CopyRecord, FileSystem
from core.model.errors import WrongInput, nothing
from core.model.job_records import Job
from core.model.names import JobNumber, TapeCode
from core.pricing import copy_fit
from core.services import jobs
from core.services.copies import copy_choices, copy_making, downloads, own_drives, unfinished_copies
from core.services.copies.downloads import Download
from core.wording import locale_figures
from core.wording.messages import say


def list_copies(call: Invocation) -> Reply:
    """``copies NUMBER``: those of an order; without a number every order of which a copy is not done."""
    with call.open() as shop:
        if call.asked.number is not None:
            return _told(shop.ask(jobs.get, JobNumber(call.asked.number)))
        found = shop.ask(unfinished_copies.orders)
    lines = [line for job in found for line in (_head(job), *_lines(job))]
    document = {"orders": [json_copies.of_job(job) for job in found]}
    return Reply(document, "\n".join(lines) or say("cli", "no_copies_open"))


def make(call: Invocation) -> Reply:
    tapes = None if call.asked.tape is None else tuple(TapeCode(code) for code in call.asked.tape)
    return _done(call, copy_making.made, tapes=tapes, files=_files(call))


def check(call: Invocation) -> Reply:
    return _done(call, copy_making.checked, files=_files(call))


def strike(call: Invocation) -> Reply:
    return _done(call, copy_making.strike, because=call.asked.because)


def describe_drive(call: Invocation) -> Reply:
    system = FileSystem(call.asked.file_system)
    return _done(call, own_drives.describe, gigabytes=call.asked.gb, file_system=system)


def answer(call: Invocation) -> Reply:
    """``copy-choice NUMBER COPY``: what may be chosen; with ``--choice`` the customer's answer."""
    asked, number = call.asked, JobNumber(call.asked.number)
    with call.open() as shop:
        if asked.choice is None:
            return _asked(shop.ask(copy_choices.question, number, asked.item))
        who = asked.agreed_by or shop.ask(jobs.get, number).customer.name
        job = call.run(
            shop,
            copy_choices.answer,
            number,
            asked.item,
            CopyChoice(asked.choice),
            _consent(call, who),
            words=asked.because or "",
            based_on=asked.based_on,
        )
    return _told(job)


def give_link(call: Invocation) -> Reply:
    return _done(call, downloads.give, call.asked.link, call.asked.until)


def delete_download(call: Invocation) -> Reply:
    return _done(call, downloads.delete)


def list_downloads(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(downloads.standing, due=call.asked.due)
    lines = "\n".join(map(_download, found))
    return Reply(json_copies.downloads(found), lines or say("cli", "no_downloads"))


def _done(call: Invocation, step: Callable[..., Job], *more: object, **named: object) -> Reply:
    """A step of the copy that was named."""
    with call.open() as shop:
        return _told(call.run(shop, step, JobNumber(call.asked.number), call.asked.item, *more, **named))


# --- what is printed ---------------------------------------------------------------------


def _told(job: Job) -> Reply:
    return Reply(json_copies.of_job(job), "\n".join([_head(job), *_lines(job)]))


def _head(job: Job) -> str:
    written = copy_standing.are_being_written(job)
    return say(
        "cli",
        "copies_head",
        number=str(job.number),
        name=job.customer.name,
        written="yes" if written else "no",
    )


def _lines(job: Job) -> list[str]:
    lines = [_copy(job, each) for each in job.copies]
    return lines + [f"! {copy_fit.sentence(each)}" for each in copy_fit.misfits(job)]


def _copy(job: Job, each: CopyRecord) -> str:
    lacking = copy_standing.lacks(job, each) if each.made else ()
    state = say("copies", f"state-{each.state.value}", download="yes" if each.is_download else "no")
    return say(
        "cli",
        "copies_line",
        item=str(each.id),
        pieces=each.pieces,
        words=each.words,
        state=state,
        tapes=len(each.contents.tapes),
        files=len(each.contents.files),
        lacks=len(lacking),
        lacking=locale_figures.listed([locale_figures.tape_code(code) for code in lacking]),
    )


def _asked(asked: CopyQuestion) -> Reply:
    currency = asked.standing.currency
    lines = [copy_fit.sentence(asked.misfit), *(_choice(each, currency) for each in asked.choices)]
    return Reply(json_copies.question(asked), "\n".join(lines))


def _choice(each: OfferedCopy, currency: str) -> str:
    return say(
        "cli",
        "copy_choice_line",
        choice=each.choice.value,
        words=each.becomes.words,
        pieces=each.becomes.pieces,
        price=locale_figures.money(each.price_minor, currency),
        more=locale_figures.money(each.more_minor, currency),
    )


def _download(each: Download) -> str:
    return say(
        "cli",
        "downloads_line",
        number=str(each.job.number),
        name=each.job.customer.name,
        link=each.link.link,
        day=locale_figures.day(each.link.until),
        due="yes" if each.is_due else "no",
    )


# --- what is typed -----------------------------------------------------------------------


def _files(call: Invocation) -> Sequence[CopiedFile] | None:
    """The files named, read and fingerprinted; None where none are named."""
    names: list[str] | None = call.asked.files
    return None if names is None else [_file(name) for name in names]


def _file(name: str) -> CopiedFile:
    path = regular_files.expanded(name)
    regular_files.check(path, name, say("cli", "name_readable_file_accepted"))
    try:
        size = path.stat().st_size
        return CopiedFile(path.name, size, checksums.sha256(path, lambda _: None))
    except OSError as error:
        raise WrongInput(name, nothing(), say("cli", "name_readable_file_accepted")) from error


def _consent(call: Invocation, who: str) -> Consent:
    if call.asked.signature is None:
        return Consent(who, AgreedHow(call.asked.how or "spoken"))
    from core.cli.invocation import contents

    signature = signature_file.read(contents(call.asked.signature), call.asked.signature, who)
    return Consent(who, AgreedHow(call.asked.how or "signature"), signature.strokes)
