"""Whether the mark of a figure says no more than its source does."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from core.catalogue.formats import catalogue
from core.model import resource_files

FILES = sorted(resource_files.path("catalogue").rglob("*.toml"))


def sourced(table: Any) -> Iterator[dict[str, Any]]:
    """Every table that has a source."""
    if isinstance(table, dict):
        if "source" in table:
            yield table
        for each in table.values():
            yield from sourced(each)
    elif isinstance(table, list):
        for each in table:
            yield from sourced(each)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_source_is_told_and_what_is_second_hand_is_marked_so(path: Path) -> None:
    for each in sourced(tomllib.loads(path.read_text(encoding="utf-8"))):
        assert each["source"], each
        # of a figure that was read itself, only the tolerance beside it may be second hand
        of_figure = each["source"].partition("; tolerance")[0]
        if "2nd-hand" in of_figure:
            assert each["mark"] not in ("manufacturer", "standard", "handbook"), each


def test_a_thickness_of_which_only_the_bound_is_known_is_not_the_bound() -> None:
    vhs = catalogue().format("vhs")
    for name in ("E-195", "T-180", "T-200"):
        marking = vhs.marking(name)
        assert marking is not None
        assert marking.thickness_um is not None
        assert marking.thickness_span is not None
        assert marking.thickness_span.thin < marking.thickness_um.value < marking.thickness_span.thick
        assert "nobody publishes it" in marking.thickness_um.words
