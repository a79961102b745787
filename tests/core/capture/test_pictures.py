"""What counts as black, blue or frozen, to the frame."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.capture import thresholds as at
from core.capture.pictures import Luma, Picture, PictureWatch, Small, first_of, is_held
from core.capture.time_spans import longer

RATE = 25
Colour = tuple[float, float, float]


def plain(*colour: float, noise: float = 2.0, seed: int = 0) -> Small:
    rng = np.random.default_rng(seed)
    small = np.full((at.SMALL_HEIGHT, at.SMALL_WIDTH, 3), colour) + rng.normal(
        0, noise, (at.SMALL_HEIGHT, at.SMALL_WIDTH, 1)
    )
    return small.clip(0, 255).astype(np.float32)


def picture(small: Small) -> Picture:
    return Picture(0.0, 1 / RATE, lambda: small, lambda: full_size(small))


def full_size(small: Small) -> Luma:
    """A picture of twice the size, as far as brightness goes."""
    luma: Luma = small.mean(axis=2).round().astype(np.uint8).repeat(2, axis=0).repeat(2, axis=1)
    return luma


def watched(draw: Callable[[int], Small], frames: int) -> tuple[PictureWatch, list[int]]:
    """A watch that saw all frames, and the numbers of those it really looked at."""
    watch, looked = PictureWatch(), []

    def scaled(number: int) -> Callable[[], Small]:
        def look() -> Small:
            looked.append(number)
            return draw(number)

        return look

    for number in range(frames):
        small = scaled(number)
        watch.show(Picture(number / RATE, (number + 1) / RATE, small, lambda small=small: full_size(small())))
    watch.finish()
    return watch, looked


def moving(number: int) -> Small:
    """A bright field that wanders on by a block with every frame."""
    small = plain(60, 60, 60, seed=number)
    left = number * at.BLOCK % at.SMALL_WIDTH
    small[:, left : left + at.BLOCK] = 220
    return small


@pytest.mark.parametrize(
    ("colour", "is_blue"),
    [
        ((18, 22, 190), True),
        ((0, 0, 255), True),
        ((40, 60, 140), True),
        ((10, 10, 70), False),  # nearly black
        ((100, 60, 190), False),  # violet: too much red
        ((20, 110, 190), False),  # a deep sky: too much green
        ((135, 206, 235), False),  # a pale sky
    ],
)
def test_a_decks_blue_is_not_any_blue(colour: Colour, is_blue: bool) -> None:
    assert picture(plain(*colour)).is_blue is is_blue


def test_a_blue_that_shades_off_is_none_and_one_with_words_is_one() -> None:
    shaded, lettered = plain(20, 25, 0), plain(18, 22, 190)
    shaded[..., 2] = np.linspace(110, 230, at.SMALL_HEIGHT)[:, None]
    lettered[4:10, 4:30] = 235

    assert not picture(shaded).is_blue
    assert picture(lettered).is_blue


@pytest.mark.parametrize(("level", "is_black"), [(0, True), (16, True), (26, True), (40, False)])
def test_black_is_black_with_its_set_up_and_noise(level: float, is_black: bool) -> None:
    assert picture(plain(level, level, level, noise=5)).is_black is is_black


def test_a_candle_is_a_picture() -> None:
    small = plain(10, 10, 10)
    small[20:26, 30:46] = (220, 160, 60)

    assert not picture(small).is_black


def test_noise_does_not_make_a_still_picture_move_but_a_hand_does() -> None:
    room, noisy, waved = (plain(90, 80, 70, noise=2, seed=seed) for seed in (1, 2, 3))
    waved[8:12, 8:12] += 20

    assert picture(room).is_like(picture(noisy))
    assert not picture(room).is_like(picture(waved))


@pytest.mark.parametrize(("start", "end"), [(0, 60), (13, 71), (50, 100), (33, 34)])
@pytest.mark.parametrize("name", ["black", "blue"])
def test_blank_ends_are_found_to_the_frame(name: str, start: int, end: int) -> None:
    blank = plain(14, 14, 14) if name == "black" else plain(18, 22, 190)
    watch, _ = watched(lambda number: blank if start <= number < end else moving(number), 100)
    spans = watch.black if name == "black" else watch.blue

    if end - start < at.SAMPLE_SECONDS * RATE:
        assert spans == []  # shorter than a step of sampling, and much shorter than what is ever told
    else:
        assert spans == [(pytest.approx(start / RATE), pytest.approx(end / RATE))]


@pytest.mark.parametrize(("start", "end"), [(12, 71), (40, 100)])
def test_a_picture_that_stands_still_is_found_to_the_frame(start: int, end: int) -> None:
    watch, _ = watched(lambda number: moving(min(max(number, 0), start) if number < end else number), 100)

    assert watch.frozen == [(pytest.approx(start / RATE), pytest.approx(end / RATE))]


def still_room(number: int, noise: float = 2.0) -> Small:
    """The same picture with its noise drawn anew."""
    return plain(90, 80, 70, noise=noise, seed=number)


@pytest.mark.parametrize("noise", [1.2, 2, 6])
def test_a_quiet_room_before_a_tripod_does_not_stand_still(noise: float) -> None:
    """1.2 levels: a signal 45 dB above its noise, better than a home deck's."""
    watch, _ = watched(lambda number: still_room(number, noise), 200)

    assert watch.frozen == []


