"""What a cut takes away."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import cuts
from core.errors import WrongInput
from core.formats import catalogue
from core.names import FormatName, Speed, TvSystem

names = st.sampled_from(catalogue().names)
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


@pytest.mark.parametrize("cm", [-1, -0.001, float("nan"), float("inf"), 1e6])
def test_an_absurd_cut_is_refused(cm: float) -> None:
    with pytest.raises(WrongInput, match="longest VHS tape") as wrong:
        cuts.cut(FormatName("vhs"), None, None, cm)
    assert wrong.value.place == "cm"


def test_a_speed_the_format_lacks_is_refused() -> None:
    with pytest.raises(WrongInput, match="Hi8 has sp, lp"):
        cuts.cut(FormatName("hi8"), Speed.EP, None, 1)
