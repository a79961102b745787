"""What a file copied from a tape should be, against the standards of the tape's TV system.

- Rec. ITU-R BT.601-7, part A: 13.5 MHz, 720 samples of a line; 525-line systems at 60/1.001 fields a second,
  625-line systems at 50. Lines with a picture: 486 (483 whole ones) and 576; DV (IEC 61834-2, from memory)
  and DVD keep 480 of the 486.
- Pixel shapes at 4:3 and 16:9: 10:11, 40:33, 12:11, 16:11 where 704 samples are the picture (MPEG-4 Visual,
  ISO/IEC 14496-2 table 6-12, from memory); 8:9, 32:27, 16:15, 64:45 where all 720 are (arithmetic); 59:54 and
  118:81 where 702.9 are (derived from BT.601 and the 52 µs of BT.470).
- HDV: 1280 × 720 and 1440 × 1080, the latter with pixels of 4:3 (HDV specification, from memory).
- Rec. ITU-R BT.1359-1 (1998), recommends 2: sound may be 90 ms ahead of the picture or 185 ms behind it.
- EBU R 37 is stricter, 40 ms ahead and 60 ms behind, for each stage of a broadcast chain (from memory): a
  copy that passes here may fail there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest

from core.capture.check_records import FileCheck, FileFinding, Severity, TapeFacts
from core.capture.file_checks import findings
from core.capture.file_report import PictureFormat, Report, Sound, Stretch, StretchKind
from core.model.names import TvSystem
from tests.core.capture.copied_file import GOOD

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL
FRAMES = {NTSC: (30000, 1001), PAL: (25, 1)}
FULL = {NTSC: [(720, 480), (720, 486), (704, 480)], PAL: [(720, 576), (704, 576), (702, 576)]}
PIXELS = {
    NTSC: {"4:3": [(10, 11), (8, 9)], "16:9": [(40, 33), (32, 27)]},
    PAL: {"4:3": [(12, 11), (16, 15), (59, 54)], "16:9": [(16, 11), (64, 45), (118, 81)]},
}


def shown(width: int, height: int, rate: tuple[int, int] | None, pixel: tuple[int, int] | None) -> Report:
    return replace(GOOD, picture=PictureFormat(width, height, rate, pixel))


def told(report: Report, **facts: object) -> dict[FileCheck, FileFinding]:
    tape = TapeFacts(**{"tv": NTSC, "tv_is_seen": True} | facts)  # type: ignore[arg-type]
    return {each.check: each for each in findings((report,), tape)}


def how(report: Report, check: FileCheck, **facts: object) -> Severity | None:
    found = told(report, **facts).get(check)
    return found.severity if found else None


def as_the_standard_has_it(system: TvSystem) -> Iterator[Report]:
    for width, height in FULL[system]:
        for pixels in PIXELS[system].values():
            for pixel in pixels:
                for times in (1, 2):
                    rate = FRAMES[system]
                    yield shown(width, height, (rate[0] * times, rate[1]), pixel)


@pytest.mark.parametrize("system", TvSystem)
def test_a_file_as_the_standard_has_it_is_fine_in_everything(system: TvSystem) -> None:
    for report in as_the_standard_has_it(system):
        found = findings((report,), TapeFacts(tv=system, tv_is_seen=True, deck_minutes=60))
        assert [each.words for each in found if not each.is_fine] == [], report.picture


@pytest.mark.parametrize("system", TvSystem)
def test_the_shape_told_is_the_one_its_pixels_make(system: TvSystem) -> None:
    for width, height in FULL[system]:
        for name, pixels in PIXELS[system].items():
            for pixel in pixels:
                found = told(shown(width, height, FRAMES[system], pixel), tv=system)[FileCheck.ASPECT]
                assert name in found.words, (width, height, pixel)


@pytest.mark.parametrize("system", TvSystem)
def test_a_tape_captured_in_the_wrong_standard_is_a_stop_where_the_deck_showed_it(system: TvSystem) -> None:
    other = PAL if system is NTSC else NTSC
    for report in as_the_standard_has_it(other):
        assert how(report, FileCheck.TV_SYSTEM, tv=system) is Severity.STOP
        assert how(report, FileCheck.TV_SYSTEM, tv=system, tv_is_seen=False) is Severity.LOOK
        sentence = told(report, tv=system)[FileCheck.TV_SYSTEM].words
        assert f"tape is {system.name}" in sentence
        assert f"file is {other.name}" in sentence


@pytest.mark.parametrize(
    ("lines", "rate"), [(576, (30000, 1001)), (480, (25, 1)), (486, (50, 1)), (288, (30, 1))]
)
def test_lines_of_one_system_at_the_rate_of_the_other_are_a_conversion(
    lines: int, rate: tuple[int, int]
) -> None:
    for system in TvSystem:
        assert how(shown(720, lines, rate, (1, 1)), FileCheck.TV_SYSTEM, tv=system) is Severity.STOP


def test_lines_of_no_system_are_told_with_the_rate_where_there_is_one() -> None:
    assert "600 lines at 15 frames" in told(shown(800, 600, (15, 1), None))[FileCheck.TV_SYSTEM].words
    assert "does not tell" in told(shown(800, 600, None, None))[FileCheck.TV_SYSTEM].words


@pytest.mark.parametrize("rate", [(30, 1), (60, 1)])
def test_a_rounded_rate_drifts_by_3_6_seconds_an_hour(rate: tuple[int, int]) -> None:
    """30 × 1001 / 30000 = 1.001: an hour of NTSC is 3.6 s shorter at 30 (arithmetic)."""
    assert float(Fraction(*rate) / (Fraction(rate[0] * 1000, 1001)) - 1) * 3600 == pytest.approx(3.6)
    found = told(shown(720, 480, rate, (8, 9)))
    assert found[FileCheck.FRAME_RATE].severity is Severity.LOOK
    assert "3.6 seconds" in found[FileCheck.FRAME_RATE].words
    assert found[FileCheck.TV_SYSTEM].is_fine


@pytest.mark.parametrize(
    ("width", "height", "pixel"), [(720, 480, None), (720, 576, (1, 1)), (1440, 480, (1, 1))]
)
def test_pixels_that_are_not_square_and_not_told_squeeze_people(
    width: int, height: int, pixel: tuple[int, int] | None
) -> None:
    """720 × 480 with square pixels is 3:2, 720 × 576 is 5:4 (arithmetic)."""
    system = PAL if height == 576 else NTSC
    assert how(shown(width, height, FRAMES[system], pixel), FileCheck.ASPECT, tv=system) is Severity.LOOK


@pytest.mark.parametrize(("width", "height"), [(640, 480), (352, 240), (320, 240)])
def test_a_smaller_picture_is_looked_at_and_keeps_its_shape(width: int, height: int) -> None:
    found = told(shown(width, height, FRAMES[NTSC], (10, 11) if width == 352 else None))
    assert found[FileCheck.SIZE].severity is Severity.LOOK
    assert found[FileCheck.ASPECT].is_fine
    assert found[FileCheck.TV_SYSTEM].is_fine


@pytest.mark.parametrize(
    ("width", "height", "pixel", "rate"),
    [
        (1440, 1080, (4, 3), (30000, 1001)),
        (1280, 720, None, (60000, 1001)),
        (1920, 1080, (1, 1), (24000, 1001)),
    ],
)
def test_high_definition_is_held_against_its_own_sizes(
    width: int, height: int, pixel: tuple[int, int] | None, rate: tuple[int, int]
) -> None:
    found = findings((shown(width, height, rate, pixel),), TapeFacts("hd", NTSC, tv_is_seen=True))
    assert [each.words for each in found if not each.is_fine] == []
    small = told(GOOD, picture="hd")
    assert small[FileCheck.SIZE].severity is Severity.LOOK


@pytest.mark.parametrize(
    ("longer", "severity"),
    [
        (0.0, Severity.FINE),
        (-0.089, Severity.FINE),
        (-0.091, Severity.LOOK),
        (0.184, Severity.FINE),
        (0.186, Severity.LOOK),
        (-1.1, Severity.STOP),
        (1.1, Severity.STOP),
    ],
)
def test_sound_and_picture_end_together_as_bt_1359_accepts(longer: float, severity: Severity) -> None:
    """More than a second: common practice, no source."""
    assert how(replace(GOOD, sound_seconds=3600 + longer), FileCheck.SOUND_LENGTH) is severity


@pytest.mark.parametrize(
    ("deck", "severity"),
    [(60.0, Severity.FINE), (61.0, Severity.FINE), (61.2, Severity.STOP), (40.0, Severity.FINE)],
)
def test_a_file_holds_the_minutes_that_the_deck_counted(deck: float, severity: Severity) -> None:
    """A minute, or one in a hundred: common practice, no source."""
    assert how(GOOD, FileCheck.LENGTH, deck_minutes=deck) is severity
    longer = replace(GOOD, seconds=GOOD.seconds * 4)
    assert how(longer, FileCheck.LENGTH, deck_minutes=242.3) is Severity.FINE
    assert how(longer, FileCheck.LENGTH, deck_minutes=242.5) is Severity.STOP


def test_two_files_of_one_tape_are_held_together_against_the_deck() -> None:
    half = replace(GOOD, seconds=1800.0)
    other = replace(half, sha256="cd" * 32, picture=PictureFormat(720, 480, (30000, 1001)))
    found = findings((half, other), TapeFacts(tv=NTSC, tv_is_seen=True, deck_minutes=60))
    by_code = {each.code: each for each in found}
    assert by_code["length"].is_fine
    assert by_code["aspect-1"].is_fine
    assert not by_code["aspect-2"].is_fine


def test_no_sound_is_a_stop_unless_the_tape_is_known_to_have_none() -> None:
    mute = replace(GOOD, sound=Sound.MISSING)
    assert how(mute, FileCheck.SOUND) is Severity.STOP
    assert how(mute, FileCheck.SOUND, has_no_sound=True) is Severity.LOOK
    assert how(replace(GOOD, sound=Sound.PARTLY), FileCheck.SOUND) is Severity.LOOK
    assert how(replace(GOOD, dead_channels=1), FileCheck.SOUND) is Severity.LOOK


def test_what_is_blank_or_frozen_inside_is_told_and_the_trimmed_ends_are_not() -> None:
    ends = (Stretch(StretchKind.BLUE, 0, 90), Stretch(StretchKind.BLACK, 3500, 3600))
    trimmed = replace(GOOD, stretches=ends, keep_from=89, keep_to=3501)
    assert how(trimmed, FileCheck.BLANK) is Severity.FINE
    inside = replace(trimmed, stretches=(*ends, Stretch(StretchKind.BLACK, 600, 700)))
    assert "10:00 to 11:40" in told(inside)[FileCheck.BLANK].words
    assert how(inside, FileCheck.BLANK) is Severity.LOOK
    held = replace(GOOD, stretches=(Stretch(StretchKind.FROZEN, 60, 68),))
    assert how(held, FileCheck.FROZEN) is Severity.LOOK
    assert how(replace(GOOD, keep_to=0.0), FileCheck.BLANK) is Severity.STOP


def test_a_file_that_is_not_whole_is_a_stop_and_one_spot_a_look() -> None:
    assert how(replace(GOOD, breaks_off=True, unread=2), FileCheck.WHOLE) is Severity.STOP
    assert how(replace(GOOD, unread=1), FileCheck.WHOLE) is Severity.LOOK
    assert how(replace(GOOD, has_picture=False, picture=None), FileCheck.PICTURE) is Severity.STOP


def test_a_report_from_before_is_told_to_be_read_again_and_judged_by_what_it_has() -> None:
    before = replace(GOOD, picture=None, picture_seconds=None, sound_seconds=None)
    found = told(before, deck_minutes=60)
    assert {check for check, each in found.items() if not each.is_fine} == {FileCheck.MEASURED}


def test_sound_alone_and_film_are_not_held_against_a_tv_system() -> None:
    spoken = replace(GOOD, has_picture=False, picture=None, picture_seconds=None)
    assert all(each.is_fine for each in findings((spoken,), TapeFacts("none")))
    film = replace(shown(1440, 1080, (18, 1), (1, 1)), sound=Sound.MISSING)
    assert all(each.is_fine for each in findings((film,), TapeFacts("any")))


def test_every_finding_that_is_not_fine_says_what_to_do() -> None:
    strange = shown(640, 576, (12, 1), None)
    for system in (None, *TvSystem):
        for each in findings((replace(strange, sound_seconds=1.0, breaks_off=True),), TapeFacts(tv=system)):
            assert bool(each.to_do) is not each.is_fine
            assert each.words.endswith(".")
