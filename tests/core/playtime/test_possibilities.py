"""How much of a tape is recorded: told, read, or at least so far; each is believed as it is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import FillKnown, FormatName, TvSystem
from core.playtime import pack_reading, packs, possibilities, starting_beliefs
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.pack_reading import WoundTo
from core.playtime.possibilities import Facts, Stretch, facts

TOLD, READ, AT_LEAST = FillKnown.TOLD, FillKnown.READ, FillKnown.AT_LEAST
VHS = Facts(FormatName("vhs"), "T-120")
SHARES = st.floats(0.001, 1.0)
Fills = Sequence[tuple[Stretch, float]]


def fills(known: Facts, shop: ShopHabits = STARTING) -> Fills:
    return possibilities.fills(known, shop).options


def below(found: Fills, share: float) -> float:
    """The chance that no more than ``share`` is recorded."""
    return sum(
        weight * (1.0 if end <= share else 0.0 if share <= begin else (share - begin) / (end - begin))
        for (begin, end), weight in found
    )


def reached(found: Fills, p: float) -> float:
    """The share below which ``p`` of what is believed lies."""
    so_far = 0.0
    for (begin, end), weight in sorted(found):
        if so_far + weight >= p:
            return begin + (end - begin) * (p - so_far) / weight
        so_far += weight
    return 1.0


def width(found: Fills) -> float:
    return reached(found, 0.9) - reached(found, 0.1)


@st.composite
def known(draw: st.DrawFn) -> Facts:
    """A share of any tape, known in any way."""
    way = draw(st.sampled_from(FillKnown))
    off = draw(st.none() | st.floats(0.001, 1.0)) if way is not AT_LEAST else None
    name = draw(st.sampled_from(catalogue().names))
    return Facts(name, fill=draw(SHARES), fill_known=way, fill_off=off)


@given(known())
def test_what_is_believed_of_the_share_adds_up_to_one_and_lies_on_the_tape(drawn: Facts) -> None:
    found = fills(drawn)

    assert sum(weight for _, weight in found) == pytest.approx(1)
    assert all(0 <= begin <= end <= 1 and weight > 0 for (begin, end), weight in found)
    assert 0 < reached(found, 0.1) <= reached(found, 0.5) <= reached(found, 0.9) <= 1


@given(known(), SHARES, st.floats(0, 1))
def test_a_larger_share_never_leaves_more_chance_to_be_short(
    drawn: Facts, other: float, where: float
) -> None:
    """In each way of knowing, over the whole distribution and not only in its middle."""
    assert drawn.fill is not None
    less, more = (replace(drawn, fill=share) for share in sorted((drawn.fill, other)))

    assert below(fills(more), where) <= below(fills(less), where) + 1e-9


@given(SHARES, st.sampled_from(catalogue().names))
def test_read_is_narrower_than_told_and_full_is_full_either_way(share: float, name: FormatName) -> None:
    told, read = (fills(Facts(name, fill=share, fill_known=way)) for way in (TOLD, READ))
    assert width(read) <= width(told)
    assert width(read) < 0.5 * width(told) or not 0.1 < share < 1

    full = [fills(Facts(name, fill=1.0, fill_known=way)) for way in FillKnown]
    assert full == [(((1.0, 1.0), 1.0),)] * 3


@given(SHARES)
def test_a_share_that_was_read_is_believed_as_far_off_as_the_reading_may_be(share: float) -> None:
    usual, near = (fills(replace(VHS, fill=share, fill_known=READ, fill_off=off)) for off in (None, 0.01))

    off = starting_beliefs.read_fill_off()
    for found, so_far in ((usual, off), (near, 0.01)):
        assert min(begin for (begin, _), _ in found) >= min(share - so_far, 1)
        assert max(end for (_, end), _ in found) <= min(share + so_far, 1) + 1e-9


def test_the_usual_reading_is_that_of_both_packs_of_a_full_size_cassette_midway() -> None:
    midway = pack_reading.read(FormatName("vhs"), "T-120", to_come_mm=30.21, run_mm=30.21)

    recorded = pack_reading.recorded_to_here(midway)
    assert recorded.fill_off == pytest.approx(starting_beliefs.read_fill_off(), abs=0.002)


@given(st.floats(0.001, 0.999), st.floats(0, 1))
def test_at_least_so_far_is_the_belief_of_the_shop_cut_below(share: float, where: float) -> None:
    """By the rule of conditional chances; the full tape is among what is left."""
    unknown, cut = fills(VHS), fills(replace(VHS, fill=share, fill_known=AT_LEAST))
    left = 1 - below(unknown, share)
    assume(left > 1e-6)

    expected = max(0.0, below(unknown, where) - below(unknown, share)) / left
    assert below(cut, where) == pytest.approx(expected, abs=1e-6)
    assert min(begin for (begin, _), _ in cut) == pytest.approx(max(share, 0))
    assert cut[-1][0][1] == 1.0


def test_at_least_nothing_is_no_more_than_not_known() -> None:
    cut = fills(replace(VHS, fill=1e-9, fill_known=AT_LEAST))

    for (stretch, weight), (known_before, before) in zip(cut, fills(VHS), strict=True):
        assert stretch == pytest.approx(known_before, abs=1e-8)
        assert weight == pytest.approx(before, abs=1e-6)


def test_at_least_follows_the_shop() -> None:
    emptier, fuller = (ShopHabits({("fill", "vhs"): {stretch: 60.0}}) for stretch in ("3", "6"))
    cut = replace(VHS, fill=0.45, fill_known=AT_LEAST)

    assert reached(fills(cut, emptier), 0.5) < 0.58 < 0.86 < reached(fills(cut, fuller), 0.5)


@pytest.mark.parametrize(
    ("wrong", "place"),
    [
        ({"fill": 0.0, "fill_known": AT_LEAST}, "fill"),
        ({"fill": 1.2, "fill_known": READ}, "fill"),
        ({"fill": 0.5, "fill_known": READ, "fill_off": 0.0}, "fill_off"),
        ({"fill": 0.5, "fill_known": READ, "fill_off": float("nan")}, "fill_off"),
    ],
)
def test_a_share_that_cannot_be_is_refused_by_name(wrong: dict[str, object], place: str) -> None:
    with pytest.raises(WrongInput, match="above 0") as refusal:
        fills(replace(VHS, **wrong))  # type: ignore[arg-type]  # names of Facts
    assert refusal.value.place == place


def test_how_a_share_is_known_means_nothing_without_a_share() -> None:
    """So that tapes alike are believed once."""
    line = TapeLine(1, FormatName("vhs"), "T-120")

    assert facts(replace(line, fill_known=READ, fill_off=0.1)) == facts(line)
    assert facts(replace(line, fill=0.5, fill_known=READ)).unfilled == facts(line)


# --- readings of packs ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "marking", "packs_read"),
    [
        ("vhs", "T-120", ("to come", "run")),
        ("vhs", "T-120", ("run",)),
        ("vhs", "E-180", ("to come", "run")),
        ("audio-cassette", "C90", ("to come", "run")),
    ],
)
def test_the_truth_lies_in_the_80_range_about_as_often_as_it_should(
    name: str, marking: str, packs_read: tuple[str, ...]
) -> None:
    """Tapes that end as the shop believes, read 1 mm off at most, of any thickness the maker allows.

    Over 1,500 tapes chance alone moves 80 % by 1 %; the rest is that errors add up to a shape with a peak, of
    which the belief is a flat stretch. Taken as told, the same range holds the truth nearly always.
    """
    within, tapes = _read_tapes(FormatName(name), marking, packs_read)

    assert tapes > 1_000
    assert within[READ] / tapes == pytest.approx(0.80, abs=0.05)
    assert within[TOLD] / tapes > 0.97


def _read_tapes(
    name: FormatName, marking: str, packs_read: Sequence[str]
) -> tuple[dict[FillKnown, int], int]:
    dice, reels = np.random.default_rng(20), packs.reels(name, marking)
    ends = fills(Facts(name, marking, tv=TvSystem.NTSC))[:-1]  # the full tape is wound to its end
    within, tapes = dict.fromkeys((READ, TOLD), 0), 0
    for _ in range(1_500):
        share = reached(ends, float(dice.uniform(0, sum(weight for _, weight in ends))))
        um = reels.thickness.value if len(packs_read) == 2 else dice.uniform(reels.thin_um, reels.thick_um)
        radii = {"to come": _radius(reels, 1 - share, um), "run": _radius(reels, share, um)}
        seen = {
            place: max(reels.hub.value, radius + dice.uniform(-packs.MISREADING_MM, packs.MISREADING_MM))
            for place, radius in radii.items()
        }
        found = pack_reading.read(
            name,
            marking,
            to_come_mm=seen["to come"] if "to come" in packs_read else None,
            run_mm=seen["run"] if "run" in packs_read else None,
        )
        if found.place is not WoundTo.ON_THE_WAY:
            continue
        tapes += 1
        read = pack_reading.recorded_to_here(found)
        for way, off in ((READ, read.fill_off), (TOLD, None)):
            believed = fills(Facts(name, marking, fill=read.fill, fill_known=way, fill_off=off))
            within[way] += reached(believed, 0.1) <= share <= reached(believed, 0.9)
    return within, tapes


def _radius(reels: packs.Reels, share: float, thickness_um: float) -> float:
    """How far a share of the tape reaches on its reel, in mm, for tape of this thickness."""
    area = reels.marking.metres.value * share * thickness_um
    return float(np.sqrt(reels.hub.value**2 + area / np.pi))
