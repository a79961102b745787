"""Reel packs and losses by cutting, against the geometry of the reference tables (all derived values)."""

from __future__ import annotations

import pytest

from core.catalogue.formats import catalogue
from core.model.names import FormatName, Speed, TvSystem
from core.model.ranges import Range
from core.playtime import cuts, one_pack, pack_reading, packs

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL
VHS = FormatName("vhs")


@pytest.mark.parametrize(
    ("marking", "hub", "radius", "clearance"),
    [
        # JVC VTG82063 §1.1.25 hubs, SMPTE 32M lengths and thickness; flange 44.5 mm
        ("T-30", 35, 40.15, 4.35),
        ("T-60", 31, 41.44, 3.06),
        ("T-90", 13, 35.89, 8.61),
        ("T-120", 13, 40.70, 3.80),
        ("T-160", 13, 42.34, 2.16),
        ("E-180", 13, 41.56, 2.94),
    ],
)
def test_a_full_pack_has_the_radius_of_the_standard(
    marking: str, hub: float, radius: float, clearance: float
) -> None:
    form = catalogue().format("vhs")
    known = form.marking(marking)
    assert known is not None
    assert known.hub_radius_mm is not None
    assert known.thickness_um is not None
    assert form.reel_radius_mm is not None

    full = packs.wound_radius(known.metres.value, known.hub_radius_mm.value, known.thickness_um.value)

    assert known.hub_radius_mm.value == hub
    assert full == pytest.approx(radius, abs=0.01)
    assert form.reel_radius_mm.value - full == pytest.approx(clearance, abs=0.01)


@pytest.mark.parametrize("marking", [marking.name for marking in catalogue().format("vhs").markings])
def test_every_vhs_tape_fits_its_reel(marking: str) -> None:
    """The pack stays more than 1.5 mm inside the flange: JVC VTG82063 §1.1.25, 2nd-hand."""
    known = catalogue().format("vhs").marking(marking)
    assert known is not None
    assert known.hub_radius_mm is not None
    assert known.thickness_um is not None

    full = packs.wound_radius(known.metres.value, known.hub_radius_mm.value, known.thickness_um.value)

    assert full <= 44.5 - 1.5 + 0.05  # the thickness of some is the thickest that fits, to a tenth of a µm


@pytest.mark.parametrize(
    ("radius", "metres", "ntsc", "pal"),
    [
        (20, 38.2, 19.1, 27.2),
        (25, 75.4, 37.7, 53.7),
        (30, 120.9, 60.4, 86.1),
        (35, 174.6, 87.3, 124.4),
        (40, 236.6, 118.3, 168.6),
    ],
)
def test_a_radius_gives_metres_and_minutes(radius: float, metres: float, ntsc: float, pal: float) -> None:
    found = {tv: one_pack.pack(VHS, None, radius, Speed.SP, tv) for tv in TvSystem}

    assert found[NTSC].metres == pytest.approx(metres, abs=0.1)
    assert found[NTSC].minutes == pytest.approx(ntsc, abs=0.1)
    assert found[PAL].minutes == pytest.approx(pal, abs=0.1)


def test_a_millimetre_misread_at_35_is_almost_twelve_metres() -> None:
    read, off = (one_pack.pack(VHS, None, radius, Speed.SP, NTSC).metres for radius in (35, 36))

    assert off - read == pytest.approx(11.6, abs=0.2)


@pytest.mark.parametrize("marking", ["C60", "C90", "C120"])
def test_audio_cassettes_of_every_length_fill_the_same_pack(marking: str) -> None:
    """About 25 mm: 90, 135 and 180 m at 18, 12 and 9 µm, hub 11 mm (from memory, consistent)."""
    known = catalogue().format("audio-cassette").marking(marking)
    assert known is not None
    assert known.thickness_um is not None
    longest = {"C60": 90, "C90": 135, "C120": 180}[marking]

    assert packs.wound_radius(longest, 11, known.thickness_um.value) == pytest.approx(25.2, abs=0.05)


# format, speed, TV system: seconds removed by 1, 5, 30 and 100 cm. All of the rule.
CUTS = """
vhs sp ntsc            0.300 1.50 9.0 30.0
vhs lp ntsc            0.600 3.00 18.0 60.0
vhs ep ntsc            0.899 4.50 27.0 89.9
vhs sp pal             0.428 2.14 12.8 42.8
vhs lp pal             0.855 4.27 25.6 85.5
betamax b1 ntsc        0.250 1.25 7.5 25
betamax b2 ntsc        0.500 2.50 15.0 50
betamax b3 ntsc        0.752 3.76 22.6 75.2
betamax sp pal         0.534 2.67 16.0 53.4
hi8 sp ntsc            0.697 3.49 20.9 69.7
hi8 lp ntsc            1.394 6.97 41.8 139.4
hi8 sp pal             0.499 2.49 15.0 49.9
hi8 lp pal             0.997 4.99 29.9 99.7
digital8 sp pal        0.348 1.74 10.5 34.8
minidv sp ntsc         0.532 2.66 15.9 53.2
hdv sp pal             0.532 2.66 15.9 53.2
minidv lp pal          0.797 3.99 23.9 79.7
dvcam sp ntsc          0.354 1.77 10.6 35.4
u-matic sp pal         0.105 0.52 3.1 10.5
betacam sp pal         0.099 0.49 3.0 9.9
betacam-sp sp ntsc     0.084 0.42 2.5 8.4
audio-cassette sp ntsc 0.210 1.05 6.3 21.0
"""


