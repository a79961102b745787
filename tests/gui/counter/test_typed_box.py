"""The box as typed: everything readable is read, nothing unreadable is lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from core.model.inventory import CustomerDraft, Delivery, TapeLine
from core.model.names import FillKnown, Finding, FormatName, Speed, TvSystem
from core.model.typed_draft import TypedBox, TypedRow
from gui.counter.typed_box import answered, box_of, read_box, read_row, row_of, tidied

TODAY = date(2026, 3, 3)
FULL = TypedRow("6", "VHS", "T-120", "S-VHS", "EP", "NTSC", "snapped, mold", "Birthdays")


def test_a_row_is_read_cell_by_cell() -> None:
    line = read_row(FULL).line
    assert line == TapeLine(
        6,
        FormatName("vhs"),
        "T-120",
        FormatName("s-vhs"),
        Speed.EP,
        TvSystem.NTSC,
        None,
        (Finding.SNAPPED, Finding.MOULD),
        "Birthdays",
    )


def test_what_was_read_is_written_as_the_catalogue_writes_it() -> None:
    assert tidied(TypedRow("6", "vhs", "t120", "svhs", "ep", "ntsc", "snapped,mould", "Birthdays")) == FULL


def test_an_empty_count_is_one_tape() -> None:
    assert read_row(TypedRow(format="VHS")).line == TapeLine(1, FormatName("vhs"))


@pytest.mark.parametrize(
    ("column", "text", "accepted"),
    [
        ("count", "many", "a whole number from 1 to 500"),
        ("count", "0", "a whole number from 1 to 500"),
        ("format", "reel", "VHS-C"),
        ("marking", "T-999", "T-120"),
        ("recorded_as", "MiniDV", "VHS, S-VHS"),
        ("speed", "fast", "SP, LP, EP"),
        ("tv", "colour", "NTSC or PAL"),
        ("findings", "snapped, tired", "off the hub"),
        ("label", "x" * 201, "up to 200"),
    ],
)
def test_a_wrong_cell_keeps_its_text_and_is_told_what_is_accepted(
    column: str, text: str, accepted: str
) -> None:
    row = tidied(replace(FULL, **{column: text}))
    assert getattr(row, column) == text
    assert accepted in read_row(row).complaint(column)


def test_one_wrong_cell_does_not_stop_the_others_from_being_quoted() -> None:
    line = read_row(replace(FULL, marking="T-999")).line
    assert line is not None
    assert (line.count, line.marking, line.findings) == (6, None, (Finding.SNAPPED, Finding.MOULD))


def test_the_tv_system_of_the_box_limits_the_speeds_of_its_rows() -> None:
    row = TypedRow("1", "VHS-C", speed="EP")
    assert not read_row(row, "NTSC").wrong
    assert "in PAL has SP, LP" in read_row(row, "PAL").complaint("speed")


def test_lines_remember_the_row_they_stand_in() -> None:
    box = TypedBox(rows=(TypedRow(), TypedRow(format="VHS"), TypedRow("2", "reel"), TypedRow(format="Hi8")))
    reading = read_box(box, TODAY)
    assert reading.places == (1, 3)
    assert [(row, column) for row, column, _ in reading.wrong] == [(2, "format")]


def test_the_fields_beside_the_tray_are_read_too() -> None:
    box = TypedBox(
        name=" Ada ",
        phone="",
        tv="pal",
        copies="files on a stick, DVDs for a player",
        needed_by="Fri, Mar 13",
    )
    inventory = read_box(box, TODAY).inventory
    assert inventory.customer == CustomerDraft("Ada", None)
    assert inventory.tv is TvSystem.PAL
    assert inventory.deliver == (Delivery("files", "h264", "usb"), Delivery("dvd"))
    assert inventory.needed_by == date(2026, 3, 13)


@pytest.mark.parametrize("past", ["2026-03-02", "2036-01-01", "some day"])
def test_a_day_that_cannot_be_is_complained_of(past: str) -> None:
    reading = read_box(TypedBox(needed_by=past), TODAY)
    assert "Needed by" in reading.complaint("needed_by")
    assert reading.inventory.needed_by is None


def test_a_line_becomes_the_row_it_came_from() -> None:
    line = read_row(FULL).line
    assert line is not None
    assert row_of(line) == FULL


def test_how_a_share_is_known_stays_with_the_row() -> None:
    row = replace(FULL, fill=0.5, fill_known=FillKnown.READ, fill_off=0.02)
    line = read_row(row).line
    assert line is not None
    assert (line.fill, line.fill_known, line.fill_off) == (0.5, FillKnown.READ, 0.02)
    assert row_of(line) == row


def test_an_answer_leaves_a_wrong_cell_as_it_was_typed() -> None:
    row = TypedRow("1", "Hi8", "T-999")
    line = read_row(row).line
    assert line is not None
    written = answered(row, replace(line, recorded_as=FormatName("digital8")))
    assert (written.recorded_as, written.marking) == ("Digital8", "T-999")


def test_an_inventory_out_of_older_books_is_written_into_its_cells() -> None:
    box = TypedBox(rows=(FULL, TypedRow("1", "VHS", "T-120")), name="Ada", tv="NTSC", rush=True)
    assert box_of(read_box(box, TODAY).inventory) == box


def test_empty_rows_alone_are_an_empty_box() -> None:
    assert TypedBox(rows=(TypedRow(), TypedRow())).is_empty
    assert not TypedBox(rows=(TypedRow(), TypedRow(speed="?"))).is_empty


@pytest.mark.parametrize(
    ("typed", "written"),
    [("t130", "T-130"), ("E 200", "E-200"), ("about 75 minutes", "75 min"), ("1 h 15 min", "75 min")],
)
def test_a_marking_nobody_lists_is_read_by_rule_and_written_as_the_shop_writes_it(
    typed: str, written: str
) -> None:
    row = replace(FULL, marking=typed)
    reading = read_row(row)

    assert not reading.wrong
    assert reading.line is not None
    assert reading.line.marking == written
    assert tidied(row).marking == written
