"""Bit rates, disc sizes and DVD minutes against published figures."""

from __future__ import annotations

import pytest

from core import media


@pytest.mark.parametrize(
    ("codec", "gb_an_hour", "within"),
    [
        ("dv", 12.96, 0.005),  # Apple Motion 2: 12.9; frame size from memory
        ("hdv", 12.0, 0.05),  # 11.25 for the picture, about 12 with overhead (derived)
        ("mpeg2", 22.5, 0.0005),  # EVIA project
        ("h264", 2.37, 0.005),  # Dalhousie Libraries
        ("h264-8", 3.6, 0.0005),  # from memory
        ("ffv1", 33.0, 0.05),  # Duke Libraries: a third of uncompressed
        ("v210", 100.7 + 0.69, 0.05),  # Duke Libraries: about 100; sound derived
    ],
)
def test_an_hour_takes_the_published_gigabytes(codec: str, gb_an_hour: float, within: float) -> None:
    assert media.gigabytes(media.rate(codec).likely, 60) == pytest.approx(gb_an_hour, abs=within)


def test_ffv1_is_planned_at_30_to_50_gigabytes() -> None:
    """Noisy VHS is the high end (from memory)."""
    rate = media.rate("ffv1")

    assert media.gigabytes(rate.low, 60) == pytest.approx(30, abs=0.01)
    assert media.gigabytes(rate.high, 60) == pytest.approx(50, abs=0.01)


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
    assert media.disc_bytes(disc) == size


@pytest.mark.parametrize(
    ("minutes", "single", "double", "verdict"),
    [
        # Apple DVD Studio Pro 4, appendix C capacities; below 4 Mb/s marginal
        (60, 10.44, None, "good"),
        (90, 6.96, 12.65, "good"),
        (120, 5.22, 9.49, "good"),
        (150, 4.18, 7.59, "fair"),
        (180, 3.48, 6.33, "marginal"),
        (240, 2.61, 4.74, "poor"),
    ],
)
def test_the_longer_a_dvd_the_poorer(minutes: int, single: float, double: float | None, verdict: str) -> None:
    assert media.dvd_rate(minutes * 60) == pytest.approx(single, abs=0.01)
    assert double is None or media.dvd_rate(minutes * 60, layers=2) == pytest.approx(double, abs=0.01)
    assert media.dvd_verdict(minutes) == verdict


@pytest.mark.parametrize(("sold", "shown"), [(64, 59.6), (1000, 931.3)])
def test_a_stick_shows_fewer_gib_than_it_is_sold_with(sold: float, shown: float) -> None:
    assert media.onto_stick(0, sold).holds_gib == pytest.approx(shown, abs=0.05)
