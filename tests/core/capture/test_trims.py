"""From what was seen and heard to trims, billable minutes and the state of the sound."""

from __future__ import annotations

import pytest

from core.capture import trims
from core.capture.file_report import Sound, StretchKind, clock
from core.capture.trims import RawSpans


def seen(seconds: float = 600, **spans: object) -> RawSpans:
    return RawSpans(seconds, **({"pictures": True, "sounds": True} | spans))  # type: ignore[arg-type]


def test_blank_ends_go_but_for_a_second_beside_the_recording() -> None:
    blank = ((0.0, 20.0), (570.0, 600.0))

    assert trims.trims(seen(blue=blank, silent=blank)) == (19.0, 571.0)


def test_a_black_beginning_with_voices_in_it_stays() -> None:
    assert trims.trims(seen(black=((0.0, 20.0),))) == (0.0, 600)
    assert trims.trims(seen(black=((0.0, 20.0),), silent=((0.0, 12.0),))) == (11.0, 600)


def test_without_a_sound_track_the_picture_alone_decides() -> None:
    assert trims.trims(seen(sounds=False, black=((590.0, 600.0),))) == (0.0, 591.0)


def test_black_then_blue_at_the_end_is_one_blank() -> None:
    spans = seen(black=((580.0, 590.0),), blue=((590.0, 600.0),), silent=((575.0, 600.0),))

    assert trims.trims(spans) == (0.0, 581.0)


def test_a_tape_that_is_blank_from_end_to_end_keeps_nothing_and_costs_nothing() -> None:
    empty = seen(blue=((0.0, 600.0),), silent=((0.0, 600.0),))

    assert trims.trims(empty) == (0.0, 0.0)
    assert trims.billable_minutes(empty) == 0


def test_minutes_to_be_charged_are_those_kept() -> None:
    blank = ((0.0, 61.0),)

    assert trims.billable_minutes(seen(black=blank, silent=blank)) == pytest.approx(9.0)


def test_a_long_blank_inside_is_kept_but_not_charged() -> None:
    long, short = ((200.0, 320.0),), ((200.0, 230.0),)

    assert trims.trims(seen(blue=long, silent=long)) == (0.0, 600)
    assert trims.billable_minutes(seen(blue=long, silent=long)) == pytest.approx(8.0)
    assert trims.billable_minutes(seen(blue=short, silent=short)) == pytest.approx(10.0)


def test_a_picture_that_stands_still_in_silence_is_kept() -> None:
    still = ((0.0, 30.0),)

    assert trims.trims(seen(frozen=still, silent=still)) == (0.0, 600)


def test_a_recording_of_sound_alone_is_trimmed_by_its_silence() -> None:
    assert trims.trims(seen(pictures=False, silent=((0.0, 10.0),))) == (9.0, 600)


@pytest.mark.parametrize(
    ("spans", "expected"),
    [
        ({"sounds": False}, Sound.MISSING),
        ({"silent": ((0.0, 600.0),)}, Sound.MISSING),
        ({"silent": ((0.0, 595.0),)}, Sound.MISSING),
        ({"silent": ((100.0, 111.0),)}, Sound.PARTLY),
        ({"silent": ((100.0, 108.0),)}, Sound.PRESENT),
        ({"silent": ((0.0, 60.0),), "blue": ((0.0, 60.0),)}, Sound.PRESENT),
        ({"silent": ((0.0, 600.0),), "black": ((0.0, 400.0),)}, Sound.MISSING),
        ({}, Sound.PRESENT),
    ],
)
def test_the_sound_is_judged_where_there_is_a_picture(spans: dict[str, object], expected: Sound) -> None:
    assert trims.sound(seen(**spans)) is expected


def test_a_blue_screen_is_not_told_as_standing_still_too() -> None:
    kinds = {each.kind for each in trims.stretches(seen(blue=((0.0, 9.0),), frozen=((0.0, 9.0),)))}

    assert kinds == {StretchKind.BLUE}


def test_a_flash_of_noise_does_not_cut_a_stretch_in_two() -> None:
    (only,) = trims.stretches(seen(black=((10.0, 14.0), (14.2, 20.0))))

    assert (only.start, only.end, only.words) == (10.0, 20.0, "0:10 to 0:20: black picture")


def test_what_is_shorter_than_a_cut_is_not_told() -> None:
    assert trims.stretches(seen(black=((10.0, 11.5),), silent=((10.0, 13.5),), frozen=((40.0, 43.0),))) == ()


def test_times_are_told_as_a_deck_counts() -> None:
    assert [clock(seconds) for seconds in (0, 59.6, 125, 3725)] == ["0:00", "1:00", "2:05", "1:02:05"]
