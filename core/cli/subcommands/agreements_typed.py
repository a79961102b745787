"""What is agreed, typed: an order amended, answered for, called off; its versions; whom to call first."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from core.cli import json_agreements
from core.cli.invocation import Invocation, Reply, contents
from core.cli.subcommands import paper_folder
from core.model import signature_file
from core.model.agreement_records import AgreedHow, CeilingChoice, Consent, OfferedChoice, StandingPrice
from core.model.errors import AsWritten, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber, TapeCode
from core.papers import agreement_words
from core.pricing.amendment_records import Amendment
from core.services import decks, inventory_file, jobs, paper_files
from core.services.agreement import (
    agreement_versions,
    agreements,
    amendments,
    call_cards,
    cancellations,
    ceiling_watch,
)
from core.services.inventory_file import InventoryContext
from core.wording import locale_figures
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop


def amend(call: Invocation) -> Reply:
    asked = call.asked
    data = contents(asked.file)
    with call.open() as shop:
        fitted = shop.ask(decks.settings)
        today = call.clock().astimezone(ZoneInfo(fitted.front.timezone)).date()
        box, codes = inventory_file.read_amended(data, asked.file, InventoryContext(today, fitted.country))
        number = JobNumber(asked.number)
        place = paper_folder.folder(call)
        call.run(
            shop,
            amendments.amend,
            number,
            Amendment(box, codes, asked.ceiling_minor),
            reason=asked.because or say("cli", "changed_default"),
            consent=_consent(call, shop, number),
            based_on=asked.based_on,
        )
        return _told(call, shop, number, place)


def agree(call: Invocation) -> Reply:
    asked, number = call.asked, JobNumber(call.asked.number)
    if not (asked.choice or asked.because or asked.ceiling_minor is not None):
        raise WrongInput("agree", AsWritten(say("cli", "no_agreement")), say("cli", "agree_needs"))
    with call.open() as shop:
        place, consent = paper_folder.folder(call), _consent(call, shop, number)
        if asked.choice:
            call.run(
                shop,
                agreements.answer,
                number,
                CeilingChoice(asked.choice),
                consent,
                words=asked.because or "",
                tape=TapeCode(asked.tape) if asked.tape else None,
                ceiling_minor=asked.ceiling_minor,
                based_on=asked.based_on,
            )
        else:
            words = asked.because or say("cli", "changed_default")
            ceiling = asked.ceiling_minor
            call.run(
                shop, agreements.agree, number, words, consent, ceiling_minor=ceiling, based_on=asked.based_on
            )
        return _told(call, shop, number, place)


def cancel(call: Invocation) -> Reply:
    asked, number = call.asked, JobNumber(call.asked.number)
    with call.open() as shop:
        place = paper_folder.folder(call)
        call.run(
            shop,
            cancellations.cancel,
            number,
            None if asked.tape is None else tuple(TapeCode(code) for code in asked.tape),
            reason=asked.because or say("cli", "canceled_default"),
            consent=_consent(call, shop, number),
            based_on=asked.based_on,
        )
        return _told(call, shop, number, place)


def tell_agreement(call: Invocation) -> Reply:
    with call.open() as shop:
        number, place = JobNumber(call.asked.number), paper_folder.folder(call)
        return _told(call, shop, number, place, with_first=True)


def tell_to_call(call: Invocation) -> Reply:
    with call.open() as shop:
        waiting = shop.ask(ceiling_watch.to_call)
    lines = [
        say(
            "cli",
            "to_call_line",
            number=str(one.number),
            name=one.customer,
            phone=locale_figures.phone(one.phone) if one.phone else "",
            tapes=one.tapes_asking,
            misfit=" ".join(sentence for _, sentence in one.misfits) or "none",
            stands=_money(one.standing.stands_minor, one.standing),
            ceiling=_money(one.standing.ceiling_minor, one.standing),
        )
        for one in waiting
    ]
    return Reply(json_agreements.to_call(waiting), "\n".join(lines) or say("cli", "nobody_to_call"))


def _told(
    call: Invocation, shop: Shop, number: JobNumber, place: Path | None, *, with_first: bool = False
) -> Reply:
    """Where the order stands; ``with_first``: the paper of version 1 is written as well, as it was signed."""
    job, versions = shop.ask(jobs.get, number), shop.ask(agreement_versions.with_differences, number)
    standing = shop.ask(ceiling_watch.standing, number)
    waiting = [one for one in shop.ask(ceiling_watch.to_call) if one.number == number]
    asking = waiting[0].asking if waiting else ()
    offered = shop.ask(call_cards.choices, number)
    version = versions[-1][0]
    front = shop.ask(decks.settings_then, version.at).front

    def write(folder: Path) -> tuple[Path, ...]:
        is_older = with_first and version.number > 1
        first = paper_files.of_first_version(job, versions[0][0], front, folder) if is_older else ()
        return (*first, *paper_files.of_newest(job, versions, front, folder))

    done = agreement_words.kind_words(version)
    place = paper_folder.remembered(call, shop, place, number, done)
    written, note = paper_folder.after(done, place, write)
    document = json_agreements.agreement(job, versions, standing, asking, offered, written)
    lines = [_head(job, standing)]
    for one, differences in versions:
        day = locale_figures.moment(one.at, front.timezone)
        lines.append(f"{agreement_words.kind_words(one)}. {agreement_words.agreed_words(one, day)}")
        lines += [f"  {one.reason}"] if one.reason else []
        lines += [f"  {agreement_words.told(each, standing.currency).sentence}" for each in differences]
    if standing.over_minor:
        lines.append(say("cli", "agreement_over", over=_money(standing.over_minor, standing)))
    lines += [_choice(each, standing) for each in offered]
    return Reply(document, "\n".join([*lines, *map(str, written)]), note=note)


def _head(job: Job, standing: StandingPrice) -> str:
    return say(
        "cli",
        "agreement_line",
        number=str(job.number),
        name=job.customer.name,
        stands=_money(standing.stands_minor, standing),
        ceiling=_money(standing.ceiling_minor, standing),
    )


def _choice(each: OfferedChoice, standing: StandingPrice) -> str:
    return say(
        "cli",
        "choice_line",
        choice=each.choice.value,
        price=_money(each.price_minor, standing),
        ceiling=_money(each.ceiling_minor, standing),
        leaves=len(each.leaves),
        given=each.given_away_minor,
        day="none" if each.day is None else locale_figures.day(each.day),
    )


def _money(minor: int, standing: StandingPrice) -> str:
    return locale_figures.money(minor, standing.currency)


def _consent(call: Invocation, shop: Shop, number: JobNumber) -> Consent:
    """Who agreed, by default the customer by word of mouth; strokes are a signature."""
    asked = call.asked
    who = asked.agreed_by or shop.ask(jobs.get, number).customer.name
    if asked.signature is None:
        return Consent(who, AgreedHow(asked.how or "spoken"))
    signature = signature_file.read(contents(asked.signature), asked.signature, who)
    return Consent(who, AgreedHow(asked.how or "signature"), signature.strokes)
