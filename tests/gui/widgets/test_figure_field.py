"""A figure is read as the shop's locale writes it, and never guessed."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from pytestqt.qtbot import QtBot

from core.model.errors import WrongInput
from core.wording import messages
from gui.widgets.figure_field import FigureField


@pytest.fixture
def locale(request: pytest.FixtureRequest) -> Iterator[str]:
    messages.use("en", request.param)
    yield request.param
    messages.use("en")


def field(qtbot: QtBot, text: str) -> FigureField:
    made = FigureField("figure", "Cut, cm")
    qtbot.addWidget(made)
    made.setText(text)
    return made


@pytest.mark.parametrize(
    ("locale", "typed", "read"),
    [
        ("de_DE", "1,5", 1.5),
        ("de_DE", "1.500", 1500.0),
        ("en_US", "1.5", 1.5),
        ("en_US", "1,500", 1500.0),
        ("fr_CH", "12,5", 12.5),
        ("en_US", "", None),
    ],
    indirect=["locale"],
)
def test_a_figure_is_read_by_the_locale(locale: str, typed: str, read: float | None, qtbot: QtBot) -> None:
    assert field(qtbot, typed).figure() == read, locale


@pytest.mark.parametrize(
    ("locale", "typed", "like"),
    [
        ("en_US", "1,5", "12.5"),
        ("de_DE", "1.5", "12,5"),
        ("en_US", "1.5.2", "12.5"),
        ("en_US", "-3", "12.5"),
        ("en_US", "1e3", "12.5"),
        ("en_US", "1000000", "12.5"),
        ("en_US", "nan", "12.5"),
    ],
    indirect=["locale"],
)
def test_what_is_no_figure_here_is_told_with_one_that_is(
    locale: str, typed: str, like: str, qtbot: QtBot
) -> None:
    made = field(qtbot, typed)
    with pytest.raises(WrongInput) as wrong:
        made.figure()
    assert wrong.value.sentence == f"Cut, cm: found '{typed}'; a number like {like} is accepted.", locale
    assert made.property("wrong")


@pytest.mark.parametrize("locale", ["en_US", "de_DE"], indirect=True)
@pytest.mark.parametrize("value", [0.0, 1.5, 12.25, 1234.5, 999_999.0])
def test_what_is_shown_is_read_back(locale: str, value: float, qtbot: QtBot) -> None:
    made = field(qtbot, "")
    made.show_figure(value)
    assert made.figure() == value, locale
