"""Every accent color can be read wherever it stands (WCAG 2.2, 1.4.3: text at least 4.5:1)."""

from __future__ import annotations

import pytest

from core.model import accents
from core.papers.typesetting import paper_tokens
from gui.toolkit import colors

GROUNDS = ("ground", "slip", "tray", "lit")


@pytest.mark.parametrize("name", accents.NAMES)
def test_an_accent_can_be_read_on_paper_and_on_both_looks(name: str) -> None:
    accent = accents.of(name)
    for ground in ("#FFFFFF", paper_tokens.GROUND, *(getattr(colors.LIGHT, each) for each in GROUNDS)):
        assert colors.contrast(accent.light, ground) >= colors.TEXT_CONTRAST, ground
    for ground in (getattr(colors.DIM_BENCH, each) for each in GROUNDS):
        assert colors.contrast(accent.dark, ground) >= colors.TEXT_CONTRAST, ground


@pytest.mark.parametrize("look", colors.LOOKS.values(), ids=colors.LOOKS)
@pytest.mark.parametrize("name", accents.NAMES)
def test_the_color_worn_in_a_look_can_be_read_there(name: str, look: colors.Tokens) -> None:
    assert colors.contrast(colors.accent(look, name), look.slip) >= colors.TEXT_CONTRAST


def test_the_first_is_the_color_of_the_program() -> None:
    assert accents.of("").light == colors.LIGHT.oxide
    assert accents.of("").dark == colors.DIM_BENCH.oxide


def test_every_accent_has_words_and_a_color_of_its_own() -> None:
    assert len({accents.words(name) for name in accents.NAMES}) == len(accents.NAMES)
    assert len({accents.of(name).light for name in accents.NAMES}) == len(accents.NAMES)
