"""Times that were clocked or printed by others: none of them is made by a rule of the code.

A marking is a nominal minimum, so a printed nominal time is met from below, by 7 % at most (a T-30 runs
6.6 % over: SMPTE 32M table 1). The clocked times were taken into the catalogue's lengths and margins: they
hold it to them, and are not independent of it.
"""

from __future__ import annotations

import pytest

from core.catalogue.formats import catalogue
from core.catalogue.markings import play_minutes
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.playtime import tape_minutes

MOST_OVER = 1.07

# format, marking, speed, TV system, minutes printed; the source above each group.
PRINTED = """
vhs    T-60     sp  ntsc  60    RadioShack Optimus 16-547
vhs    T-60     lp  ntsc  120   RadioShack Optimus 16-547
vhs    T-60     ep  ntsc  180   RadioShack Optimus 16-547
vhs    T-120    sp  ntsc  120   JVC VTG82063 table 3-1-1
vhs    T-120    lp  ntsc  240   JVC VTG82063 table 3-1-1
vhs    T-120    ep  ntsc  360   JVC VTG82063 table 3-1-1
vhs    T-160    sp  ntsc  160   RadioShack Optimus 16-547
vhs    T-160    lp  ntsc  320   RadioShack Optimus 16-547
vhs    T-160    ep  ntsc  480   RadioShack Optimus 16-547
vhs    E-180    sp  pal   180   JVC VTG82063 table 3-1-2
vhs    E-180    lp  pal   360   JVC VTG82063 table 3-1-2
vhs    E-240    sp  pal   240   JVC VTG82063 table 3-1-2
vhs    E-240    lp  pal   480   JVC VTG82063 table 3-1-2
vhs    E-240    ep  pal   720   New Scientist, 10 June 2000
vhs-c  TC-20    sp  ntsc  20    JVC VTG82063 table 3-1-1
vhs-c  TC-20    ep  ntsc  60    JVC VTG82063 table 3-1-1
vhs-c  EC-30    sp  pal   30    JVC VTG82063 table 3-1-2
vhs-c  EC-30    lp  pal   60    JVC VTG82063 table 3-1-2
betamax L-500   b2  ntsc  120   mrbetamax, Recording Speeds
betamax L-750   b1  ntsc  90    mrbetamax, Recording Speeds
betamax L-750   b2  ntsc  180   mrbetamax, Recording Speeds
betamax L-750   b3  ntsc  270   mrbetamax, Recording Speeds
betamax L-830   b2  ntsc  200   mrbetamax, Recording Speeds
minidv DVM60    lp  ntsc  90    Wikipedia, DV
minidv DVM80    lp  ntsc  120   Wikipedia, DV
dvcam  PDV-184  sp  ntsc  184   Lexikon der Filmbegriffe, Kiel
"""

# The same with the minutes that somebody clocked or told of real cassettes.
CLOCKED = """
betamax L-750   b2  ntsc  185.333  Wickstrom, Orlando Sentinel, 20 April 1985: Polaroid
betamax L-750   b2  ntsc  186      Wickstrom, Orlando Sentinel, 20 April 1985: Scotch
betamax L-750   b2  ntsc  185.5    Wickstrom, Orlando Sentinel, 20 April 1985: Sony
betamax L-750   b2  ntsc  185.917  Wickstrom, Orlando Sentinel, 20 April 1985: Sony
vhs     T-120   sp  ntsc  124.9    Wickstrom, Chicago Tribune, 2 August 1985: up to five minutes over
vhs     E-240   sp  pal   248      vinett, Bandeigenschaften: 348 m
vhs     E-240   sp  pal   250.8    WISSEN-digital, Videokassette: 352 m
u-matic KCS-10  sp  ntsc  12       umatic.palsite tapes: about 2 over the label
"""


def rows(table: str) -> list[tuple[TapeLine, float]]:
    found = []
    for line in table.strip().splitlines():
        name, marking, speed, tv, minutes, *_ = line.split()
        tape = TapeLine(1, FormatName(name), marking, speed=Speed(speed), tv=TvSystem(tv))
        found.append((tape, float(minutes)))
    return found


def name_of(case: object) -> str:
    return f"{case.marking}-{case.speed.value}" if isinstance(case, TapeLine) and case.speed else str(case)


@pytest.mark.parametrize(("tape", "minutes"), rows(PRINTED), ids=name_of)
def test_a_cassette_runs_its_printed_time_and_a_little_more(tape: TapeLine, minutes: float) -> None:
    form = catalogue().format(tape.format)
    marking = form.marking(tape.marking)
    assert marking is not None
    (speed,) = form.speed_choices(tape.speed, tape.tv)

    runs = play_minutes(marking.metres.value, speed.mm_s.value)
    assert minutes * (1 - 1e-6) <= runs <= minutes * MOST_OVER + 1


@pytest.mark.parametrize(("tape", "minutes"), rows(CLOCKED), ids=name_of)
def test_a_clocked_time_lies_within_what_a_cassette_may_run(tape: TapeLine, minutes: float) -> None:
    believed = tape_minutes.belief(tape, None)

    assert isinstance(believed.full, float)
    assert believed.full <= minutes * (1 + 1e-3) <= believed.longest * (1 + 2e-3)
