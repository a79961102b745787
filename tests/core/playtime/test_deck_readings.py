"""What a deck can show of a tape: only what leaves a choice, the likely answer named, never taken as seen."""

from __future__ import annotations

import pytest

from core.model.deck_showing import NOTHING, Shown
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.playtime import learning, tape_minutes
from core.playtime.deck_readings import Offer, found, offer
from core.playtime.explanations import Played
from core.playtime.habits import STARTING
from core.playtime.possibilities import Facts

HI8 = TapeLine(1, FormatName("hi8"), "P6-120")
DIGITAL8 = FormatName("digital8")


def of(format: str, said: Shown = NOTHING, **known: object) -> Offer:
    return offer(TapeLine(1, FormatName(format), None, **known), said, STARTING)  # type: ignore[arg-type]


def test_systems_are_asked_of_shells_that_hold_recordings_of_different_speed() -> None:
    assert of("hi8").systems == ("hi8", "video8", "digital8")
    assert of("minidv").systems == ("minidv", "dvcam", "hdv")
    assert of("vhs").systems == ()  # S-VHS runs as fast as VHS


def test_speeds_are_those_of_the_recording_and_its_tv_system() -> None:
    assert of("vhs-c", tv=TvSystem.PAL).speeds == (Speed.SP, Speed.LP)
    assert of("vhs-c", Shown(tv=TvSystem.NTSC), tv=TvSystem.PAL).speeds == (Speed.SP, Speed.EP)
    assert of("betamax").speeds == (Speed.B1, Speed.B2, Speed.B3)
    assert of("audio-cassette").speeds == ()


def test_the_tv_system_is_asked_where_speed_depends_on_it() -> None:
    assert of("hi8").tvs == (TvSystem.NTSC, TvSystem.PAL)
    assert of("hi8", Shown(recorded_as=DIGITAL8)).tvs == ()


def test_what_was_booked_is_what_is_likely_as_long_as_it_can_be() -> None:
    assert of("vhs", speed=Speed.EP).likely.speed is Speed.EP
    assert of("betamax", Shown(tv=TvSystem.PAL), speed=Speed.B3).likely.speed is Speed.SP


def test_what_the_shop_has_learned_decides_what_is_likely() -> None:
    known = Facts(FormatName("hi8"), "P6-120", tv=TvSystem.NTSC)
    shop = learning.learned(tuple(Played(f"{n}", known, 60.0, recorded_as=DIGITAL8) for n in range(30)))
    assert offer(HI8, NOTHING, STARTING).likely.recorded_as == "hi8"
    assert offer(HI8, NOTHING, shop).likely.recorded_as == DIGITAL8


def test_a_recording_found_to_be_another_takes_the_told_speed_along() -> None:
    told = TapeLine(1, FormatName("hi8"), "P6-120", speed=Speed.LP)
    assert found(told, Shown(recorded_as=DIGITAL8)).speed is None
    assert found(told, Shown(tv=TvSystem.PAL)).speed is Speed.LP
    assert found(told, NOTHING) == told


@pytest.mark.parametrize("format", ["vhs", "hi8", "8mm-unknown", "minidv", "betamax", "u-matic"])
def test_every_offered_answer_can_be_kept(format: str) -> None:
    line = TapeLine(1, FormatName(format), None)
    whole = offer(line, NOTHING, STARTING)
    for system in whole.systems or (None,):
        for tv in offer(line, Shown(recorded_as=system), STARTING).tvs or (None,):
            for speed in offer(line, Shown(recorded_as=system, tv=tv), STARTING).speeds or (None,):
                tape_minutes.check(found(line, Shown(speed, system, tv)), None)
