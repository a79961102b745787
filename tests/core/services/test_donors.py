"""Donor cassettes are stock: counted, taken for a tape, refused when there are none."""

from __future__ import annotations

import pytest

from core.model.errors import Refused, WrongInput
from core.model.names import DonorPart, Finding, FormatName
from core.model.repair_records import Donor
from core.services import donors, repair_attempts
from core.store.tables import DonorRow
from core.store.unit import Unit
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
    with pytest.raises(WrongInput, match="from 1 to 1,000"):
        desk.shop.run(donors.add, VHS, DonorPart.REEL, count)
    assert desk.shop.ask(donors.stock) == ()


def test_an_unknown_format_is_refused(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="format"):
        desk.shop.run(donors.add, FormatName("vhss"), DonorPart.REEL, 1)


def test_a_part_used_on_a_tape_leaves_the_shelf_and_the_tape_says_where_it_came_from(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 1, came_from="the first lot")
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 1, came_from="the second lot")
    tape = desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    assert tape.tried[0].came_from == "the first lot"
    assert desk.shop.ask(donors.stock) == (Donor(VHS, DonorPart.SHELL, "the second lot", 1),)
    assert desk.shop.verify() == ()


def test_an_empty_shelf_refuses_and_names_the_way_out(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(donors.add, FormatName("s-vhs"), DonorPart.SHELL, 1)
    with pytest.raises(Refused, match="the part came from elsewhere"):
        desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    tape = desk.shop.run(
        repair_attempts.record,
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


# --- the shelf as its owner sees it ----------------------------------------------------------


def test_the_shelf_says_what_lies_there_and_which_tapes_its_parts_went_into(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 2, came_from="a flea-market T-120")
    desk.shop.run(donors.add, VHS, DonorPart.LID, 1)
    desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)

    lid, shell = desk.shop.ask(donors.shelf).places
    assert lid == donors.DonorPlace(Donor(VHS, DonorPart.LID, "", 1), ())
    assert shell.donor.count == 1
    (used,) = shell.used
    assert (used.tape, used.held, used.by) == (code, True, "Kim")
    assert "shell" in used.repair


def test_an_emptied_place_still_says_where_its_parts_went_until_the_repair_is_struck_out(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(donors.add, VHS, DonorPart.SHELL, 1)
    desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=False, part=DonorPart.SHELL)
    (place,) = desk.shop.ask(donors.shelf).places
    assert (place.donor.count, len(place.used), place.used[0].held) == (0, 1, False)

    desk.shop.run(repair_attempts.strike, code, because="wrong tape")
    (place,) = desk.shop.ask(donors.shelf).places
    assert (place.donor.count, place.used) == (1, ())


def test_a_count_is_put_right_with_its_reason_and_the_entry_stays(desk: Desk) -> None:
    desk.shop.run(donors.add, VHS, DonorPart.REEL, 5, came_from="estate lot")
    right = {"came_from": "estate lot", "because": "two were cracked"}

    assert desk.shop.run(donors.correct, VHS, DonorPart.REEL, 3, **right).count == 3
    newest, older = desk.shop.ask(donors.shelf).lately
    assert newest.words == "VHS reel from estate lot: 3 on the shelf, not 5: two were cracked"
    assert newest.by == "Kim"
    assert "5 × VHS reel from estate lot put on the shelf" in older.words
    assert desk.shop.verify() == ()


def test_a_place_may_be_put_right_to_none_and_filled_again(desk: Desk) -> None:
    desk.shop.run(donors.add, VHS, DonorPart.REEL, 5)
    desk.shop.run(donors.correct, VHS, DonorPart.REEL, 0, came_from="", because="thrown out")
    assert desk.shop.ask(donors.stock) == ()
    assert desk.shop.run(donors.add, VHS, DonorPart.REEL, 2).count == 2
    assert desk.shop.verify() == ()


@pytest.mark.parametrize("count", [-1, 1001])
def test_a_count_that_cannot_lie_there_is_refused(desk: Desk, count: int) -> None:
    desk.shop.run(donors.add, VHS, DonorPart.REEL, 5)
    with pytest.raises(WrongInput, match="from 0 to 1,000"):
        desk.shop.run(donors.correct, VHS, DonorPart.REEL, count, came_from="", because="counted")
    assert desk.shop.ask(donors.fitting, VHS)[DonorPart.REEL] == 5


def test_without_a_reason_without_a_place_or_without_a_difference_nothing_is_put_right(desk: Desk) -> None:
    desk.shop.run(donors.add, VHS, DonorPart.REEL, 5)
    with pytest.raises(WrongInput, match="a few words"):
        desk.shop.run(donors.correct, VHS, DonorPart.REEL, 4, came_from="", because=" ")
    with pytest.raises(Refused, match="already counts 5 × VHS reel"):
        desk.shop.run(donors.correct, VHS, DonorPart.REEL, 5, came_from="", because="counted")
    with pytest.raises(Refused, match="No VHS lid from this place was ever on"):
        desk.shop.run(donors.correct, VHS, DonorPart.LID, 1, came_from="", because="counted")
    assert len(desk.shop.ask(donors.shelf).lately) == 1
