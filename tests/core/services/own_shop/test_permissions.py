"""Every permission is asked by the steps it is for, also where no screen hides them; on both databases."""

from __future__ import annotations

import ast
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

import core
from core.model.errors import NotPermitted
from core.model.own_shop.settings_records import ASKED, Permission, Person
from core.model.stations import Station
from core.services import jobs, payments, promises, shop_overview, tapes
from core.services.own_shop import settings_versions, shop_document
from core.services.privacy import erasures
from core.services.restoring import restored_shop
from core.store import current_settings, lookup
from core.store.unit import Unit
from core.wording.messages import say
from tests.support.booked import Desk, line, quoted

OWNER = Person("Ada", may=frozenset(each.value for each in Permission))
HELPER = Person("Kit")
EVERYWHERE = Path(core.__file__).parent


def staff(desk: Desk, *people: Person) -> None:
    desk.shop.run(
        settings_versions.change,
        replace(desk.shop.ask(current_settings.read), staff=(OWNER, *people)),
        needs=None,
    )


def change_settings(desk: Desk) -> Callable[[], object]:
    return lambda: desk.shop.run(shop_document.set_texts, [("work.people", "5")])


def change_prices(desk: Desk) -> Callable[[], object]:
    return lambda: desk.shop.run(shop_document.raise_prices, Decimal(4), Decimal("0.50"))


def give_back(desk: Desk) -> Callable[[], object]:
    job = desk.book(line())
    desk.shop.run(payments.take, job.number, 500)
    return lambda: desk.shop.run(payments.refund, job.number, 100, note="a tape was blank")


def promise_too_soon(desk: Desk) -> Callable[[], object]:
    job = desk.book(line(count=60))
    today = desk.clock().date()
    assert job.promise.day is not None
    assert job.promise.day > today
    return lambda: desk.shop.run(promises.renew, job.number, "they leave tonight", day=today)


def look_at_reports(desk: Desk) -> Callable[[], object]:
    return lambda: desk.shop.ask(promises.kept)


def erase_somebody(desk: Desk) -> Callable[[], object]:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job, paid_minor=desk.shop.ask(_due, job.number))
    return lambda: desk.shop.run(erasures.erase_rows, job.number)


def _due(unit: Unit, number: str) -> int:
    return payments.price(unit, lookup.job_row(unit, number)).due.likely


def put_back(desk: Desk) -> Callable[[], object]:
    copy = desk.shop.backup(Path.cwd() / "kept")
    return lambda: restored_shop.restore(desk.where, copy, now=desk.clock(), who=desk.shop.who, replace=True)


STEPS = {
    Permission.SETTINGS: change_settings,
    Permission.PRICES: change_prices,
    Permission.REFUND: give_back,
    Permission.OVERRIDE: promise_too_soon,
    Permission.REPORTS: look_at_reports,
    Permission.ERASE: erase_somebody,
    Permission.RESTORE: put_back,
}


def test_what_can_be_permitted_on_the_page_is_asked_by_some_step_and_the_other_way_round() -> None:
    """Read from the source: a permission nothing asks is not offered, one that is asked is."""
    asked = set()
    for file in EVERYWHERE.rglob("*.py"):
        for call in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(call, ast.Call) and ast.unparse(call.func) in _ASKING:
                asked |= {each for each in Permission if f"Permission.{each.name}" in ast.unparse(call)}
    asked |= {Permission.SETTINGS}  # the default of `settings_versions.change`
    assert asked == set(ASKED) == set(STEPS)


_ASKING = ("permissions.check", "permissions.refusals")


