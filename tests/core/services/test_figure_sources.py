"""No figure of the catalogue goes without a word on where it comes from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args

import pytest

from core.catalogue.format_file import Mark
from core.catalogue.formats import catalogue
from core.model.names import FormatName
from core.pricing import bitrates
from core.services import figure_sources


def test_every_figure_on_media_names_its_source_or_owns_that_it_has_none() -> None:
    page = bitrates.page()
    for table, values in page.items():
        if table in ("sources", "codecs", "discs"):
            continue
        for name in figures(values):
            assert name in page["sources"].get(table, {}), f"{table}.{name}"
    for table in ("codecs", "discs"):
        for name, values in page[table].items():
            assert values["source"], name
            assert values["mark"] in get_args(Mark), name


def figures(table: Mapping[str, Any]) -> list[str]:
    """Names of what is a figure, or a row of them."""
    return [name for name, value in table.items() if not isinstance(value, str)]


def test_every_fact_has_a_mark_and_a_figure() -> None:
    facts = [*figure_sources.of_packs(), *figure_sources.of_media(), *figure_sources.of_repairs()]
    for form in catalogue().formats:
        facts += figure_sources.of_format(form)

    assert len(facts) > 60
    for fact in facts:
        assert fact.source.mark in get_args(Mark)
        assert fact.what
        assert any(sign.isdigit() for sign in fact.figure)


def test_every_figure_of_the_media_says_where_it_comes_from_or_that_it_comes_from_nowhere() -> None:
    facts = {fact.what: fact.source.source for fact in figure_sources.of_media()}

    assert all(facts.values())
    assert "no source" in facts["share of a stick left after formatting"]
    assert "no source" in facts["from it on a DVD's picture is good, in Mb/s"]


def test_markings_that_share_a_hub_are_told_once() -> None:
    facts = figure_sources.of_format(catalogue().format("vhs"))  # type: ignore[arg-type]
    hubs = [fact for fact in facts if fact.what.startswith("hub radius")]

    assert [fact.figure for fact in hubs] == ["35 mm", "31 mm", "13 mm"]
    assert sum(len(fact.what.split(", ")) - 1 for fact in hubs) == len(
        catalogue().format(FormatName("vhs")).markings
    )


@pytest.mark.parametrize("name", catalogue().names)
def test_a_format_without_a_known_hub_tells_none(name: FormatName) -> None:
    form = catalogue().format(name)
    knows = any(each.hub_radius_mm for each in form.markings)

    assert any(fact.what.startswith("hub radius") for fact in figure_sources.of_format(form)) is knows
