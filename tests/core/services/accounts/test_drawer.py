"""The drawer counted against what was paid in cash."""

from __future__ import annotations

import pytest

from core.model.errors import Refused, WrongInput
from core.services import payments
from core.services.accounts import drawer
from tests.support.booked import Desk


def test_a_day_is_counted_from_what_was_left_the_evening_before(desk: Desk) -> None:
    shop, number = desk.shop, desk.book().number
    first = shop.run(drawer.count_float, 10_000)
    assert (first.difference_minor, first.left_minor) == (0, 10_000)
    shop.run(payments.take, number, 4_200, kind="deposit", method="cash")
    shop.run(payments.take, number, 9_900, kind="part", method="card")
    shop.run(payments.refund, number, 700, note="too much", method="cash")
    assert shop.ask(drawer.now).expected_minor == 13_500
    closed = shop.run(drawer.close_day, 13_500, taken_out_minor=3_500)
    assert (closed.expected_minor, closed.difference_minor, closed.left_minor) == (13_500, 0, 10_000)
    assert shop.ask(drawer.now).expected_minor == 10_000
    assert shop.verify() == ()


def test_a_difference_is_kept_with_its_reason_or_not_at_all(desk: Desk) -> None:
    shop = desk.shop
    shop.run(drawer.count_float, 10_000)
    with pytest.raises(Refused, match="say why"):
        shop.run(drawer.close_day, 9_950)
    assert shop.ask(drawer.now).expected_minor == 10_000
    closed = shop.run(drawer.close_day, 9_950, note="a coin rolled under the bench")
    assert (closed.difference_minor, closed.note) == (-50, "a coin rolled under the bench")


def test_more_is_not_taken_out_than_was_counted(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="taken out"):
        desk.shop.run(drawer.close_day, 100, taken_out_minor=101)
    with pytest.raises(WrongInput, match="counted"):
        desk.shop.run(drawer.count_float, -1)


def test_a_method_that_is_none_is_refused_by_name(desk: Desk) -> None:
    number = desk.book().number
    with pytest.raises(WrongInput, match="how it was paid"):
        desk.shop.run(payments.take, number, 100, method="cheque")
    assert desk.shop.ask(drawer.now).expected_minor == 0
