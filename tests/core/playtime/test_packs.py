"""From the radius of a pack to metres and minutes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue.formats import catalogue
from core.model.errors import Refused, WrongInput
from core.model.names import FormatName, Speed, TvSystem
from core.model.ranges import Range
from core.playtime import one_pack, packs

VHS = FormatName("vhs")
UNKNOWN = [form.name for form in catalogue().formats if form.record.pack is None]


@pytest.mark.parametrize("marking", [marking.name for marking in catalogue().format("vhs").markings])
def test_a_pack_as_thin_as_its_hub_holds_no_tape(marking: str) -> None:
    known = catalogue().format("vhs").marking(marking)
    assert known is not None
    assert known.hub_radius_mm is not None

    found = one_pack.pack(VHS, marking, known.hub_radius_mm.value, Speed.SP, TvSystem.NTSC)

    assert (found.metres, found.minutes) == (0, 0)


@given(st.floats(13, 44.5), st.floats(13, 44.5))
def test_a_thicker_pack_never_holds_less(one: float, other: float) -> None:
    less, more = (one_pack.pack(VHS, None, r, Speed.SP, TvSystem.PAL) for r in sorted((one, other)))

    assert less.metres <= more.metres


@given(st.floats(0, 430), st.sampled_from([13.0, 31.0, 35.0]), st.floats(9, 25))
def test_radius_and_length_undo_each_other(metres: float, hub: float, thickness: float) -> None:
    radius = packs.wound_radius(metres, hub, thickness)

    assert packs.wound_metres(radius, hub, thickness) == pytest.approx(metres, abs=1e-6)


def test_the_hub_depends_on_the_marking() -> None:
    assert one_pack.pack(VHS, "T-120", 36, Speed.SP, None).metres > 100
    assert one_pack.pack(VHS, "T-30", 36, Speed.SP, None).metres < 15


def test_an_unknown_speed_leaves_the_minutes_open() -> None:
    assert isinstance(one_pack.pack(VHS, "T-120", 30, None, TvSystem.NTSC).minutes, Range)


@pytest.mark.parametrize("radius", [12.9, 52.1, 0, -20, float("nan"), float("inf")])
def test_an_impossible_radius_is_refused(radius: float) -> None:
    with pytest.raises(
        WrongInput, match=r"from the hub, 13 mm, to no more than half the depth of its shell, 52 mm"
    ):
        one_pack.pack(VHS, "T-120", radius, Speed.SP, None)


@pytest.mark.parametrize(("radius", "is_doubted"), [(44.5, False), (45.4, False), (46.0, True), (51.9, True)])
def test_a_pack_past_the_edge_of_the_reel_is_doubted_and_measured(radius: float, is_doubted: bool) -> None:
    """Reel Ø 89 mm (JVC VTG82063 §1.1.25, 2nd-hand), a reading within 1 mm."""
    found = one_pack.pack(VHS, "T-120", radius, Speed.SP, None)
    assert any("past the edge of the reel, 44.5 mm" in each for each in found.sources) is is_doubted


def test_a_pack_beyond_what_the_marking_fills_raises_a_doubt() -> None:
    sources = one_pack.pack(VHS, "T-90", 40, Speed.SP, TvSystem.NTSC).sources

    assert any("a full T-90 reaches 35.9 mm" in source for source in sources)


@pytest.mark.parametrize("name", UNKNOWN)
def test_no_length_is_guessed_where_the_hub_is_not_known(name: str) -> None:
    for marking in (None, *(marking.name for marking in catalogue().format(name).markings)):
        with pytest.raises(Refused, match="hub radius is not known"):
            one_pack.pack(FormatName(name), marking, 20, None, None)


def test_an_audio_cassette_is_marked_rough() -> None:
    found = one_pack.pack(FormatName("audio-cassette"), "C60", 25.2, None, None)

    assert any(source.startswith("rough") for source in found.sources)
    assert found.metres == pytest.approx(90, abs=1)


def test_hubs_are_known_of_full_size_vhs_and_roughly_of_the_audio_cassette() -> None:
    assert set(catalogue().names) - set(UNKNOWN) >= {"vhs", "s-vhs", "audio-cassette"}
    assert {"vhs-c", "betamax", "hi8", "minidv"} <= set(UNKNOWN)
