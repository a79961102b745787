"""Lengths read by rule, against lengths and minutes printed elsewhere."""

from __future__ import annotations

import pytest

from core.catalogue.formats import catalogue
from core.catalogue.markings import play_minutes
from core.model.names import Speed, TvSystem

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL


@pytest.mark.parametrize(
    ("name", "marking", "metres", "within", "source"),
    [
        ("vhs", "T-120", 246, 0.007, "SMPTE 32M table 1, 2nd-hand"),
        ("vhs", "T-160", 327, 0.006, "SMPTE 32M table 1, 2nd-hand"),
        ("vhs", "E-30", 44, 0.015, "WISSEN-digital, Videokassette (encyclopaedia)"),
        ("vhs", "E-240", 348, 0.016, "vinett Bandeigenschaften (trade)"),
        ("vhs", "E-240", 352, 0.027, "WISSEN-digital, Videokassette (encyclopaedia)"),
        ("video8", "P5-60", 75, 0.04, "Wikipedia, Video 8, German (encyclopaedia)"),
        ("video8", "P5-90", 112, 0.035, "Wikipedia, Video 8, German (encyclopaedia)"),
        ("minidv", "DVM60", 68, 0.005, "vinett Bandeigenschaften (trade)"),
        ("betamax", "L-750", 222.4, 0.003, "Wickstrom 1985, measured (trade)"),
        ("audio-cassette", "C60", 90, 0.05, "C60 length page (trade): up to 90 m"),
        ("audio-cassette", "C90", 129, 0.005, "Wikipedia, Compact Cassette (encyclopaedia)"),
    ],
)
def test_a_rule_meets_a_length_that_was_printed_or_measured(
    name: str, marking: str, metres: float, within: float, source: str
) -> None:
    rules = [rule for rule in catalogue().format(name).rules if rule.number(marking) is not None]
    read = rules[0].read(rules[0].number(marking) or 0)

    assert read.metres.value == pytest.approx(metres, rel=within), source


@pytest.mark.parametrize(
    ("name", "marking", "speed", "tv", "minutes", "source"),
    [
        # A marking is a nominal minimum: SMPTE 32M table 1 runs 1.7 to 6.6 % over it.
        ("vhs", "T-130", Speed.SP, NTSC, 130, "nominal minutes of the letter scheme"),
        ("vhs", "T-130", Speed.EP, NTSC, 390, "RadioShack Optimus 16-547: EP is three times SP"),
        ("vhs", "E-200", Speed.SP, PAL, 200, "nominal minutes of the letter scheme"),
        ("vhs", "E-200", Speed.LP, PAL, 400, "JVC VTG82063 table 3-1-2: LP is twice SP"),
        ("minidv", "DVM85", Speed.LP, None, 127.5, "Wikipedia, DV: LP is 1.5 times SP"),
        ("dvcam", "PDV-94", Speed.SP, None, 94, "Lexikon der Filmbegriffe, Kiel: DVCAM minutes"),
        ("betamax", "L-400", Speed.B2, NTSC, 96, "mrbetamax: L-500 is 120 minutes at βII, by the foot"),
        ("audio-cassette", "C46", Speed.SP, None, 46, "1⅞ in/s, both sides (trade: avrestore)"),
    ],
)
def test_a_marking_read_by_rule_plays_its_nominal_minutes_or_a_little_more(
    name: str, marking: str, speed: Speed, tv: TvSystem | None, minutes: float, source: str
) -> None:
    form = catalogue().format(name)
    read = form.marking(marking)
    assert read is not None
    mm_s = form.speed_choices(speed, tv)[0].mm_s.value
    played = play_minutes(read.metres.value, mm_s, form.sides)

    assert minutes * (1 - 1e-6) <= played <= minutes * 1.07, source
