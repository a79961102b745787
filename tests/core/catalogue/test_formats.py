"""The catalogue answers by name and by what is printed on the cassette, and says what it accepts."""

from __future__ import annotations

from typing import get_args

import pytest

from core.catalogue.format_file import Mark
from core.catalogue.formats import catalogue
from core.catalogue.markings import bare
from core.model.errors import WrongInput
from core.model.names import Speed, TvSystem

NAMES = (
    "vhs s-vhs vhs-c s-vhs-c betamax video8 hi8 digital8 8mm-unknown minidv dvcam hdv micromv u-matic "
    "betacam betacam-sp audio-cassette"
)


def test_the_catalogue_holds_every_format_of_the_command_line_in_the_order_of_the_counter() -> None:
    assert [name for name in catalogue().names if name in NAMES.split()] == NAMES.split()


@pytest.mark.parametrize("text", ["T-120", "t120", "T 120", " t-120 "])
def test_a_marking_is_found_whatever_its_case_dashes_and_spaces(text: str) -> None:
    marking = catalogue().format("vhs").marking(text)

    assert marking is not None
    assert marking.name == "T-120"


def test_no_marking_stays_no_marking() -> None:
    assert catalogue().format("vhs").marking(None) is None


@pytest.mark.parametrize("text", ["T-0", "", "P6-120", "T--"])
def test_an_unknown_marking_is_refused_with_the_accepted_ones(text: str) -> None:
    with pytest.raises(WrongInput, match="T-120") as wrong:
        catalogue().format("vhs").marking(text)
    assert wrong.value.place == "marking"


def test_an_unknown_format_is_refused_with_the_accepted_ones() -> None:
    with pytest.raises(WrongInput, match="audio-cassette"):
        catalogue().format("laserdisc")


@pytest.mark.parametrize(
    ("text", "formats"),
    [
        ("t-120", ("vhs",)),
        ("ST-120", ("s-vhs",)),
        ("tc30", ("vhs-c",)),
        ("P6-120", ("video8", "hi8")),
        ("N8-60", ("digital8",)),
        ("DVM60", ("minidv", "hdv")),
        ("PDVM40", ("dvcam",)),
        ("L-750", ("betamax",)),
        ("c90", ("audio-cassette",)),
        ("nothing like it", ()),
    ],
)
def test_a_marking_tells_the_formats_sold_with_it(text: str, formats: tuple[str, ...]) -> None:
    sold = {
        name
        for entry in catalogue().formats
        for marking in entry.markings
        if bare(text) in map(bare, (marking.name, *marking.aliases))
        for name in marking.sold_as
    }

    assert sold == set(formats)


def test_the_8mm_shell_takes_three_recordings_and_the_vhs_shell_none_of_them() -> None:
    assert set(catalogue().format("hi8").systems) == {"hi8", "video8", "digital8"}
    assert set(catalogue().format("8mm-unknown").systems) == {"hi8", "video8", "digital8"}
    assert "hi8" not in catalogue().format("vhs").systems


def test_an_unnamed_8mm_shell_borrows_the_speeds_of_what_fits() -> None:
    assert catalogue().format("8mm-unknown").speeds == (Speed.SP, Speed.LP)


def test_betamax_has_three_speeds_in_ntsc_and_one_in_pal() -> None:
    betamax = catalogue().format("betamax")

    assert betamax.speeds_in(TvSystem.NTSC) == (Speed.B1, Speed.B2, Speed.B3)
    assert betamax.speeds_in(TvSystem.PAL) == (Speed.SP,)
    with pytest.raises(WrongInput, match="Betamax in PAL has sp"):
        betamax.speed_choices(Speed.B2, TvSystem.PAL)


@pytest.mark.parametrize("name", ["dvcam", "hdv", "micromv", "u-matic", "betacam-sp", "audio-cassette"])
def test_a_format_of_one_speed_takes_sp_only(name: str) -> None:
    form = catalogue().format(name)

    assert form.speeds == (Speed.SP,)
    with pytest.raises(WrongInput, match="has sp"):
        form.speed_choices(Speed.LP, None)


def test_every_value_carries_its_source_and_the_kind_of_its_mark() -> None:
    found = [
        sourced
        for form in catalogue().formats
        for sourced in (
            form.tape_width_mm,
            form.reel_radius_mm,
            *(shell.size for shell in form.shells),
            *(entry.mm_s for entry in form.tape_speeds),
            *(entry.mm for entry in form.footprints),
            *(value for m in form.markings for value in (m.metres, m.hub_radius_mm, m.thickness_um)),
        )
        if sourced is not None
    ]

    assert len(found) > 300
    assert all(str(entry.source).strip() and entry.mark in get_args(Mark) for entry in found)


def test_a_length_that_follows_from_minutes_says_that_it_is_derived() -> None:
    for form in catalogue().formats:
        for marking in form.markings:
            assert not marking.is_shortest or marking.metres.mark == "derived"
