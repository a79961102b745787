"""A tape goes to a deck that can play it, and a sentence says when none can."""

from __future__ import annotations

import pytest

from core.model.names import FormatName, Speed, TvSystem
from core.model.own_shop.settings_records import Deck
from core.scheduling.deck_choice import Suited, suited
from tests.support.shops import deck

VHS = deck("VHS", "vhs")
WORLD = deck("World", "vhs", "s-vhs", tv="ntsc pal")
STUDIO = deck("Studio", "vhs", "s-vhs", speeds="sp")
EIGHT = deck("8 mm", "video8", "hi8")
DIGITAL = deck("Digital8", "video8", "hi8", "digital8")


def choose(
    *decks: Deck,
    format: str = "vhs",
    recorded_as: str | None = None,
    tv: TvSystem | None = TvSystem.NTSC,
    speed: Speed | None = Speed.SP,
) -> Suited:
    recorded = FormatName(recorded_as) if recorded_as else None
    return suited(tuple(decks), FormatName(format), recorded, tv, speed)


def test_the_least_flexible_deck_comes_first() -> None:
    assert choose(WORLD, VHS).decks == (1, 0)


def test_a_recording_in_the_other_tv_system_needs_a_deck_for_it() -> None:
    assert choose(VHS, WORLD, tv=TvSystem.PAL).decks == (1,)
    assert choose(VHS, tv=TvSystem.PAL).doubt == "no deck in service plays VHS in PAL"


def test_a_speed_that_a_deck_does_not_have_leaves_it_out() -> None:
    assert choose(STUDIO, VHS, speed=Speed.EP).decks == (1,)
    assert choose(STUDIO, speed=Speed.EP).doubt == "no deck in service plays VHS at EP"


def test_an_unknown_speed_asks_for_a_deck_with_every_speed_of_the_shop() -> None:
    assert choose(STUDIO, VHS, speed=None).decks == (1,)
    assert choose(STUDIO, speed=None).decks == (0,)


def test_an_unknown_tv_system_is_taken_to_be_the_one_most_decks_are_for() -> None:
    assert choose(VHS, VHS, WORLD, tv=None).decks == (0, 1, 2)


def test_the_recording_counts_and_not_the_shell() -> None:
    assert choose(EIGHT, DIGITAL, format="hi8", recorded_as="digital8").decks == (1,)
    assert choose(EIGHT, DIGITAL, format="hi8", recorded_as="video8").decks == (0, 1)


def test_a_hi8_shell_that_may_hold_digital8_goes_to_a_deck_for_both() -> None:
    assert choose(EIGHT, DIGITAL, format="hi8").decks == (1,)
    assert choose(DIGITAL, format="hi8").doubt is None


def test_what_is_known_comes_before_what_may_be() -> None:
    european = deck("Hi8", "video8", "hi8", tv="pal")
    assert choose(DIGITAL, european, format="hi8", tv=TvSystem.PAL).decks == (1,)
    slow = deck("Slow", "hi8", speeds="lp")
    fast = deck("Fast", "hi8", "digital8", speeds="sp")
    assert choose(fast, slow, format="hi8", speed=Speed.LP).decks == (1,)


def test_a_shell_nobody_can_name_goes_to_a_deck_for_all_it_may_be() -> None:
    assert choose(EIGHT, DIGITAL, format="8mm-unknown").decks == (1,)


def test_without_such_a_deck_any_is_taken_and_the_doubt_is_said() -> None:
    found = choose(EIGHT, format="8mm-unknown")
    assert found.decks == (0,)
    assert found.doubt is not None
    assert "Video8 or Hi8 or Digital8" in found.doubt


@pytest.mark.parametrize("decks", [(), (deck("VHS", "vhs", in_service=False),)])
def test_a_shop_without_a_deck_in_service_says_so(decks: tuple[Deck, ...]) -> None:
    assert choose(*decks).doubt == "every deck is out of service"


def test_a_format_no_deck_plays_is_named() -> None:
    assert choose(VHS, format="betamax") == Suited((), "Betamax", "no deck in service plays Betamax")


def test_an_audio_deck_has_no_tv_system_to_be_wrong_about() -> None:
    assert choose(deck("Tape", "audio-cassette", tv=""), format="audio-cassette").decks == (0,)
