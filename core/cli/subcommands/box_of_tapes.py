"""The box of tapes: quoted, booked, and handed back."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from core.cli import json_answers, json_quotes, plain_answers
from core.cli.invocation import Invocation, Reply, contents
from core.cli.subcommands import paper_folder
from core.model import money, signature_file
from core.model.inventory import CustomerDraft, Inventory
from core.model.names import JobNumber, TapeCode
from core.model.quote_records import Quote
from core.model.settings_records import ShopFront, ShopSettings
from core.model.signatures import Signature
from core.pricing import price_book
from core.promise import turnaround
from core.services import decks, inventory_file, paper_files, promises, quoting
from core.services.inventory_file import InventoryContext
from core.services.own_shop import shop_settings
from core.services.quoting import ShopSnapshot
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop


def quote(call: Invocation) -> Reply:
    data = contents(call.asked.file)
    if not call.has_shop:
        quoted = quote_of(call, data, shop_settings.new_shop())
    else:
        with call.open() as shop:
            quoted = _quote_here(call, data, shop)
    return Reply(json_quotes.quote(quoted), plain_answers.quote(quoted))


def book(call: Invocation) -> Reply:
    from core.services import jobs

    data = contents(call.asked.file)
    if not call.has_shop:  # a wrong file is refused before a shop is made for it
        _inventory(call, data, shop_settings.new_shop(), customer_needed=True)
    with call.open(create=True) as shop:
        quoted = _quote_here(call, data, shop, customer_needed=True)
        place = paper_folder.folder(call)
        deposit = call.asked.deposit_minor
        job = shop.run(jobs.book, quoted, command=call.command(), deposit_minor=deposit)
        front = _front(shop, job.quote.made_at)
    done = say("cli", "job_booked", number=job.number)
    written, note = paper_folder.after(done, place, lambda folder: paper_files.of_booking(job, front, folder))
    return Reply(json_answers.book(job, written), plain_answers.book(job, written), note=note)


def hand_back(call: Invocation) -> Reply:
    from core.services import pickups

    asked = call.asked
    signature = _signature(call)
    with call.open() as shop:
        place = paper_folder.folder(call)
        handed = shop.run(
            pickups.hand_back,
            JobNumber(asked.number),
            codes=None if asked.tape is None else tuple(TapeCode(code) for code in asked.tape),
            copies=None if asked.copy is None else tuple(asked.copy),
            signature=signature,
            paid_minor=asked.paid_minor,
            shown=asked.shown,
            command=call.command(),
        )
        front = _front(shop, handed.at)
    done = say("cli", "job_handed_back", number=handed.job.number)
    written, note = paper_folder.after(
        done, place, lambda folder: paper_files.of_pickup(handed, front, folder)
    )
    receipt = written[0] if written else None
    notes = " ".join((*pickups.labels_astray(handed), *([note] if note else [])))
    return Reply(json_answers.pickup(handed, receipt), plain_answers.pickup(handed, receipt), note=notes)


def correct_customer(call: Invocation) -> Reply:
    """Puts right who brought a box; what is not named stays as it is."""
    from core.services import jobs

    asked = call.asked
    with call.open() as shop:
        number = JobNumber(asked.number)
        known = shop.ask(jobs.get, number).customer
        draft = CustomerDraft(
            asked.name or known.name, asked.phone or known.phone, asked.email or known.email
        )
        who = shop.run(jobs.correct_customer, number, draft).customer
    told = ", ".join(part for part in (who.name, who.phone, who.email) if part)
    return Reply({"customer": {"name": who.name, "phone": who.phone, "email": who.email}}, told)


def refund(call: Invocation) -> Reply:
    """Gives money back, and tells what is paid after it."""
    from core.services import payments

    asked = call.asked
    with call.open() as shop:
        job = shop.run(payments.refund, JobNumber(asked.number), asked.minor, note=asked.because)
    left = money.spelled(job.paid_minor, job.quote.price.currency)
    return Reply({"number": job.number, "paid_minor": job.paid_minor}, say("cli", "paid_far", left=left))


def quote_of(call: Invocation, data: bytes, fitted: ShopSettings) -> Quote:
    """The quote of the inventory file in ``data`` in an empty shop with these settings."""
    now = call.clock().astimezone(ZoneInfo(fitted.front.timezone))
    load, book = turnaround.load(fitted, (), now), price_book.in_force(now.date())
    return quoting.quote(_inventory(call, data, fitted), ShopSnapshot(fitted, book, load, now))


def _quote_here(call: Invocation, data: bytes, shop: Shop, *, customer_needed: bool = False) -> Quote:
    """The quote of this shop as it is now, on the same ground as the window's; stores nothing."""

    box = _inventory(call, data, shop.ask(decks.settings), customer_needed=customer_needed)
    return shop.ask(promises.snapshot).quote(box, call.clock())


def _front(shop: Shop, moment: datetime) -> ShopFront:
    """The head of the shop's papers as it was at a moment: a paper written again is the same paper."""
    return shop.ask(decks.settings_then, moment).front


def _inventory(
    call: Invocation, data: bytes, fitted: ShopSettings, *, customer_needed: bool = False
) -> Inventory:
    today = call.clock().astimezone(ZoneInfo(fitted.front.timezone)).date()
    context = InventoryContext(today, fitted.country, customer_needed)
    return inventory_file.read(data, call.asked.file, context)


def _signature(call: Invocation) -> Signature:
    if call.asked.signature is None:
        return Signature(call.asked.signed_by)
    return signature_file.read(contents(call.asked.signature), call.asked.signature, call.asked.signed_by)
