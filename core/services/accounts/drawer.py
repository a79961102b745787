"""The cash drawer: its float counted in the morning, its money in the evening, against what was paid in cash.

What counts towards a count is decided by the number of its line of history, not by the clock: a payment that
another till stores at the same moment is on one side of it or on the other.
"""

from __future__ import annotations

from datetime import date

from sqlalchemy import func, select

from core.model import entered_text
from core.model.accounts import payment_methods
from core.model.accounts.drawer_records import DrawerCount, DrawerNow
from core.model.accounts.payment_methods import CASH
from core.model.errors import Refused, WrongInput
from core.scheduling import opening_hours
from core.services import payments
from core.store import current_prices, current_settings, history
from core.store.steps import step
from core.store.tables import DrawerCountRow, PaymentRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

KIND = "drawer"
"""Of the lines of history about the drawer."""


@step
def count_float(unit: Unit, minor: int, *, note: str = "") -> DrawerCount:
    """Counts what lies in the drawer before the first customer. WrongInput for an amount that cannot be."""
    return _count(unit, minor, note, closes=False)


@step
def close_day(unit: Unit, minor: int, *, taken_out_minor: int = 0, note: str = "") -> DrawerCount:
    """Counts the drawer at the end of the day; ``taken_out_minor`` of it goes to the bank or the safe.

    WrongInput for amounts that cannot be. Refused for a difference without a note on it: next week nobody
    knows any more. The very first count is what was there.
    """
    if not 0 <= taken_out_minor <= _checked(minor):
        accepted = say("accounts", "taken-out-bounds", most=minor)
        raise WrongInput(say("accounts", "taken-out"), taken_out_minor, accepted)
    return _count(unit, minor, note, closes=True, taken_out_minor=taken_out_minor)


def now(unit: Unit) -> DrawerNow:
    """What is in the drawer by the records at this moment."""
    newest = select(DrawerCountRow).order_by(DrawerCountRow.id.desc()).limit(1)
    last = unit.session.scalars(newest).one_or_none()
    since = PaymentRow.line > (0 if last is None else last.line)
    money = PaymentRow.kind != payment_methods.ROUNDING
    cash = select(func.coalesce(func.sum(PaymentRow.minor), 0)).where(PaymentRow.method == CASH, money, since)
    came, went = (
        int(unit.session.scalars(cash.where(which)).one())
        for which in (PaymentRow.minor > 0, PaymentRow.minor < 0)
    )
    return DrawerNow(None if last is None else _record(last), came, -went)


def counts(unit: Unit, first: date, last: date) -> tuple[DrawerCount, ...]:
    """The counts of some days of the shop, oldest first."""
    within = DrawerCountRow.day.between(first.isoformat(), last.isoformat())
    asked = select(DrawerCountRow).where(within).order_by(DrawerCountRow.id)
    return tuple(_record(row) for row in unit.session.scalars(asked))


def _count(unit: Unit, minor: int, note: str, *, closes: bool, taken_out_minor: int = 0) -> DrawerCount:
    counted, said = _checked(minor), entered_text.line(say("orders", "note"), note)
    kind = "close" if closes else "float"
    words = say("accounts", "event-drawer", kind=kind, money=_money(unit, minor), given=len(said), note=said)
    line = history.append(unit, KIND, words, counted=minor, taken_out=taken_out_minor)
    found = now(unit)  # behind the line: whoever takes money now comes after it
    expected = counted if found.last is None else found.expected_minor
    if closes and counted != expected and not said:
        raise Refused(say("accounts", "why-different", expected=_money(unit, expected)))
    row = DrawerCountRow(
        closes=closes,
        day=opening_hours.today(current_settings.read(unit), unit.now).isoformat(),
        counted_minor=counted,
        expected_minor=expected,
        taken_out_minor=taken_out_minor,
        note=said,
        line=line,
        at=unit.now,
        by=unit.who,
    )
    unit.session.add(row)
    unit.session.flush()
    return _record(row)


def _checked(minor: int) -> int:
    if not 0 <= minor <= payments.MOST_MINOR:
        accepted = say("accounts", "counted-bounds", most=payments.MOST_MINOR)
        raise WrongInput(say("accounts", "counted"), minor, accepted)
    return minor


def _money(unit: Unit, minor: int) -> str:
    return locale_figures.money(minor, currency(unit))


def currency(unit: Unit) -> str:
    """The currency of the price book in force."""
    today = opening_hours.today(current_settings.read(unit), unit.now)
    return current_prices.in_force(unit, today).currency


def _record(row: DrawerCountRow) -> DrawerCount:
    return DrawerCount(
        row.closes,
        date.fromisoformat(row.day),
        row.counted_minor,
        row.expected_minor,
        row.taken_out_minor,
        row.note,
        row.at,
        row.by,
    )
