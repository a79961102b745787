"""The inventory file: what is read from a good one, and how a wrong one is refused."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue import formats
from core.cli import json_quotes
from core.model.errors import WrongInput
from core.model.inventory import CustomerDraft, Delivery, TapeLine
from core.model.names import FillKnown, Finding, FormatName, Speed, TvSystem
from core.services import inventory_file
from core.services.inventory_file import InventoryContext
from tests.support.inventories import WRONG, Wrong

READING = InventoryContext(date(2026, 3, 2), customer_needed=True)
LENIENT = InventoryContext(date(2026, 3, 2))


def read(box: Any, context: InventoryContext = LENIENT) -> inventory_file.Inventory:
    return inventory_file.read(json.dumps(box).encode(), "box.json", context)


def one(**tape: Any) -> TapeLine:
    (line,) = read({"tapes": [{"count": 1, "format": "vhs", **tape}]}).lines
    return line


def test_reads_every_field() -> None:
    box = read(
        {
            "customer": {"name": " Ada Núñez ", "phone": "(303) 555-0142", "email": "ada@example.org"},
            "tv": "ntsc",
            "tapes": [
                {"count": 6, "format": "vhs", "marking": "T-120", "speed": "unknown", "findings": []},
                {
                    "count": 1,
                    "format": "hi8",
                    "marking": "P6-120",
                    "recorded_as": "digital8",
                    "speed": "lp",
                    "tv": "pal",
                    "fill": 0.5,
                    "findings": ["snapped", "mould"],
                    "label": "holiday 1996",
                },
            ],
            "deliver": [{"as": "files", "codec": "h264", "on": "usb"}, {"as": "dvd"}],
            "rush": True,
            "needed_by": "2026-03-02",
            "cold": True,
        },
        READING,
    )
    assert box.customer == CustomerDraft("Ada Núñez", "(303) 555-0142", "ada@example.org")
    assert box.lines == (
        TapeLine(6, FormatName("vhs"), "T-120"),
        TapeLine(
            1,
            FormatName("hi8"),
            "P6-120",
            FormatName("digital8"),
            Speed.LP,
            TvSystem.PAL,
            0.5,
            (Finding.SNAPPED, Finding.MOULD),
            "holiday 1996",
        ),
    )
    assert box.deliver == (Delivery("files", "h264", "usb"), Delivery("dvd"))
    assert (box.tv, box.rush, box.needed_by, box.cold) == (TvSystem.NTSC, True, date(2026, 3, 2), True)


def test_takes_null_for_what_nobody_knows() -> None:
    unknown = ("marking", "recorded_as", "speed", "tv", "fill", "fill_known", "fill_off", "findings", "label")
    assert one(**dict.fromkeys(unknown)) == TapeLine(1, FormatName("vhs"))
    assert read({"tapes": [{"count": 1, "format": "vhs"}], "tv": None, "deliver": None}).tv is None


def test_a_share_says_how_it_is_known_and_is_told_where_the_file_does_not_say() -> None:
    assert one(fill=0.5).fill_known is FillKnown.TOLD
    assert one(fill=0.5, fill_known="at-least").fill_known is FillKnown.AT_LEAST
    read_off = one(fill=0.5, fill_known="read", fill_off=0.02)
    assert (read_off.fill_known, read_off.fill_off) == (FillKnown.READ, 0.02)


@pytest.mark.parametrize(
    "known",
    [
        {},
        {"fill": 0.5},
        {"fill": 0.5, "fill_known": FillKnown.AT_LEAST},
        {"fill": 0.5, "fill_known": FillKnown.READ, "fill_off": 0.02},
    ],
)
def test_a_line_as_it_is_answered_is_read_back_as_it_was(known: dict[str, Any]) -> None:
    line = TapeLine(1, FormatName("vhs"), **known)

    assert read({"tapes": [json_quotes.line(line)]}).lines == (line,)


def test_a_customer_is_needed_only_to_book() -> None:
    box = {"tapes": [{"count": 1, "format": "vhs"}]}
    assert read(box).customer is None
    with pytest.raises(WrongInput, match=r"box\.json: customer: found nothing; needed for a booking"):
        read(box, READING)


@pytest.mark.parametrize("typed", ["T-120", "t-120", "T120", " t 120 "])
def test_a_marking_is_known_however_it_is_spelt(typed: str) -> None:
    assert one(marking=typed).marking == "T-120"


def test_every_format_of_the_catalogue_is_read() -> None:
    assert [one(format=name).format for name in formats.catalogue().names] == list(formats.catalogue().names)


@pytest.mark.parametrize("phone", ["(303) 555-0142", "+44 20 7946 0018", "555-0142", "+1 555 0100"])
def test_a_phone_number_stays_as_it_was_given(phone: str) -> None:
    box = read({"customer": {"name": "A", "phone": phone}, "tapes": [{"count": 1, "format": "vhs"}]})
    assert box.customer == CustomerDraft("A", phone)


def test_a_phone_number_without_plus_is_read_as_it_is_dialled_at_the_shop() -> None:
    box = {"customer": {"name": "A", "phone": "020 7946 0018"}, "tapes": [{"count": 1, "format": "vhs"}]}
    assert read(box, InventoryContext(date(2026, 3, 2), "GB")).customer == CustomerDraft("A", "020 7946 0018")
    with pytest.raises(WrongInput, match="with its area code"):
        read(box)


def test_the_tv_system_of_the_box_decides_which_speeds_a_line_may_have() -> None:
    box = {"tv": "pal", "tapes": [{"count": 1, "format": "betamax", "speed": "b2"}]}
    with pytest.raises(WrongInput, match=r"tapes\[0\]\.speed: found 'b2'; accepted: sp, unknown"):
        read(box)
    assert read({**box, "tv": "ntsc"}).lines[0].speed is Speed.B2


@pytest.mark.parametrize("wrong", WRONG, ids=lambda wrong: wrong.name)
def test_refuses_and_names_the_place(wrong: Wrong) -> None:
    with pytest.raises(WrongInput) as refused:
        inventory_file.read(wrong.data, "box.json", READING)
    assert refused.value.place == wrong.place
    assert wrong.accepted in refused.value.sentence


_SCALARS = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=8)
_JSON = st.recursive(_SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner))


@given(_JSON)
def test_any_json_at_all_is_refused_or_read(document: Any) -> None:
    with pytest.raises(WrongInput):
        inventory_file.read(json.dumps(document).encode(), "box.json", READING)


@given(st.binary(max_size=200))
def test_any_bytes_at_all_are_refused(data: bytes) -> None:
    with pytest.raises(WrongInput):
        inventory_file.read(data, "box.json", READING)
