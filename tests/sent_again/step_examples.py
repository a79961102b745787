"""One example of every step: the records it needs, then the step with its arguments."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from core.model.deck_showing import Shown
from core.model.dispositions import Disposition
from core.model.handover_records import ToldHow, ToldResult
from core.model.incident_records import IncidentKind
from core.model.inventory import CustomerDraft
from core.model.names import DonorPart, Finding, Join, Look, Speed
from core.model.own_shop.settings_records import Expected
from core.model.stations import Station
from core.model.typed_draft import TypedBox
from core.pricing import price_csv
from core.pricing.amendment_records import Amendment
from core.services import (
    box_order,
    calls,
    closed_days,
    deck_findings,
    decks,
    donors,
    drafts,
    expectations,
    incidents,
    jobs,
    looks,
    payments,
    pickups,
    promises,
    recordings,
    repair_attempts,
    repair_record,
    tape_dispositions,
    tapes,
)
from core.services.accounts import drawer, invoicing
from core.services.after_ready import caller_check, handover_wishes, noted_calls, telling
from core.services.agreement import agreements, amendments, cancellations
from core.services.checking import sign_offs
from core.services.incident_photos import Photo
from core.services.own_shop import (
    people,
    price_books,
    reported_changes,
    settings_versions,
    shop_document,
)
from core.services.privacy import backup_renewal, customer_export, erasures
from core.services.proving import access_tokens
from tests.sent_again.copy_scenes import COPY_EXAMPLES
from tests.sent_again.step_scenes import (
    ADA,
    NUMBERS,
    VHS,
    Example,
    a_phone,
    a_report,
    a_token,
    a_user,
    an_outage,
    asking,
    at_the_bench,
    better_order,
    broken_down,
    changed_settings,
    closed,
    counted_donors,
    earlier_draft,
    example_prices,
    free_day,
    gone_home,
    label_astray,
    left_page,
    lost,
    of,
    paid,
    photographed,
    planned_outage,
    raised,
    ready_order,
    recorded,
    reordered,
    repaired,
    signed,
    somebody,
    spliced,
    tape_at,
    undone,
    unsigned,
    with_pin,
    with_token,
    with_user,
    withdrawn,
)
from tests.support.booked import Desk, inventory, line, quoted


def price_file(desk: Desk) -> Example:
    text = price_csv.written(desk.shop.ask(price_books.document_in_force, desk.clock().date()))
    return of(shop_document.take_over_prices, text, "prices.csv", valid_from=free_day(desk))


def settings_file(desk: Desk) -> Example:
    text = desk.shop.ask(shop_document.export)
    desk.shop.run(shop_document.set_texts, a_phone(desk))
    return of(shop_document.take_over, text, "shop.toml")


def typed_prices(desk: Desk) -> Example:
    book = desk.shop.ask(price_books.document_in_force, desk.clock().date())
    return of(price_books.put_in_force, shop_document.dated(book, free_day(desk)))


EXAMPLES: dict[Callable[..., Any], Callable[[Desk], Example]] = {
    **COPY_EXAMPLES,
    agreements.agree: lambda desk: of(
        agreements.agree, desk.book().number, "do it", ADA, ceiling_minor=50_000
    ),
    agreements.answer: asking,
    amendments.amend: lambda desk: of(
        amendments.amend, desk.book().number, Amendment(inventory(line(count=3))), reason="more", consent=ADA
    ),
    box_order.put: better_order,
    box_order.put_back: reordered,
    sign_offs.sign_off: unsigned,
    sign_offs.withdraw: signed,
    price_books.put_in_force: typed_prices,
    incidents.attach_file: photographed,
    caller_check.fits: lambda desk: of(caller_check.fits, desk.book().number, caller_check.DIGITS, "9999"),
    caller_check.vouch: lambda desk: of(caller_check.vouch, desk.book().number),
    calls.note_call: lambda desk: of(calls.note_call, desk.book().number, None),
    cancellations.cancel: lambda desk: of(
        cancellations.cancel, desk.book().number, None, reason="no", consent=ADA
    ),
    closed_days.open_after_all: lambda desk: of(closed_days.open_after_all, [closed(desk)]),
    closed_days.open_span: lambda desk: of(closed_days.open_span, *[closed(desk)] * 2),
    closed_days.plan: lambda desk: of(closed_days.plan, *[free_day(desk)] * 2, "holiday"),
    closed_days.stayed_shut: lambda desk: of(closed_days.stayed_shut, desk.clock().date(), "no power"),
    customer_export.note: lambda desk: of(customer_export.note, desk.book().number, "/tmp/hers.json"),
    deck_findings.see: lambda desk: of(
        deck_findings.see, tape_at(desk, Station.PLAYING), Shown(speed=Speed.EP)
    ),
    decks.back_in_service: broken_down,
    decks.broke_down: lambda desk: of(decks.broke_down, "VHS 1", "belt"),
    decks.cancel_outage: planned_outage,
    decks.plan_outage: lambda desk: of(decks.plan_outage, an_outage(desk), "service"),
    donors.add: lambda desk: of(donors.add, VHS, DonorPart.LID, 3),
    donors.correct: counted_donors,
    drafts.book: lambda desk: of(drafts.book, "counter", quoted(desk.shop), deposit_minor=100),
    drafts.take_over: earlier_draft,
    drafts.keep: lambda desk: of(drafts.keep, "counter", TypedBox(name=f"Ada {next(NUMBERS)}")),
    erasures.erase_rows: gone_home,
    backup_renewal.note: lambda desk: of(backup_renewal.note, ("/stick/new.sqlite",), ()),
    access_tokens.issue: lambda desk: of(access_tokens.issue, somebody(desk), a_token(desk)),
    access_tokens.revoke: with_token,
    access_tokens.map_user: lambda desk: of(access_tokens.map_user, somebody(desk), a_user(desk)),
    access_tokens.unmap_user: with_user,
    expectations.expect: lambda desk: of(
        expectations.expect, Expected(float(100 + next(NUMBERS)), 48.0, 2.0, 5.0, 0.02)
    ),
    expectations.expect_figures: lambda desk: of(
        expectations.expect_figures, {"hours_to_repair": float(20 + next(NUMBERS))}
    ),
    handover_wishes.wish: lambda desk: of(
        handover_wishes.wish, desk.book().number, how=ToldHow.PHONE, pass_phrase="seven reels"
    ),
    incidents.add: lambda desk: of(incidents.add, lost(desk), IncidentKind.TOLD, "by phone"),
    incidents.attach: lambda desk: of(incidents.attach, lost(desk), Photo("shelf.png", "ab" * 32)),
    jobs.book: lambda desk: of(jobs.book, quoted(desk.shop), deposit_minor=100, told=("old tapes",)),
    jobs.correct_customer: lambda desk: of(
        jobs.correct_customer, desk.book().number, CustomerDraft(f"Bo {next(NUMBERS)}", "303 555 0100")
    ),
    jobs.correct_fields: lambda desk: of(
        jobs.correct_fields, desk.book().number, phone=f"303 555 {next(NUMBERS):04d}"
    ),
    looks.look_over: lambda desk: of(looks.look_over, tape_at(desk), [Finding.SCRATCHED], looked=3, of=5),
    looks.pack_read: lambda desk: of(looks.pack_read, tape_at(desk), to_come_mm=30.0, run_mm=None),
    noted_calls.note: lambda desk: of(noted_calls.note, desk.book().number, "ready on Friday"),
    drawer.close_day: lambda desk: of(drawer.close_day, 5_000, note="first count"),
    drawer.count_float: lambda desk: of(drawer.count_float, 5_000),
    invoicing.give: lambda desk: of(invoicing.give, desk.book().number),
    payments.refund: paid,
    payments.take: lambda desk: of(payments.take, desk.book().number, 500),
    people.check_pin: lambda desk: of(people.check_pin, with_pin(desk), "1357"),
    people.set_pin: lambda desk: of(people.set_pin, somebody(desk), "2468"),
    people.sign_in: lambda desk: of(people.sign_in, with_pin(desk), "2468"),
    pickups.hand_back: lambda desk: of(
        pickups.hand_back, ready_order(desk), codes=None, copies=None, signature=desk.signature
    ),
    price_books.withdraw: withdrawn,
    promises.renew: lambda desk: of(promises.renew, desk.book().number, "a deck broke"),
    recordings.attach: lambda desk: of(recordings.attach, tape_at(desk, Station.BEING_CHECKED), a_report()),
    recordings.strike: recorded,
    repair_attempts.look: lambda desk: of(repair_attempts.look, repaired(desk), Look.OK),
    repair_attempts.record: lambda desk: of(
        repair_attempts.record, at_the_bench(desk), "re-anchor", succeeded=True
    ),
    repair_attempts.strike: lambda desk: of(repair_attempts.strike, repaired(desk), because="another tape"),
    repair_record.clear_finding: lambda desk: of(
        repair_record.clear_finding,
        tape_at(desk, Station.BOOKED_IN, Finding.MOULD),
        Finding.MOULD,
        "cleaned",
    ),
    repair_record.find: lambda desk: of(repair_record.find, tape_at(desk), [Finding.SCRATCHED]),
    repair_record.mark: lambda desk: of(repair_record.mark, spliced(desk)),
    repair_record.splice: lambda desk: of(
        repair_record.splice, tape_at(desk), at_minutes=9.0, cut_cm=2.0, joined_with=Join.TAPE
    ),
    repair_record.take_label_off: lambda desk: of(repair_record.take_label_off, label_astray(desk)),
    repair_record.undo_splice: lambda desk: of(repair_record.undo_splice, spliced(desk), because="twice"),
    reported_changes.carry_out: lambda desk: of(
        reported_changes.carry_out, partial(shop_document.set_texts, typed=a_phone(desk))
    ),
    settings_versions.change: changed_settings,
    settings_versions.undo: undone,
    shop_document.confirm: example_prices,
    shop_document.leave_page: left_page,
    shop_document.raise_prices: raised,
    shop_document.set_texts: lambda desk: of(shop_document.set_texts, a_phone(desk)),
    shop_document.take_over: settings_file,
    shop_document.take_over_prices: price_file,
    tape_dispositions.reopen: lambda desk: of(tape_dispositions.reopen, lost(desk), because="found"),
    tape_dispositions.settle: lambda desk: of(
        tape_dispositions.settle, tape_at(desk), Disposition.LOST, note="not on its shelf"
    ),
    tapes.move: lambda desk: of(tapes.move, tape_at(desk), Station.LOOKED_OVER, findings=[Finding.SCRATCHED]),
    telling.tell: lambda desk: of(telling.tell, ready_order(desk), ToldHow.PHONE, ToldResult.REACHED),
}
"""By step. A step that is not here fails `tests.core.services.test_every_step_once`."""
