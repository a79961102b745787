"""The box of tapes: quoted, booked, and handed back."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from core.cli import json_answers, json_quotes, plain_answers
from core.cli.invocation import Invocation, Reply, contents
from core.cli.subcommands import paper_folder, typed_line
from core.model import money, signature_file
from core.model.agreement_records import AgreedHow, Consent
from core.model.errors import NoShopYet
from core.model.inventory import Inventory
from core.model.names import JobNumber, TapeCode
from core.model.own_shop.settings_records import Permission, ShopFront, ShopSettings
from core.model.promise_records import PushedPromise
from core.model.quote_records import Quote
from core.model.signatures import Signature
from core.pricing import price_book
from core.promise import rush_effects, turnaround
from core.services import decks, inventory_file, paper_files, quoting, shop_snapshot, what_would_help
from core.services.inventory_file import InventoryContext
from core.services.own_shop import shop_settings
from core.services.quoting import ShopSnapshot
from core.wording import locale_figures
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop
    from core.store.unit import Unit


def quote(call: Invocation) -> Reply:
    if (faulty := typed_line.faulty(call)) is not None:
        return faulty
    data = typed_line.inventory(call)
    pushed: tuple[PushedPromise, ...] = ()
    front = shop_settings.new_shop().front
    if not call.has_shop:
        quoted = quote_of(call, data, shop_settings.new_shop())
    else:
        with call.open() as shop:
            front = shop.ask(decks.settings).front
            quoted = _seen(_quote_here(call, data, shop), may_see=shop.ask(_may_see_reports))
            if quoted.inventory.rush:
                pushed = shop.ask(what_would_help.about_rush, quoted.inventory).answer()
    answer, plain = json_quotes.quote(quoted) | typed_line.told(call), plain_answers.quote(quoted)
    if quoted.inventory.rush and call.has_shop:
        answer["rush"] = json_quotes.rush(quoted, pushed)
        plain = f"{plain}\n! {rush_effects.sentence(pushed)}"
    written, note = paper_folder.after(
        say("cli", "quoted"),
        paper_folder.folder(call),
        lambda folder: paper_files.of_quote(quoted, front, folder, detail=call.asked.detail),
    )
    if written:
        answer["papers"] = [str(path) for path in written]
    return Reply(answer, "\n".join((plain, *map(str, written))), note=note)


def _may_see_reports(unit: Unit) -> bool:
    from core.store import permissions

    return permissions.may(unit, unit.who, Permission.REPORTS)


def _seen(quoted: Quote, *, may_see: bool) -> Quote:
    """The quote without the risk of a flat sum for whoever may not see it."""
    if may_see or quoted.ways is None or quoted.ways.flat is None:
        return quoted
    return replace(quoted, ways=replace(quoted.ways, flat=replace(quoted.ways.flat, risk=None)))


def book(call: Invocation) -> Reply:
    from core.services import jobs

    if (faulty := typed_line.faulty(call)) is not None:
        return faulty
    data = typed_line.inventory(call)
    if not call.has_shop:  # no shop is made only to refuse an order
        _inventory(call, data, shop_settings.new_shop(), customer_needed=True)
        _refuse_without_shop(call)
    with call.open(create=True) as shop:
        quoted = _quote_here(call, data, shop, customer_needed=True)
        place = paper_folder.folder(call)
        deposit = call.asked.deposit_minor
        job = call.run(
            shop,
            jobs.book,
            quoted,
            deposit_minor=deposit,
            deposit_by=call.asked.deposit_by,
            consent=_consent(call, quoted),
            told=quoted.warnings if call.asked.told else (),
            sure=call.asked.sure,
        )
        front = _front(shop, job.quote.made_at)
        done = say("cli", "job_booked", number=job.number)
        place = paper_folder.remembered(call, shop, place, job.number, done)
    written, note = paper_folder.after(
        done, place, lambda folder: paper_files.of_booking(job, front, folder, detail=call.asked.detail)
    )
    answer = {**json_answers.book(job, written), **typed_line.told(call)}
    return Reply(answer, plain_answers.book(job, written), note=note)


def _refuse_without_shop(call: Invocation) -> None:
    """NotSetUp, as of a shop that was just begun; Unavailable where there was one."""
    from core.services.own_shop import readiness
    from core.services.records_door import Shop

    with suppress(NoShopYet):
        call.open().close()
    with TemporaryDirectory() as folder, Shop.open(Path(folder) / "shop.sqlite", clock=call.clock) as begun:
        begun.ask(readiness.check)


def _consent(call: Invocation, quoted: Quote) -> Consent | None:
    """Who agreed and how, where it was typed; strokes are a signature."""
    asked, who = call.asked, quoted.inventory.customer
    if not (asked.agreed_by or asked.how or asked.signature):
        return None
    name = asked.agreed_by or (who.name if who else "")
    if asked.signature is None:
        return Consent(name, AgreedHow(asked.how or "spoken"))
    signature = signature_file.read(contents(asked.signature), asked.signature, name)
    return Consent(name, AgreedHow(asked.how or "signature"), signature.strokes)


def hand_back(call: Invocation) -> Reply:
    from core.services import pickups

    asked = call.asked
    signature = _signature(call)
    with call.open() as shop:
        place = paper_folder.folder(call)
        handed = call.run(
            shop,
            pickups.hand_back,
            JobNumber(asked.number),
            codes=None if asked.tape is None else tuple(TapeCode(code) for code in asked.tape),
            copies=None if asked.copy is None else tuple(asked.copy),
            signature=signature,
            paid_minor=asked.paid_minor,
            paid_by=asked.paid_by,
            shown=asked.shown,
            partly=asked.partly,
        )
        front = _front(shop, handed.at)
        done = say("cli", "job_handed_back", number=handed.job.number)
        place = paper_folder.remembered(call, shop, place, handed.job.number, done)
    written, note = paper_folder.after(
        done, place, lambda folder: paper_files.of_pickup(handed, front, folder)
    )
    receipt = written[0] if written else None
    notes = " ".join((*pickups.labels_astray(handed), *([note] if note else [])))
    return Reply(json_answers.pickup(handed, receipt), plain_answers.pickup(handed, receipt), note=notes)


def list_customers(call: Invocation) -> Reply:
    """Who was here before under such a name or number; two people with one number are two."""
    from core.services import customers

    with call.open() as shop:
        found = shop.ask(customers.recalled, call.asked.query, call.asked.query)
    lines = [
        say(
            "cli",
            "known_customer",
            name=each.name,
            phone=locale_figures.phone(each.phone) if each.phone else say("cli", "no_phone"),
            orders=each.orders,
        )
        for each in found
    ]
    document = {
        "customers": [{"name": each.name, "phone": each.phone, "orders": each.orders} for each in found]
    }
    return Reply(document, "\n".join(lines) or say("cli", "nobody_known", query=call.asked.query))


def correct_customer(call: Invocation) -> Reply:
    """Puts right who brought a box; what is not named stays as it is."""
    from core.services import jobs

    asked = call.asked
    with call.open() as shop:
        number = JobNumber(asked.number)
        typed = {"name": asked.name, "phone": asked.phone, "email": asked.email}
        who = call.run(shop, jobs.correct_fields, number, **typed).customer
    phone = locale_figures.phone(who.phone) if who.phone else None
    told = ", ".join(part for part in (who.name, phone, who.email) if part)
    return Reply({"customer": {"name": who.name, "phone": who.phone, "email": who.email}}, told)


def refund(call: Invocation) -> Reply:
    """Gives money back, and tells what is paid after it."""
    from core.services import payments
    from core.services.printing import order_papers

    asked = call.asked
    with call.open() as shop:
        place = paper_folder.folder(call)
        number, how = JobNumber(asked.number), asked.by
        job = call.run(shop, payments.refund, number, asked.minor, note=asked.because, method=how)
        given = order_papers.refund_of(job, asked.minor)
        front = _front(shop, given.at)
        left = money.spelled(job.paid_minor, job.quote.price.currency)
        done = say("cli", "paid_far", left=left)
        place = paper_folder.remembered(call, shop, place, job.number, done)
    written, note = paper_folder.after(
        done, place, lambda folder: order_papers.write_refund(job, given, asked.because, front, folder)
    )
    document = {"number": job.number, "paid_minor": job.paid_minor, "papers": [*map(str, written)]}
    return Reply(document, "\n".join((done, *map(str, written))), note=note)


def quote_of(call: Invocation, data: bytes, fitted: ShopSettings) -> Quote:
    """The quote of the inventory file in ``data`` in an empty shop with these settings."""
    now = call.clock().astimezone(ZoneInfo(fitted.front.timezone))
    load, book = turnaround.load(fitted, (), now), price_book.in_force(now.date())
    return quoting.quote(_inventory(call, data, fitted), ShopSnapshot(fitted, book, load, now))


def _quote_here(call: Invocation, data: bytes, shop: Shop, *, customer_needed: bool = False) -> Quote:
    """The quote of this shop as it is now, on the same ground as the window's; stores nothing."""

    box = _inventory(call, data, shop.ask(decks.settings), customer_needed=customer_needed)
    return shop.ask(shop_snapshot.read).quote(box, call.clock())


def _front(shop: Shop, moment: datetime) -> ShopFront:
    """The head of the shop's papers as it was at a moment: a paper written again is the same paper."""
    return shop.ask(decks.settings_then, moment).front


def _inventory(
    call: Invocation, data: bytes, fitted: ShopSettings, *, customer_needed: bool = False
) -> Inventory:
    today = call.clock().astimezone(ZoneInfo(fitted.front.timezone)).date()
    context = InventoryContext(today, fitted.country, customer_needed)
    return inventory_file.read(data, call.asked.file or typed_line.OPTION, context)


def _signature(call: Invocation) -> Signature:
    if call.asked.signature is None:
        return Signature(call.asked.signed_by)
    return signature_file.read(contents(call.asked.signature), call.asked.signature, call.asked.signed_by)
