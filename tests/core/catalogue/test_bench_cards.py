"""The card over the bench."""

from __future__ import annotations

import pytest

from core.catalogue import bench_cards
from core.catalogue.formats import catalogue


@pytest.mark.parametrize("name", catalogue().names)
def test_every_format_has_a_card_with_its_machines_and_cautions(name: str) -> None:
    card = bench_cards.card(catalogue().format(name).name)

    assert card.title == catalogue().format(name).words
    assert card.plays
    assert any("Blades" in caution for caution in card.cautions)
    assert any("mains" in caution for caution in card.cautions)
    assert any("SAVE" in line for line in card.general)


def test_the_catch_and_the_record_protect_of_8mm_are_not_those_of_minidv() -> None:
    eight, dv = (bench_cards.card(catalogue().format(name).name) for name in ("digital8", "minidv"))

    assert any("edge where a MiniDV cassette has none" in step for step in eight.opening)
    assert "hole is closed" in eight.protect
    assert "hole is open" in dv.protect


def test_a_vhs_shell_has_five_screws_and_a_vhs_c_shell_its_own_card() -> None:
    vhs, compact = (bench_cards.card(catalogue().format(name).name) for name in ("s-vhs", "s-vhs-c"))

    assert any("Five screws" in step for step in vhs.opening)
    assert any("adapter" in line for line in compact.plays)


def test_steps_without_a_published_source_say_so() -> None:
    card = bench_cards.card(catalogue().format("hi8").name)

    assert all("no source" in step for step in card.opening)
