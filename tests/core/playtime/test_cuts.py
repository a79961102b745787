"""What a cut takes away."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import FormatName, Join, Section, Speed, TvSystem
from core.model.ranges import Range
from core.model.repair_records import Splice
from core.playtime import cuts
from tests.support.booked import MORNING

names = st.sampled_from([form.name for form in catalogue().formats if not form.is_counted])
tvs = st.none() | st.sampled_from(TvSystem)


@given(names, tvs)
def test_cutting_nothing_removes_nothing(name: FormatName, tv: TvSystem | None) -> None:
    lost = cuts.cut(name, None, tv, 0)

    assert lost.seconds_removed == 0
    assert lost.removed.high == 0
    assert lost.seconds_disturbed >= 0


@given(names, tvs, st.floats(0, 1000), st.floats(0, 1000))
def test_a_longer_cut_never_costs_less(name: FormatName, tv: TvSystem | None, one: float, two: float) -> None:
    less, more = (cuts.cut(name, None, tv, cm) for cm in sorted((one, two)))

    assert less.seconds_removed <= more.seconds_removed
    assert less.seconds_disturbed <= more.seconds_disturbed


@given(names, tvs, st.floats(0, 1000))
def test_more_is_disturbed_than_removed(name: FormatName, tv: TvSystem | None, cm: float) -> None:
    lost = cuts.cut(name, None, tv, cm)

    assert lost.seconds_removed <= lost.seconds_disturbed
    assert lost.removed.low <= lost.seconds_removed <= lost.removed.high


def test_an_unknown_speed_gives_the_likely_loss_and_its_spread() -> None:
    lost = cuts.cut(FormatName("vhs"), None, TvSystem.NTSC, 10)

    assert lost.removed.low == pytest.approx(3.0, abs=0.01)
    assert lost.removed.high == pytest.approx(8.99, abs=0.01)


def test_a_cut_on_an_audio_cassette_is_lost_on_both_sides() -> None:
    assert "lost on both sides of the tape" in cuts.cut(FormatName("audio-cassette"), None, None, 1).sources


def test_where_no_track_figure_is_known_the_answer_says_so() -> None:
    lost = cuts.cut(FormatName("micromv"), None, None, 1)

    assert any("not known" in source for source in lost.sources)
    assert not lost.is_disturbed_known
    assert not cuts.is_disturbed_known(TapeLine(1, FormatName("micromv")))
    assert cuts.is_disturbed_known(TapeLine(1, FormatName("8mm-unknown")))
    # the head of an audio cassette reads across the tape: nothing is disturbed, and that is known
    assert cuts.is_disturbed_known(TapeLine(1, FormatName("audio-cassette")))


@pytest.mark.parametrize("cm", [-1, -0.001, float("nan"), float("inf"), 1e6])
def test_an_absurd_cut_is_refused(cm: float) -> None:
    with pytest.raises(WrongInput, match="longest VHS tape") as wrong:
        cuts.cut(FormatName("vhs"), None, None, cm)
    assert wrong.value.place == "cm"


def test_a_speed_the_format_lacks_is_refused() -> None:
    with pytest.raises(WrongInput, match="Hi8 has sp, lp"):
        cuts.cut(FormatName("hi8"), Speed.EP, None, 1)


@given(names, tvs, st.floats(0, 1000))
def test_nothing_of_the_programme_is_lost_in_the_leader(
    name: FormatName, tv: TvSystem | None, cm: float
) -> None:
    line = TapeLine(1, name, tv=tv)

    assert cuts.joint(line, cm, Section.LEADER) == cuts.in_leader()
    assert cuts.in_leader().seconds_removed == cuts.in_leader().seconds_disturbed == 0
    assert cuts.joint(line, cm, Section.PROGRAMME) == cuts.cut(name, None, tv, cm)


def test_a_cut_that_cannot_be_is_refused_in_the_leader_too() -> None:
    with pytest.raises(WrongInput, match="longest VHS tape"):
        cuts.joint(TapeLine(1, FormatName("vhs")), -1, Section.LEADER)


def splice(removed: float, further: float, spread: Range | None) -> Splice:
    return Splice(
        1.0, 1.0, Join.TAPE, removed, removed + further, "Kim", MORNING, removed=spread, disturbed=spread
    )


losses = st.floats(0, 600)
spreads = st.none() | st.builds(
    lambda low, more, most: Range(low, low + more, low + more + most), *3 * [losses]
)
splices = st.lists(st.builds(splice, losses, losses, spreads), max_size=6)


@given(splices, st.randoms(use_true_random=False))
def test_the_order_of_splices_does_not_change_what_they_cost(joints: list[Splice], random: object) -> None:
    shuffled = list(joints)
    random.shuffle(shuffled)  # type: ignore[attr-defined]  # the strategy gives a random.Random

    assert cuts.total(shuffled) == cuts.total(joints)


@given(splices)
def test_all_joints_together_cost_what_each_costs(joints: list[Splice]) -> None:
    whole = cuts.total(joints)
    likely = [each.removed.likely if each.removed else each.seconds_removed for each in joints]

    assert whole.removed.likely == pytest.approx(sum(likely))
    assert whole.removed.low <= whole.removed.likely <= whole.removed.high
