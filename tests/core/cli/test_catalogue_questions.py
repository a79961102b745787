"""``playtime``, ``cut`` and ``pack``: answers of the catalogue, without a shop."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from tests.support.typed import Typist, run_python


def test_playtime_tells_minutes_metres_speed_and_sources(typed: Typist) -> None:
    told = typed(
        "playtime", "--format", "vhs", "--marking", "T-120", "--speed", "sp", "--tv", "ntsc"
    ).document
    assert told["full_minutes"] == pytest.approx(122.9, abs=0.1)  # SMPTE 32M: 246 m at 33.35 mm/s
    assert (told["metres"], told["speed_mm_s"]) == (246.0, 33.35)
    assert told["minutes"]["low"] <= told["minutes"]["likely"] <= told["minutes"]["high"]
    assert told["sources"]


def test_playtime_of_a_hi8_cassette_recorded_as_digital8_is_an_hour(typed: Typist) -> None:
    told = typed(
        "playtime", "--format", "hi8", "--marking", "p6 120", "--recorded-as", "digital8", "--speed", "sp"
    ).document
    assert told["full_minutes"] == pytest.approx(60.0, abs=0.1)


def test_playtime_narrows_with_the_share_that_is_recorded_and_with_how_it_is_known(typed: Typist) -> None:
    nothing, told, read = (
        typed("playtime", "--format", "minidv", "--marking", "DVM60", "--speed", "sp", *more).document
        for more in ((), ("--fill", "0.5"), ("--fill", "0.5", "--fill-known", "read"))
    )
    spans = [each["minutes"]["high"] - each["minutes"]["low"] for each in (read, told, nothing)]

    assert read["minutes"]["likely"] == pytest.approx(30.0, rel=0.1)
    assert spans[0] < spans[1] < spans[2]


def test_playtime_of_a_tape_wound_half_way_is_no_shorter_than_half(typed: Typist) -> None:
    words = ("playtime", "--format", "vhs", "--marking", "T-120", "--speed", "sp", "--tv", "ntsc")
    least = typed(*words, "--fill", "0.5", "--fill-known", "at-least").document

    assert least["minutes"]["low"] >= 122.9 / 2


@pytest.mark.parametrize(
    ("more", "place"),
    [
        (("--fill-known", "read"), "--fill-known"),
        (("--fill-off", "0.1"), "--fill-off"),
        (("--fill", "0.5", "--fill-known", "guessed"), "--fill-known"),
        (("--fill", "0.5", "--fill-known", "at-least", "--fill-off", "0.1"), "--fill-off"),
    ],
)
def test_how_a_share_is_known_is_refused_without_a_share(
    typed: Typist, more: tuple[str, ...], place: str
) -> None:
    told = typed("playtime", "--format", "vhs", *more)

    assert told.code == 2
    assert place in told.out + told.err


def test_cut_tells_seconds_removed_and_disturbed(typed: Typist) -> None:
    told = typed("cut", "--format", "vhs", "--speed", "sp", "--tv", "ntsc", "--cm", "2").document
    assert told["seconds_removed"] == pytest.approx(20 / 33.35, abs=1e-6)
    assert told["seconds_disturbed"] == pytest.approx((20 + 96.2) / 33.35, abs=1e-6)


def test_seconds_that_nobody_can_know_are_told_as_not_known(typed: Typist) -> None:
    """MicroMV: how far a track reaches was not found, so no cut of it disturbs 0.0 seconds."""
    asked = ("cut", "--format", "micromv", "--cm", "0")
    told = typed(*asked)

    assert told.document["seconds_removed"] == 0
    assert told.document["seconds_disturbed"] is told.document["disturbed"] is None


def test_pack_tells_metres_and_minutes_and_refuses_an_unknown_hub(typed: Typist) -> None:
    told = typed("pack", "--format", "vhs", "--radius-mm", "35", "--speed", "sp", "--tv", "ntsc").document
    assert told["metres"] == pytest.approx(3.141592653589793 * (35**2 - 13**2) / 19, abs=1e-6)
    assert told["minutes"] == pytest.approx(told["metres"] / 33.35 / 0.06, abs=1e-5)
    assert typed("pack", "--format", "micromv", "--radius-mm", "12").code == 3


def test_the_shelf_needs_no_shop_no_database_and_no_paper(tmp_path: Path) -> None:
    script = (
        "import sys; from core.cli import entry;"
        "codes = [entry.run(words.split()) for words in sys.argv[1:]];"
        "print(codes, sorted({name.split('.')[0] for name in sys.modules}"
        " & {'sqlalchemy', 'alembic', 'reportlab', 'psycopg', 'phonenumbers', 'PySide6'}))"
    )
    words = ["playtime --format vhs --json", "cut --format hi8 --cm 2", "pack --format vhs --radius-mm 30"]
    done = run_python("-c", script, *words, home=tmp_path)
    assert done.stdout.splitlines()[-1] == "[0, 0, 0] []"
    assert list(tmp_path.iterdir()) == []


def both(typed: Typist, marking: str, supply: str, take_up: str) -> Mapping[str, Any]:
    return typed(
        *("pack", "--format", "vhs", "--marking", marking, "--speed", "sp", "--tv", "ntsc"),
        *("--radius-mm", supply, "--take-up-radius-mm", take_up),
    ).document


def test_both_packs_that_agree_with_the_marking_say_so_and_how_far_the_tape_has_run(typed: Typist) -> None:
    told = both(typed, "T-120", "30.21", "30.21")

    assert told["agrees"] is True
    assert "agrees with a T-120: 246 m and at most 2% more" in told["sentence"]
    assert told["share_run"]["likely"] == pytest.approx(0.5)
    assert told["supply"]["metres"]["likely"] == told["take_up"]["metres"]["likely"] == pytest.approx(123)


def test_both_packs_that_do_not_agree_say_within_what_and_why_that_much(typed: Typist) -> None:
    told = both(typed, "T-90", "30.21", "30.21")

    assert told["agrees"] is False
    sentence = told["sentence"]
    assert "but a T-90 has 185 m" in sentence
    assert "a measurement 1 mm off (common practice, no source)" in sentence
    assert "17 to 20 µm thick, SMPTE 32M table 1" in sentence
    assert "T-120" in sentence.split("would add up")[0]


def test_without_a_marking_both_packs_are_compared_with_none(typed: Typist) -> None:
    told = typed("pack", "--format", "vhs", "--radius-mm", "30", "--take-up-radius-mm", "25").document

    assert told["agrees"] is None
    assert "No marking was given" in told["sentence"]


@pytest.mark.parametrize(
    ("supply", "take_up", "place"), [("9", "30", "radius_mm"), ("30", "9", "pack already played")]
)
def test_a_pack_that_cannot_be_is_named(typed: Typist, supply: str, take_up: str, place: str) -> None:
    told = typed("pack", "--format", "vhs", "--radius-mm", supply, "--take-up-radius-mm", take_up)

    assert told.code == 2
    assert place in told.out + told.err


def test_as_text_the_sentence_stands_last(typed: Typist) -> None:
    told = typed(
        *("pack", "--format", "vhs", "--marking", "T-120", "--radius-mm", "30.21"),
        *("--take-up-radius-mm", "20"),
        as_json=False,
    )
    assert told.out.splitlines()[-1].startswith("The two packs hold")


def test_playtime_and_pack_read_a_marking_that_nobody_lists(typed: Typist) -> None:
    whole = typed(
        "playtime", "--format", "vhs", "--marking", "t-130", "--speed", "sp", "--tv", "ntsc"
    ).document
    wound = typed(
        "pack", "--format", "vhs", "--marking", "T-130", "--radius-mm", "30", "--speed", "sp"
    ).document

    assert whole["metres"] == pytest.approx(2.02 * 130 + 2)  # the rule fitted to SMPTE 32M table 1
    assert any("by rule" in source for source in whole["sources"])
    assert wound["metres"] == pytest.approx(3.141592653589793 * (30**2 - 13**2) / 19)


def test_nonsense_for_a_marking_is_refused_with_what_is_read(typed: Typist) -> None:
    refused = typed("playtime", "--format", "minidv", "--marking", "DVM999")

    assert refused.code == 2
    assert "DVM5 to DVM90" in refused.err
