"""Bit rates, disc sizes and DVD minutes against published figures."""

from __future__ import annotations

import pytest

from core.model.names import TvSystem
from core.pricing import bitrates, discs, sticks


@pytest.mark.parametrize(
    ("codec", "gb_an_hour", "within"),
    [
        ("dv", 12.96, 0.005),  # frame size after IEC 61834, from memory
        ("hdv", 12.0, 0.05),  # 11.25 for the picture, about 12 with overhead (derived)
        ("mpeg2", 22.5, 0.0005),  # EVIA project
        ("h264", 2.37, 0.005),  # Dalhousie Libraries
        ("h264-8", 3.6, 0.0005),  # from memory
        ("ffv1", 33.0, 0.05),  # Duke Libraries: a third of uncompressed
        ("v210", 100.7 + 0.69, 0.05),  # Duke Libraries: about 100; sound derived
    ],
)
def test_an_hour_takes_the_published_gigabytes(codec: str, gb_an_hour: float, within: float) -> None:
    assert bitrates.gigabytes(bitrates.rate(codec).likely, 60) == pytest.approx(gb_an_hour, abs=within)


def test_ffv1_is_planned_at_30_to_50_gigabytes() -> None:
    """Noisy VHS is the high end (from memory)."""
    rate = bitrates.rate("ffv1")

    assert bitrates.gigabytes(rate.low, 60) == pytest.approx(30, abs=0.01)
    assert bitrates.gigabytes(rate.high, 60) == pytest.approx(50, abs=0.01)


@pytest.mark.parametrize(
    ("disc", "size"),
    [
        # sectors reported by drives × 2048
        ("dvd-r", 4_707_319_808),
        ("dvd-plus-r", 4_700_372_992),
        ("dvd-r-dl", 8_543_666_176),
        ("dvd-plus-r-dl", 8_547_991_552),
        ("bd-r", 25_025_314_816),
        ("bd-r-dl", 50_050_629_632),
    ],
)
def test_discs_hold_their_exact_bytes(disc: str, size: int) -> None:
    assert discs.disc_bytes(disc) == size


@pytest.mark.parametrize(
    ("minutes", "single", "double", "verdict"),
    [
        # 4.7 GB by ECMA-267 and 8.54 GB by ISO/IEC 12862 (titles only seen); 4 Mb/s from memory
        (60, 10.44, None, "good"),
        (90, 6.96, 12.65, "good"),
        (120, 5.22, 9.49, "good"),
        (150, 4.18, 7.59, "fair"),
        (180, 3.48, 6.33, "marginal"),
        (240, 2.61, 4.74, "poor"),
    ],
)
def test_the_longer_a_dvd_the_poorer(minutes: int, single: float, double: float | None, verdict: str) -> None:
    assert discs.dvd_rate(minutes * 60) == pytest.approx(single, abs=0.01)
    assert double is None or discs.dvd_rate(minutes * 60, layers=2) == pytest.approx(double, abs=0.01)
    assert discs.dvd_verdict(minutes) == verdict


@pytest.mark.parametrize(("sold", "shown"), [(64, 59.6), (1000, 931.3)])
def test_a_stick_shows_fewer_gib_than_it_is_sold_with(sold: float, shown: float) -> None:
    assert sticks.onto_stick(0, sold).holds_gib == pytest.approx(shown, abs=0.05)


@pytest.mark.parametrize(
    ("disc", "gigabytes", "gib"),
    [
        # bytes above ÷ 10⁹ and ÷ 2³⁰ (derived)
        ("dvd-r", 4.707, 4.384),
        ("dvd-plus-r", 4.700, 4.378),
        ("dvd-r-dl", 8.544, 7.957),
        ("dvd-plus-r-dl", 8.548, 7.961),
        ("bd-r", 25.025, 23.307),
        ("bd-r-dl", 50.051, 46.613),
    ],
)
def test_discs_in_gigabytes_and_as_a_system_shows_them(disc: str, gigabytes: float, gib: float) -> None:
    held = discs.disc_bytes(disc) / 1e9

    assert held == pytest.approx(gigabytes, abs=0.0006)
    assert bitrates.gib(held) == pytest.approx(gib, abs=0.0006)
    assert held - 0.003 < discs.holds(disc) < held  # file system: about 1 MB, from memory


def test_an_hour_of_dv_does_not_fit_one_file_on_fat32() -> None:
    """4 294 967 295 bytes a file (from memory); 28.8 Mb/s are 216 MB a minute (derived)."""
    assert sticks.fat32_minutes("dv") == pytest.approx(4294.967295 / 216, abs=0.001)
    assert sticks.fat32_parts(12.96) == 4
    assert sticks.fat32_parts(4.294967295) == 1
    assert sticks.fat32_parts(4.3) == 2


@pytest.mark.parametrize(
    ("size", "parts"), [(2**32 - 1, 1), (2**32, 2), (2 * 2**32 - 2, 2), (2 * 2**32 - 1, 3)]
)
def test_fat32_ends_a_file_one_byte_below_4_gib(size: int, parts: int) -> None:
    """DIR_FileSize has 32 bits (Microsoft, FAT32 File System Specification, from memory)."""
    assert sticks.fat32_parts(size / 1e9) == parts


def v210_mb_s(width: int, height: int, frames_a_second: float) -> float:
    """Six pixels in 16 bytes, each line begun at a multiple of 128 bytes: MultimediaWiki, V210."""
    line = -(-(-(-width // 6) * 16) // 128) * 128
    return line * height * frames_a_second * 8 / 1e6


@pytest.mark.parametrize(
    ("tv", "size", "frames"),
    [(TvSystem.NTSC, (720, 486), 30000 / 1001), (TvSystem.PAL, (720, 576), 25.0)],
)
def test_v210_takes_what_its_published_packing_makes(
    tv: TvSystem, size: tuple[int, int], frames: float
) -> None:
    """With 48 kHz, 16 bit, stereo: 1.536 Mb/s (arithmetic). Lines of a picture: Rec. ITU-R BT.601-7."""
    assert bitrates.rate("v210", tv).likely == pytest.approx(v210_mb_s(*size, frames) + 1.536, abs=0.001)


def test_where_the_tv_system_is_not_known_the_larger_v210_is_planned() -> None:
    assert bitrates.rate("v210") == bitrates.rate("v210", TvSystem.NTSC)
    assert bitrates.rate("v210", TvSystem.PAL).likely < bitrates.rate("v210").likely
    assert bitrates.rate("ffv1", TvSystem.PAL) == bitrates.rate("ffv1")


def test_an_encoder_does_not_use_what_a_short_dvd_would_allow() -> None:
    """60 minutes would be 10.44 Mb/s, over the 10.08 of the format; real encodes 8 to 9 (trade)."""
    assert discs.encoded_rate(60) == 8.0
    assert discs.encoded_rate(120) == pytest.approx(5.22, abs=0.01)


def test_four_megabits_is_where_a_picture_gets_marginal() -> None:
    """Below about 4 Mb/s the picture is marginal: from memory."""
    assert discs.dvd_verdict(discs.dvd_minutes() - 0.1) == "fair"
    assert discs.dvd_verdict(discs.dvd_minutes() + 0.1) == "marginal"
    assert discs.dvd_minutes(layers=2) == pytest.approx(68_320 / 4 / 60, abs=0.01)