@pytest.mark.parametrize("permission", ASKED, ids=lambda each: each.value)
def test_a_step_is_refused_without_its_permission_and_done_with_it(
    desk: Desk, permission: Permission, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    step = STEPS[permission](desk)
    others = frozenset(each.value for each in Permission) - {permission.value, Permission.SETTINGS.value}
    able = Person("Robin", may=frozenset({permission.value}))
    staff(desk, replace(HELPER, may=others), able)
    before = desk.shop.ask(shop_document.export)
    for who in (HELPER.name, "counter"):
        desk.shop.who = who
        with pytest.raises(NotPermitted) as refused:
            step()
        assert refused.value.who_may == ("Ada", "Robin")
        what = say("settings", f"people-to-{permission.value}")
        assert refused.value.sentence.startswith(f"{who} may not {what}. Ada and Robin can")
    assert desk.shop.ask(shop_document.export) == before
    desk.shop.who = able.name
    if permission is Permission.RESTORE:
        desk.shop.close()
    step()


@pytest.mark.parametrize("permission", [Permission.PRICES, Permission.RESTORE], ids=lambda each: each.value)
def test_whoever_may_change_settings_may_do_what_they_could_permit_themselves(
    desk: Desk, permission: Permission, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    step = STEPS[permission](desk)
    staff(desk, Person("Robin", may=frozenset({Permission.SETTINGS.value})))
    desk.shop.who = "Robin"
    if permission is Permission.RESTORE:
        desk.shop.close()
    step()


def test_prices_alone_are_changed_by_key_without_touching_the_settings(desk: Desk) -> None:
    staff(desk, Person("Robin", may=frozenset({Permission.PRICES.value})))
    desk.shop.who = "Robin"
    number = desk.shop.ask(settings_versions.number)
    desk.shop.run(shop_document.set_texts, [("prices.remark", "as in spring")])
    assert desk.shop.ask(settings_versions.number) == number
    with pytest.raises(NotPermitted):
        desk.shop.run(shop_document.set_texts, [("prices.remark", "as in summer"), ("work.people", "3")])
    assert desk.shop.ask(shop_document.read)["prices"]["remark"] == "as in spring"


def test_a_later_day_at_the_customers_wish_overrides_nothing(desk: Desk) -> None:
    job = desk.book(line())
    staff(desk, HELPER)
    desk.shop.who = HELPER.name
    assert job.promise.day is not None
    later = desk.shop.ask(promises.load).calendar.days[20]
    assert desk.shop.run(promises.renew, job.number, "on vacation", day=later).promise.day == later


def test_a_cold_tape_plays_early_for_those_who_may_override(desk: Desk) -> None:
    quote = quoted(desk.shop, line())
    cold = replace(quote, inventory=replace(quote.inventory, cold=True))
    tape = desk.shop.run(jobs.book, cold).tapes[0]
    desk.bring_to(tape, Station.CLEARED_TO_PLAY)
    staff(desk, HELPER)
    for who, is_done in ((HELPER.name, False), (OWNER.name, True)):
        desk.shop.who = who
        if is_done:
            moved = desk.shop.run(tapes.move, tape.code, Station.PLAYING, note="it was indoors")
            assert moved.station is Station.PLAYING
        else:
            with pytest.raises(NotPermitted, match="override what the program decides"):
                desk.shop.run(tapes.move, tape.code, Station.PLAYING, note="it was indoors")


def test_the_overview_of_somebody_without_reports_holds_none(desk: Desk) -> None:
    desk.book(line())
    desk.clock.go_on(days=30)
    staff(desk, HELPER)
    seen = desk.shop.ask(shop_overview.read)
    assert (seen.record.judged, bool(seen.no_reports)) == ((), True)
    desk.shop.who = OWNER.name
    seen = desk.shop.ask(shop_overview.read)
    assert (len(seen.record.judged), seen.no_reports) == (1, "")


def test_a_shop_whose_people_cannot_be_read_is_put_back_by_anybody(file_desk: Desk, tmp_path: Path) -> None:
    """A damaged file must not lock its owner out of the backup."""
    copy = file_desk.shop.backup(tmp_path / "kept")
    staff(file_desk, HELPER)
    file_desk.shop.close()
    where = Path(file_desk.where)
    where.write_bytes(b"SQLite format 3\x00" + bytes(5000))
    assert restored_shop.restore(where, copy, now=file_desk.clock(), who="counter").kept is not None