@pytest.mark.parametrize(("start", "end"), [(30, 120), (33, 147), (0, 90), (61, 200)])
def test_a_held_picture_inside_a_quiet_room_is_found_by_its_noise(start: int, end: int) -> None:
    watch, _ = watched(lambda number: still_room(start if start <= number < end else number), 200)

    assert watch.frozen == [(pytest.approx(start / RATE, abs=0.1), pytest.approx(end / RATE, abs=0.1))]


def test_a_held_picture_redrawn_now_and_then_by_the_encoder_is_held() -> None:
    """MPEG-2 starts anew with every twelfth picture and needs some to settle."""
    watch, _ = watched(lambda number: still_room(min(number % 12, 6)), 200)

    assert watch.frozen == [(pytest.approx(0, abs=0.3), pytest.approx(200 / RATE, abs=0.1))]


def test_a_noise_the_encoder_repeats_now_and_then_is_no_held_picture() -> None:
    """One that is short of bits leaves whole pictures out."""
    watch, _ = watched(lambda number: still_room(number - (number % 4 == 3)), 200)

    assert longer(watch.frozen, at.LEAST_SECONDS["frozen"] / 4) == []


def test_stills_that_follow_each_other_are_told_apart() -> None:
    slides = [plain(60 + 40 * n, 80, 70) for n in range(3)]
    watch, _ = watched(lambda number: slides[number // 60], 180)

    assert [start for start, _ in watch.frozen] == [pytest.approx(n * 60 / RATE, abs=0.3) for n in range(3)]


def test_two_equal_neighbours_are_held_and_two_of_fresh_noise_are_not() -> None:
    once, again, other = (picture(still_room(seed)) for seed in (1, 1, 2))

    assert is_held([once, again])
    assert not is_held([once, other])


def test_most_pictures_are_never_looked_at() -> None:
    _, looked = watched(moving, 1000)

    assert len(set(looked)) < 1000 * 0.2


def test_few_pictures_are_held_at_a_time() -> None:
    watch = PictureWatch()
    for number in range(500):
        still = picture(moving(0))
        still.start, still.end = number / RATE, (number + 1) / RATE
        watch.show(still)
        assert len(watch._before) + len(watch._since) <= 2 * (at.SAMPLE_SECONDS * RATE + 2)


@given(st.integers(1, 40), st.integers(0, 39))
def test_the_first_that_holds_is_found_by_halving(count: int, turn: int) -> None:
    pictures = [picture(plain(0)) for _ in range(count)]
    for number, one in enumerate(pictures):
        one.start = number
    turn = min(turn, count - 1)

    assert first_of(pictures, lambda one: one.start >= turn, True).start == turn
