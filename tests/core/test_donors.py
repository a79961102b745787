"""Donor cassettes are stock: counted, taken for a tape, refused when there are none."""

from __future__ import annotations

import pytest

from core import donors, repairs
from core.errors import Refused, WrongInput
from core.names import DonorPart, Finding, FormatName
from core.records import Donor
from core.tables import DonorRow
from core.unit import Unit
from tests.support.booked import Desk, line

VHS = FormatName("vhs")


def test_parts_on_the_shelf_are_counted_with_where_they_came_from(desk: Desk) -> None:
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 2, came_from="a thrift-store T-120")
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 3, came_from="a thrift-store T-120")
    desk.shop.run(donors.add, VHS, DonorPart.SCREWS, 10)
    assert desk.shop.ask(donors.stock) == (
        Donor(VHS, DonorPart.SCREWS, "", 10),
        Donor(VHS, DonorPart.SHELL, "a thrift-store T-120", 5),
    )
    assert desk.shop.ask(donors.fitting, VHS)[DonorPart.SHELL] == 5
    assert desk.shop.ask(donors.fitting, FormatName("hi8"))[DonorPart.SHELL] == 0
    assert desk.shop.verify() == ()


@pytest.mark.parametrize("count", [0, -1, 1001])
def test_a_count_that_cannot_be_is_refused(desk: Desk, count: int) -> None:
    with pytest.raises(WrongInput, match="from 1 to 1000"):
        desk.shop.run(donors.add, VHS, DonorPart.REEL, count)
    assert desk.shop.ask(donors.stock) == ()


def test_an_unknown_format_is_refused(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="format"):
        desk.shop.run(donors.add, FormatName("vhss"), DonorPart.REEL, 1)


def test_a_part_used_on_a_tape_leaves_the_shelf_and_the_tape_says_where_it_came_from(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 1, came_from="the first lot")
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 1, came_from="the second lot")
    tape = desk.shop.run(repairs.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    assert tape.tried[0].came_from == "the first lot"
    assert desk.shop.ask(donors.stock) == (Donor(VHS, DonorPart.SHELL, "the second lot", 1),)
    assert desk.shop.verify() == ()


def test_an_empty_shelf_refuses_and_names_the_way_out(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(donors.add, FormatName("s-vhs"), DonorPart.SHELL, 1)
    with pytest.raises(Refused, match="the part came from elsewhere"):
        desk.shop.run(repairs.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    tape = desk.shop.run(
        repairs.record,
        code,
        "shell-swap",
        succeeded=True,
        part=DonorPart.SHELL,
        from_elsewhere="the customer",
    )
    assert tape.tried[0].came_from == "the customer"
    assert desk.shop.ask(donors.stock) == (Donor(FormatName("s-vhs"), DonorPart.SHELL, "", 1),)


def test_a_count_altered_behind_the_books_is_seen(desk: Desk) -> None:
    def tamper(unit: Unit) -> None:
        unit.session.get_one(DonorRow, 1).count = 7

    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 2)
    desk.shop.run(tamper)
    (problem,) = desk.shop.verify()
    assert "7 × vhs shell" in problem
