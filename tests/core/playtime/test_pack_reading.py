"""A look through the window: how far a tape was run, and whether its marking can be right."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue.formats import catalogue
from core.model.errors import Refused, WrongInput
from core.model.names import FillKnown, FormatName, Speed, TvSystem
from core.model.ranges import Range
from core.playtime import pack_reading, packs
from core.playtime.pack_reading import PackMeasurement, WoundTo

VHS = FormatName("vhs")


def read(marking: str | None = "T-120", **radii: float) -> PackMeasurement:
    return pack_reading.read(VHS, marking, speed=Speed.SP, tv=TvSystem.NTSC, **radii)


def test_equal_packs_are_half_way() -> None:
    found = read(to_come_mm=30.21, run_mm=30.21)

    assert found.share_run.likely == 0.5
    assert found.place is WoundTo.ON_THE_WAY
    assert found.run == found.to_come


def test_the_share_of_two_packs_does_not_depend_on_the_thickness_of_the_tape() -> None:
    """T-120 and T-160 have the same hub, but tapes of 19 and 15.6 µm."""
    thick, thin = (read(marking, to_come_mm=25, run_mm=36) for marking in ("T-120", "T-160"))

    assert thick.reels.thickness.value != thin.reels.thickness.value
    assert thick.share_run == thin.share_run


@given(st.floats(0.05, 0.95))
def test_a_reading_gives_back_the_share_the_packs_were_wound_to(share: float) -> None:
    known = packs.reels(VHS, "T-120")
    run, coming = (known.radius(known.marking.metres.value * part) for part in (share, 1 - share))

    for found in (read(to_come_mm=coming, run_mm=run), read(run_mm=run), read(to_come_mm=coming)):
        assert found.share_run.likely == pytest.approx(share, abs=1e-6)
        assert found.share_run.low <= found.share_run.likely <= found.share_run.high


@given(st.floats(13.1, 43), st.floats(13.1, 43))
def test_every_range_rises_and_no_reel_holds_less_than_nothing(coming: float, run: float) -> None:
    for found in (read(to_come_mm=coming, run_mm=run), read(run_mm=run), read(None, to_come_mm=coming)):
        for reel in (found.to_come, found.run):
            for span in (reel.metres, reel.minutes):
                assert 0 <= span.low <= span.likely <= span.high


def test_two_packs_say_more_than_one() -> None:
    def width(span: Range) -> float:
        return span.high - span.low

    one, both = read(run_mm=35), read(run_mm=35, to_come_mm=24.51)

    assert width(both.run.metres) < width(one.run.metres)


def test_one_pack_and_the_marking_give_the_other_pack() -> None:
    found = read(run_mm=35)

    assert found.to_come.radius_mm == pytest.approx(24.5, abs=0.05)
    assert found.run.metres.likely + found.to_come.metres.likely == pytest.approx(246)
    assert (found.run.was_read, found.to_come.was_read) == (True, False)
    assert found.fit is None


def test_packs_that_hold_more_than_the_marking_name_the_markings_that_fit() -> None:
    found = read("T-90", to_come_mm=30.21, run_mm=30.21)

    assert found.fit is not None
    assert not found.fit.agrees
    assert "T-120" in found.fit.others
    assert "T-90" not in found.fit.others
    assert found.fit.metres.low > 185


def test_a_marking_that_fits_is_confirmed() -> None:
    found = read("T-120", to_come_mm=30.21, run_mm=30.21)

    assert found.fit is not None
    assert found.fit.agrees
    assert found.fit.metres.likely == pytest.approx(246, abs=0.5)


def test_when_the_marking_cannot_be_right_its_length_is_not_used() -> None:
    wrong, unknown = (read(marking, to_come_mm=30.21, run_mm=30.21) for marking in ("T-90", None))

    assert wrong.run.metres.likely == pytest.approx(unknown.run.metres.likely)


def test_a_pack_smaller_than_the_hub_of_the_marking_is_refused() -> None:
    """Cassettes of an hour and less have a wide hub: JVC VTG82063 §1.1.25, 2nd-hand."""
    with pytest.raises(WrongInput, match="from the hub, 31 mm"):
        read("T-60", to_come_mm=20, run_mm=40)


def test_one_pack_larger_than_the_whole_tape_is_told() -> None:
    assert read("T-90", run_mm=43).too_full
    assert not read("T-120", run_mm=40.7).too_full


@pytest.mark.parametrize(
    ("coming", "run", "place"),
    [(40.7, 13.2, WoundTo.AT_THE_BEGINNING), (13.0, 40.7, WoundTo.AT_THE_END), (25, 36, WoundTo.ON_THE_WAY)],
)
def test_a_tape_wound_to_an_end_is_told_apart(coming: float, run: float, place: WoundTo) -> None:
    assert read(to_come_mm=coming, run_mm=run).place is place


def test_without_a_radius_nothing_can_be_said() -> None:
    with pytest.raises(WrongInput, match="radius of one pack"):
        read()


def test_two_empty_hubs_are_no_tape() -> None:
    with pytest.raises(WrongInput, match="hold no tape"):
        read(to_come_mm=13, run_mm=13)


@pytest.mark.parametrize("name", ["hi8", "minidv", "vhs-c", "betamax", "8mm-unknown"])
def test_a_format_of_unknown_hub_is_refused_with_the_reason(name: str) -> None:
    with pytest.raises(Refused, match="hub radius is not known"):
        pack_reading.read(FormatName(name), None, run_mm=10)


def test_an_audio_cassette_counts_the_minutes_of_one_side() -> None:
    found = pack_reading.read(FormatName("audio-cassette"), "C90", to_come_mm=18.5, run_mm=18.5)

    together = found.run.minutes.likely + found.to_come.minutes.likely
    assert together == pytest.approx(45, abs=1.5)


def test_a_slower_speed_plays_the_same_pack_longer() -> None:
    fast, slow = (
        pack_reading.read(VHS, "T-120", run_mm=35, speed=speed, tv=TvSystem.NTSC)
        for speed in (Speed.SP, Speed.EP)
    )

    assert slow.run.minutes.likely > 2.9 * fast.run.minutes.likely
    assert slow.run.metres == fast.run.metres


def test_an_unknown_speed_widens_the_minutes_only() -> None:
    found = pack_reading.read(VHS, "T-120", run_mm=35, tv=TvSystem.NTSC)

    assert found.run.minutes.high > 2 * found.run.minutes.low
    assert found.share_run == read(run_mm=35).share_run


@given(st.floats(0.05, 0.95))
def test_what_is_recorded_is_taken_as_the_packs_tell_it(share: float) -> None:
    known = packs.reels(VHS, "T-120")
    run, coming = (known.radius(known.marking.metres.value * part) for part in (share, 1 - share))
    one, both = read(run_mm=run), read(run_mm=run, to_come_mm=coming)

    least = pack_reading.recorded_at_least(both)
    assert (least.fill, least.fill_known, least.fill_off) == (share_of(both), FillKnown.AT_LEAST, None)
    to_here, by_one = pack_reading.recorded_to_here(both), pack_reading.recorded_to_here(one)
    assert (to_here.fill, to_here.fill_known) == (share_of(both), FillKnown.READ)
    assert to_here.fill_off is not None
    assert by_one.fill_off is not None
    assert 0.015 < to_here.fill_off < by_one.fill_off + 0.01


def share_of(found: PackMeasurement) -> float:
    return found.share_run.likely


def test_a_tape_wound_to_its_end_is_recorded_whole() -> None:
    whole = pack_reading.recorded_to_here(read(to_come_mm=13.0, run_mm=40.7))

    assert (whole.fill, whole.fill_known) == (1.0, FillKnown.READ)


def test_a_reading_names_its_sources_and_what_it_may_be_off() -> None:
    found = read(run_mm=35)

    assert any("JVC VTG82063" in source for source in found.sources)
    assert any("17 to 20 µm" in source for source in found.sources)
    assert any("1 mm off" in source for source in found.sources)


def test_every_known_thickness_has_a_span_of_its_own_with_a_source() -> None:
    for form in catalogue().formats:
        for marking in form.markings:
            if marking.thickness_um is not None and form.reel_radius_mm is not None:
                known = packs.reels(form.name, marking.name)
                assert known.thin_um < known.thickness.value <= known.thick_um, (form.name, marking.name)
                assert known.thickness_span
