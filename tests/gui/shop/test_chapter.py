"""A chapter of Shop is one file that names itself; the screen treats all alike."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel, QWidget

from core.services.shop_overview import ShopView
from gui.shop import about_chapter, chapter
from gui.shop.chapter import Chapter
from gui.shop.shop_screen import ShopScreen
from gui.toolkit.screen_context import Desk
from tests.support.screens import Place, written

ROOT = Path(__file__).parents[3]


class Planted(Chapter):
    """A chapter that counts how often it was built and renewed."""

    name = "planted"
    place = 15
    kinds = frozenset({"drafts"})
    opened = renewed = closed = 0

    @property
    def title(self) -> str:
        return "Planted"

    def note(self, view: ShopView) -> str:
        return "beside it"

    def renew(self) -> None:
        self.renewed += 1

    def open(self, view: ShopView) -> QWidget:
        self.opened += 1
        return QLabel("what was planted")

    def close(self) -> None:
        self.closed += 1


class PlantedScreen(ShopScreen):
    """The Shop screen with one chapter more."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, kinds_of=[chapter.found()[0], Planted])


@pytest.fixture
def screen(place: Place) -> PlantedScreen:
    return place.turn_to(PlantedScreen)


def planted(screen: ShopScreen) -> Planted:
    found = screen.chapter("planted")
    assert isinstance(found, Planted)
    return found


def test_every_module_with_a_chapter_is_listed_once_by_its_place() -> None:
    chapters = chapter.found()
    every = (ROOT / "gui" / "shop").rglob("*.py")
    named = [file for file in every if "\nCHAPTER = " in file.read_text()]
    files = {f"{file.parent.name}_chapter" if file.stem == "__init__" else file.stem for file in named}
    assert {one.__module__.rsplit(".", 1)[1] for one in chapters} == files
    assert len({one.name for one in chapters}) == len({one.place for one in chapters}) == len(chapters)
    assert [one.place for one in chapters] == sorted(one.place for one in chapters)


def test_one_more_chapter_is_listed_and_opened(screen: PlantedScreen) -> None:
    assert [(piece.title, piece.place) for piece in screen.chapters.pieces][-1] == ("Planted", "beside it")
    assert screen.chapters.stand_on("planted")
    assert written(screen.page) == "what was planted"
    assert planted(screen).opened == 1


def test_an_open_chapter_is_built_anew_when_its_kinds_change(place: Place, screen: PlantedScreen) -> None:
    screen.chapters.stand_on("planted")
    place.work.changed.emit(frozenset({"drafts"}))
    place.settle()
    assert (planted(screen).opened, planted(screen).closed) == (2, 1)
    place.work.changed.emit(frozenset({"tapes"}))
    place.settle()
    assert planted(screen).opened == 2, "another chapter's kinds do not disturb it"


def test_a_chapter_is_stale_while_the_screen_is_hidden(place: Place, screen: PlantedScreen) -> None:
    screen.chapters.stand_on("planted")
    before = planted(screen).renewed
    screen.leave()
    place.work.changed.emit(frozenset({"drafts"}))
    place.settle()
    assert (planted(screen).opened, planted(screen).renewed) == (1, before)
    screen.enter()
    place.settle()
    assert (planted(screen).opened, planted(screen).renewed) == (2, before + 1)


def test_about_tells_the_version_of_the_program(place: Place) -> None:
    screen = place.turn_to(ShopScreen)
    assert screen.chapters.stand_on("about")
    declared = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
    assert about_chapter.version() == declared
    assert declared in written(screen.page)


def test_about_shows_the_changelog_where_there_is_one(
    place: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "changelog.md"
    monkeypatch.setattr(about_chapter, "_CHANGELOG", (str(file),))
    assert about_chapter.changelog() == ""
    file.write_text("# Changes\n\n- The box is found by voice.\n")
    screen = place.turn_to(ShopScreen)
    screen.chapters.stand_on("about")
    assert "The box is found by voice." in written(screen.page)