@pytest.mark.parametrize("row", [line.split() for line in CUTS.strip().splitlines()], ids=" ".join)
def test_a_cut_removes_its_length_over_the_speed(row: list[str]) -> None:
    name, speed, tv, *printed = row
    for cm, seconds in zip((1, 5, 30, 100), printed, strict=True):
        unit = 10.0 ** -len(seconds.partition(".")[2])
        lost = cuts.cut(FormatName(name), Speed(speed), TvSystem(tv), cm)
        assert lost.seconds_removed == pytest.approx(float(seconds), abs=unit)


def test_a_cut_from_digital8_lp_is_as_printed_but_for_the_rounding_of_its_speed() -> None:
    """Printed for 19.1 mm/s; two thirds of 28.7 is 19.133, which the printed minutes of LP rest on."""
    for cm, seconds in ((1, 0.524), (5, 2.62), (30, 15.7), (100, 52.4)):
        lost = cuts.cut(FormatName("digital8"), Speed.LP, None, cm)
        assert lost.seconds_removed == pytest.approx(seconds * 19.1 / (28.7 * 2 / 3), rel=0.002)


@pytest.mark.parametrize(
    ("name", "speed", "tv", "seconds"),
    [
        # P / speed; P from writing speeds of JVC VTG82063 §3 and 2nd-hand sources
        ("vhs", Speed.SP, NTSC, 2.9),
        ("vhs", Speed.EP, NTSC, 8.7),
        ("vhs", Speed.SP, PAL, 4.1),
        ("vhs", Speed.LP, PAL, 8.2),
        ("betamax", Speed.B2, NTSC, 5.8),
        ("betamax", Speed.SP, PAL, 6.2),
        ("video8", Speed.SP, NTSC, 4.3),
        ("video8", Speed.SP, PAL, 3.1),
        ("u-matic", Speed.SP, PAL, 1.8),
        ("betacam", Speed.SP, PAL, 1.1),
    ],
)
def test_a_clean_snap_disturbs_one_track_length(
    name: str, speed: Speed, tv: TvSystem, seconds: float
) -> None:
    lost = cuts.cut(FormatName(name), speed, tv, 0)

    assert lost.seconds_removed == 0
    assert lost.seconds_disturbed == pytest.approx(seconds, abs=0.05)
    assert not isinstance(lost.seconds_disturbed, Range)


def test_a_t_120_with_equal_packs_is_half_run_and_whole() -> None:
    """Both packs equal at R = 30.21 mm: public transport model after SMPTE 32M and JVC, 2nd-hand."""
    found = pack_reading.read(VHS, "T-120", to_come_mm=30.21, run_mm=30.21, speed=Speed.SP, tv=NTSC)

    assert found.share_run.likely == 0.5
    assert found.fit is not None
    assert found.fit.agrees
    assert found.fit.metres.likely == pytest.approx(246, abs=0.2)
    assert found.run.minutes.likely == pytest.approx(122.9 / 2, abs=0.1)


def test_the_ranges_of_a_reading_hold_a_misread_millimetre_and_two_micrometres() -> None:
    """± 11.6 m for 1 mm at 35 mm; a 2 µm error of thickness is about ± 10 % (derived)."""
    found = pack_reading.read(VHS, "T-120", run_mm=35, speed=Speed.SP, tv=NTSC).run

    thinner = found.metres.likely * 2 / 17
    thicker = found.metres.likely * 1 / 20
    assert found.metres.high - found.metres.likely == pytest.approx((11.6**2 + thinner**2) ** 0.5, abs=0.2)
    assert found.metres.likely - found.metres.low == pytest.approx((11.6**2 + thicker**2) ** 0.5, abs=0.2)


@pytest.mark.parametrize("marking", ["T-90", "T-120", "T-160", "E-180", "E-240"])
@pytest.mark.parametrize("share", [0.0, 0.2, 0.5, 0.9])
def test_every_vhs_cassette_of_the_tables_adds_up_to_itself(marking: str, share: float) -> None:
    known = packs.reels(VHS, marking)
    whole = known.marking.metres.value

    found = packs.fit(known, known.radius(whole * (1 - share)), known.radius(whole * share))

    assert found.agrees
