"""At the counter nobody reads where a figure comes from, or of file systems: those are behind *Why?*."""

from __future__ import annotations

import re

import pytest
from pytestqt.qtbot import QtBot

from core.catalogue import inspection
from core.catalogue.formats import catalogue
from core.model.names import FormatName
from core.wording import messages, own_words
from gui.inspection.look_layout import caption
from gui.inspection.look_step import StepPage
from tests.support.screens import written

SOURCE = re.compile(
    r"\((trade|from memory|common practice|derived|Kodak|Sony|EMTEC|SMPTE|AV Artifact)|no source|FAT32|exFAT"
)
ROOMS = (
    "counter",
    "slip",
    "media",
    "charges",
    "questions",
    "quotes",
    "customer",
    "agreeing",
    "pickup",
    "handing_back",
)


@pytest.mark.parametrize("room", ROOMS)
def test_no_sentence_of_counter_and_pickup_names_a_source_or_a_file_system(room: str) -> None:
    """Seen red: *FAT32 ends a file at 4.29 GB*, *format it as exFAT*."""
    sentences = {key: own_words.source_of(each) for key, each in messages.built_in(room, "en").items()}
    named = {key for key, said in sentences.items() if SOURCE.search(said)}
    assert {key for key in named if not key.startswith("figure-")} == set(), (
        "figures are told on the page of sources"
    )


@pytest.mark.parametrize("name", catalogue().names)
def test_the_short_look_over_keeps_its_source_behind_why(qtbot: QtBot, name: str) -> None:
    """Seen red: the source stood under each step, and *(from memory)* in what it said of a cold tape."""
    page = StepPage()
    qtbot.addWidget(page)
    for step in inspection.short_steps(FormatName(name)):
        page.show_step(step, FormatName(name), (), short=True)
        page.temperature.setText("-10 C")
        assert not SOURCE.search(written(page))
        assert step.source.words not in written(page)
        page.why.click()
        assert step.source.words in written(page)


def test_neither_does_the_drawing_of_the_shell_say_where_its_parts_are_known_from() -> None:
    """Seen red: *where the parts lie is from memory*."""
    vhs = FormatName("vhs")
    assert "from memory" in caption(vhs)
    assert "from memory" not in caption(vhs, short=True)


def test_the_bench_reads_it_at_once(qtbot: QtBot) -> None:
    page = StepPage()
    qtbot.addWidget(page)
    (step, *_) = inspection.steps(FormatName("vhs"))
    page.show_step(step, FormatName("vhs"), (), short=False)
    assert step.source.words in written(page)
    assert page.why.isHidden()
