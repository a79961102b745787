"""The set-up makes the test print of the papers page, and tells what is wrong with a picture."""

from __future__ import annotations

from pathlib import Path

from core.model.own_shop.setup_pages import SetupPage
from gui.first_run.set_up_screen import SetUpScreen
from gui.settings.front_page import FrontPage
from gui.settings.papers_page import PapersPage
from tests.support.screens import Place


def with_pages(place: Place) -> SetUpScreen:
    screen = place.turn_to(SetUpScreen)
    for _ in screen.make_pages():
        """Each comes in a turn of its own."""
    return screen


def test_a_test_print_is_made_and_shown(place: Place) -> None:
    screen = with_pages(place)
    papers = screen.pages[SetupPage.PAPERS]
    assert isinstance(papers, PapersPage)
    papers.show_settings(screen.view)  # type: ignore[arg-type]  # it was read
    papers.test.click()
    place.settle()
    assert [path.name for path in place.shown_files] == ["label-test.pdf"]


def test_a_file_that_is_no_picture_is_told(place: Place, tmp_path: Path) -> None:
    screen = with_pages(place)
    front = screen.pages[SetupPage.FRONT]
    assert isinstance(front, FrontPage)
    letter = tmp_path / "letter.png"
    letter.write_text("Dear customer")
    front.logo.take(str(letter))
    assert "Logo: found 'letter.png'; a picture file in PNG or JPEG" in place.told
