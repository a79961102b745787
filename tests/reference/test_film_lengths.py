"""Film: frames per foot, running times and lengths against published tables."""

from __future__ import annotations

import pytest

from core.catalogue.amounts import FOOT_MM
from core.catalogue.formats import catalogue
from core.catalogue.markings import play_minutes
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed
from core.playtime import tape_minutes

# Frames on a foot of film: 80, 72, 40, 16 (Wikipedia, Filmfuß; diginova.se, Filmlängd; the standards SMPTE,
# ISO 28, 1700 and 69 from memory). Pitch in mm: 0.1500 in, 1/6 in, 7.540, 0.3000 in, 19.000 (Wikipedia,
# Filmschritt).
PITCHES = [
    ("film-8mm", 80, 3.810),
    ("super-8", 72, 4.233),
    ("film-9-5mm", None, 7.540),
    ("film-16mm", 40, 7.620),
    ("film-35mm", 16, 19.000),
]


@pytest.mark.parametrize(("name", "frames", "pitch"), PITCHES)
def test_a_frame_is_as_long_as_published(name: str, frames: int | None, pitch: float) -> None:
    form = catalogue().format(name)
    amount = form.record.amount

    assert amount is not None
    assert amount.frames_per_foot is not None
    assert frames is None or amount.frames_per_foot.value == frames
    # 35 mm: the foot of film has 64 holes of 4.75 mm, a hair under 304.8 mm.
    assert FOOT_MM / amount.frames_per_foot.value == pytest.approx(pitch, rel=0.003)
    (at_24,) = [entry.mm_s.value for entry in form.tape_speeds if entry.speed is Speed.FPS24]
    assert at_24 == pytest.approx(24 * pitch, rel=0.003)


def running(name: str, length: str, speed: Speed) -> float:
    """Seconds."""
    form = catalogue().format(name)
    marking = form.marking(length)
    assert marking is not None
    (mm_s,) = [entry.mm_s.value for entry in form.tape_speeds if entry.speed is speed]
    return play_minutes(marking.metres.value, mm_s) * 60


# Kodak's tables of running times, from memory: minutes, seconds, cut to the second.
KODAK = [
    ("super-8", "50 ft", Speed.FPS18, (3, 20)),
    ("super-8", "50 ft", Speed.FPS24, (2, 30)),
    ("super-8", "200 ft", Speed.FPS18, (13, 20)),
    ("super-8", "400 ft", Speed.FPS18, (26, 40)),
    ("film-8mm", "50 ft", Speed.FPS16, (4, 10)),
    ("film-8mm", "50 ft", Speed.FPS18, (3, 42)),
    ("film-8mm", "400 ft", Speed.FPS18, (29, 37)),
    ("film-16mm", "100 ft", Speed.FPS24, (2, 46)),
    ("film-16mm", "400 ft", Speed.FPS24, (11, 6)),
    ("film-16mm", "400 ft", Speed.FPS18, (14, 48)),
    ("film-35mm", "1000 ft", Speed.FPS24, (11, 6)),
    ("film-35mm", "100 ft", Speed.FPS24, (1, 6)),
]


@pytest.mark.parametrize(("name", "length", "speed", "table"), KODAK)
def test_a_reel_runs_as_long_as_in_the_table(
    name: str, length: str, speed: Speed, table: tuple[int, int]
) -> None:
    assert int(running(name, length, speed) + 1e-6) == table[0] * 60 + table[1]


# diginova.se, Filmlängd: Double 8 at 16, Super 8 at 18 frames a second, by metres; minutes and seconds.
METRES = [
    (15, (4, 6), (3, 17)),
    (60, (16, 24), (13, 7)),
    (90, (24, 37), (19, 41)),
    (120, (32, 49), (26, 15)),
]


@pytest.mark.parametrize(("metres", "double_8", "super_8"), METRES)
def test_lengths_in_metres_run_as_long_as_in_the_table(
    metres: int, double_8: tuple[int, int], super_8: tuple[int, int]
) -> None:
    for name, speed, (minutes, seconds) in (
        ("film-8mm", Speed.FPS16, double_8),
        ("super-8", Speed.FPS18, super_8),
    ):
        # The table rounds its factors to a tenth: within a second in ten minutes.
        assert running(name, f"{metres} m", speed) == pytest.approx(minutes * 60 + seconds, abs=1.5)


def test_where_the_rate_is_not_known_all_rates_are_believed_in() -> None:
    reel = TapeLine(1, FormatName("film-16mm"), "400 ft")
    known = TapeLine(1, FormatName("film-16mm"), "400 ft", speed=Speed.FPS24)

    wide, narrow = (tape_minutes.belief(line, None).range for line in (reel, known))
    assert wide.high > 14 > 12 > narrow.high
    assert narrow.likely == pytest.approx(11.1, abs=0.1)


@pytest.mark.parametrize(("text", "pictures"), [("80 slides", 80), ("80", 80), ("36 Slides", 36)])
def test_pictures_take_their_seconds_each(text: str, pictures: int) -> None:
    slides = catalogue().format("slides")
    assert slides.record.amount is not None
    assert slides.record.amount.seconds_a_piece is not None
    seconds = slides.record.amount.seconds_a_piece.value

    believed = tape_minutes.belief(TapeLine(1, slides.name, text), None).range
    assert believed.low == believed.high == pytest.approx(pictures * seconds / 60)
