"""Papers of an order apart from the shop's file: the records know the folder before they are written."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.model.errors import TapewrightError, Unavailable
from core.services.privacy import paper_places
from tests.support.booked import events, line
from tests.support.screens import Place


def write(place: Place, folder: Path) -> tuple[list[object], list[TapewrightError]]:
    """Writes a paper of an order into a folder; gives how many folders were noted by then, and failures."""
    number = place.records.book(line()).number
    place.desk.papers = folder
    then: list[object] = []
    failed: list[TapewrightError] = []
    shop = place.records.shop
    place.desk.write_paper_of(
        number, lambda: len(events(shop, paper_places.KIND)), then=then.append, otherwise=failed.append
    )
    place.settle()
    return then, failed


def test_elsewhere_they_are_noted_first(place: Place, tmp_path: Path) -> None:
    """Seen red without the note."""
    assert write(place, tmp_path / "desk") == ([1], [])


def test_beside_the_shop_nothing_is_noted(place: Place) -> None:
    assert write(place, Path(place.records.where).parent / "papers") == ([0], [])


def test_what_cannot_be_noted_is_not_written(
    place: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise Unavailable("The disk is full.")

    monkeypatch.setattr(paper_places, "note", refuse)
    then, failed = write(place, tmp_path / "desk")
    assert then == []
    assert [each.sentence for each in failed] == ["The disk is full."]
