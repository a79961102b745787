"""The records that the examples of steps need: a tape at some station, a file, a person, a free day."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import count
from pathlib import Path
from typing import Any

from PIL import Image

from core.capture.file_report import Report, Sound
from core.model.agreement_records import CeilingChoice, Consent
from core.model.dispositions import Disposition
from core.model.names import DonorPart, Finding, FormatName, Join, TapeCode
from core.model.own_shop.access_records import AccessToken
from core.model.own_shop.settings_records import Outage, Permission
from core.model.own_shop.setup_pages import SetupPage
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.model.typed_draft import TypedBox
from core.services import (
    box_order,
    closed_days,
    decks,
    donors,
    drafts,
    incidents,
    payments,
    recordings,
    repair_attempts,
    repair_record,
    tape_dispositions,
    tapes,
)
from core.services.agreement import agreements
from core.services.checking import sign_offs
from core.services.own_shop import (
    people,
    price_books,
    settings_versions,
    shop_document,
)
from core.services.privacy import erasures
from core.services.proving import access_tokens
from core.store import lookup
from core.store.unit import Unit
from tests.core.capture import copied_file
from tests.support.booked import Desk, line

Example = tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any]]
ADA = Consent("Ada Fenwick")
VHS = FormatName("vhs")
NUMBERS = count(1)
WEEKS = 90
"""Days further off than two years are not planned."""


def of(step: Callable[..., Any], *args: Any, **named: Any) -> Example:
    return step, args, named


def a_tape(desk: Desk, station: Station = Station.BOOKED_IN, *findings: Finding) -> TapeRecord:
    job = desk.allow(desk.book(line(findings=findings)))
    return job.tapes[0] if station is Station.BOOKED_IN else desk.bring_to(job.tapes[0], station)


def tape_at(desk: Desk, station: Station = Station.BOOKED_IN, *findings: Finding) -> TapeCode:
    return a_tape(desk, station, *findings).code


def spliced(desk: Desk) -> TapeCode:
    code = tape_at(desk)
    desk.shop.run(repair_record.splice, code, at_minutes=9.0, cut_cm=2.0, joined_with=Join.TAPE)
    return code


def label_astray(desk: Desk) -> TapeCode:
    code = spliced(desk)
    desk.shop.run(repair_record.mark, code)
    desk.shop.run(repair_record.undo_splice, code, because="typed twice")
    return code


def at_the_bench(desk: Desk) -> TapeCode:
    code = tape_at(desk, Station.LOOKED_OVER, Finding.OFF_HUB)
    return desk.shop.run(tapes.move, code, Station.AT_THE_BENCH).code


def repaired(desk: Desk) -> TapeCode:
    code = at_the_bench(desk)
    return desk.shop.run(repair_attempts.record, code, "re-anchor", succeeded=True).code


def asking(desk: Desk) -> Example:
    job = desk.book(line(count=3))
    tape = desk.bring_to(job.tapes[0], Station.PLAYING)
    desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=366)
    return of(agreements.answer, job.number, CeilingChoice.GO_ON, ADA)


def better_order(desk: Desk) -> Example:
    """An order somebody else might have worked out: the boxes as they stand, the other way round."""
    desk.book(), desk.book()
    seen = desk.shop.ask(box_order.standing)
    return of(box_order.put, [number for number, _ in reversed(seen.boxes)], seen)


def reordered(desk: Desk) -> Example:
    step, args, _ = better_order(desk)
    desk.shop.run(step, *args)
    return of(box_order.put_back)


def ready_order(desk: Desk) -> str:
    return a_tape(desk, Station.READY).code[:6]


def paid(desk: Desk) -> Example:
    number = desk.book().number
    desk.shop.run(payments.take, number, 900)
    return of(payments.refund, number, 500, note="one tape less")


def lost(desk: Desk) -> TapeCode:
    code = tape_at(desk)
    desk.shop.run(tape_dispositions.settle, code, Disposition.LOST, note="not on its shelf")
    return code


def a_report() -> Report:
    number = next(NUMBERS)
    return Report(
        name=f"tape {number}.mp4",
        size_bytes=1_000,
        sha256=f"{number:064x}",
        seconds=3_600.0,
        has_picture=True,
        sound=Sound.PARTLY,
        stretches=(),
        keep_from=0.0,
        keep_to=3_600.0,
        billable_minutes=60.0,
        remarks=(),
    )


def recorded(desk: Desk) -> Example:
    code = tape_at(desk, Station.BEING_CHECKED)
    desk.shop.run(recordings.attach, code, a_report())
    return of(recordings.strike, code, because="the wrong file")


def free_day(desk: Desk) -> date:
    """An open day nobody has used yet."""
    tuesday = date(2026, 4, 7) + timedelta(weeks=next(NUMBERS) % WEEKS)
    assert desk.clock().date() < tuesday
    return tuesday


def closed(desk: Desk) -> date:
    day = free_day(desk)
    desk.shop.run(closed_days.plan, day, day, "holiday")
    return day


def an_outage(desk: Desk) -> Outage:
    first = free_day(desk)
    return Outage("VHS 1", first, first + timedelta(days=1))


def planned_outage(desk: Desk) -> Example:
    outage = an_outage(desk)
    desk.shop.run(decks.plan_outage, outage)
    return of(decks.cancel_outage, outage)


def broken_down(desk: Desk) -> Example:
    desk.shop.run(decks.broke_down, "VHS 2")
    return of(decks.back_in_service, "VHS 2", "belt changed")


def counted_donors(desk: Desk) -> Example:
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, next(NUMBERS) + 1)
    return of(donors.correct, VHS, DonorPart.SHELL, 1, came_from="", because="counted")


def a_phone(desk: Desk) -> list[tuple[str, str | None]]:
    return [("front.phone", f"303 555 {next(NUMBERS):04d}")]


def somebody(desk: Desk) -> str:
    """A person besides Kim, who acts here and may do everything."""
    name, every = f"Robin {next(NUMBERS)}", [each.value for each in Permission]
    may = f"{{may={every}}}".replace("'", '"')
    desk.shop.run(shop_document.set_texts, [(f"person.{name}", "{}"), ("person.Kim", may)])
    return name


def with_pin(desk: Desk) -> str:
    name = somebody(desk)
    desk.shop.run(people.set_pin, name, "2468")
    return name


def a_token(desk: Desk) -> AccessToken:
    return access_tokens.new(f"backup {next(NUMBERS)}", desk.clock().date()).kept


def with_token(desk: Desk) -> Example:
    name, token = somebody(desk), a_token(desk)
    desk.shop.run(access_tokens.issue, name, token)
    return of(access_tokens.revoke, name, token.name)


def a_user(desk: Desk) -> str:
    return f"ada/{next(NUMBERS)}@till-1"


def with_user(desk: Desk) -> Example:
    name, user = somebody(desk), a_user(desk)
    desk.shop.run(access_tokens.map_user, name, user)
    return of(access_tokens.unmap_user, name, user)


def gone_home(desk: Desk) -> Example:
    """A customer whose order is home and paid."""
    number = next(NUMBERS)
    job = desk.allow(desk.book(line(), name=f"Erwin {number}", phone=f"(303) 556-{number:04d}"))
    desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job, paid_minor=desk.shop.ask(_due, job.number))
    return of(erasures.erase_rows, job.number)


def _due(unit: Unit, number: str) -> int:
    return payments.price(unit, lookup.job_row(unit, number)).due.likely


def changed_settings(desk: Desk) -> Example:
    before = desk.shop.ask(decks.settings)
    desk.shop.run(shop_document.set_texts, a_phone(desk))
    return of(settings_versions.change, before)


def undone(desk: Desk) -> Example:
    desk.shop.run(shop_document.set_texts, a_phone(desk))
    return of(settings_versions.undo)


def left_page(desk: Desk) -> Example:
    view = desk.shop.ask(shop_document.view)
    desk.shop.run(shop_document.set_texts, a_phone(desk))
    return of(shop_document.leave_page, SetupPage.HOURS, view.settings, view.prices)


def raised(desk: Desk) -> Example:
    return of(shop_document.raise_prices, Decimal(next(NUMBERS)), Decimal("0.01"))


def withdrawn(desk: Desk) -> Example:
    step, args, _ = raised(desk)
    desk.shop.run(step, *args)
    return of(price_books.withdraw)


def example_prices(desk: Desk) -> Example:
    """Prices nobody has made the shop's own."""
    book = desk.shop.ask(price_books.document_in_force, desk.clock().date())
    example = {**book, "invented": True, "remark": f"an example {next(NUMBERS)}"}
    desk.shop.run(price_books.enter, shop_document.dated(example, desk.clock().date()))
    return of(shop_document.confirm, [SetupPage.PRICES])


def unsigned(desk: Desk) -> Example:
    code = copied_file.played(desk)
    copied_file.attach(desk, code, replace(copied_file.FILE, sha256=f"{next(NUMBERS):064x}"))
    return of(sign_offs.sign_off, code, name="Kim")


def signed(desk: Desk) -> Example:
    step, (code,), named = unsigned(desk)
    desk.shop.run(step, code, **named)
    return of(sign_offs.withdraw, code, because="the sound is off at the end")


def photographed(desk: Desk) -> Example:
    photo = Path(tempfile.mkdtemp()) / "shelf.png"
    Image.new("RGB", (8, 8), "teal").save(photo)
    return of(incidents.attach_file, lost(desk), photo)


def earlier_draft(desk: Desk) -> Example:
    number = next(NUMBERS)
    desk.shop.run(drafts.keep, f"counter Kim {number}", TypedBox(name="Ada"))
    return of(drafts.take_over, f"counter {number}", f"counter Kim {number}")
