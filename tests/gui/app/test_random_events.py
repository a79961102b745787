"""A share of the random events of every screen, and that the checks find what they look for.

All of them: ``python -m tests.random_events``.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.counter.draft_autosave import DraftAutosave
from gui.counter.tray_edits import TrayEdits
from gui.toolkit import theme
from tests.random_events import begun_shops, event_choice, event_runs
from tests.random_events.begun_shops import Begun
from tests.random_events.event_records import Does, Event, of_lines, to_lines
from tests.random_events.event_runs import Fault, Run
from tests.random_events.played_window import kept_in

COUNT = 40
"""Events of each screen in each run of the tests."""
SEED = 7
_TYPED = (Event(Does.TYPE, "5"), Event(Does.KEY, "Return"))


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Begun:
    return begun_shops.make(tmp_path_factory.mktemp("begun"))


@pytest.fixture
def runs(
    qtbot: QtBot, qapp: QApplication, begun: Begun, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Run]:
    """Runs about the Counter."""
    theme.apply(qapp)
    monkeypatch.chdir(tmp_path)
    with kept_in(tmp_path, begun) as bugs:
        yield Run("counter", begun, bugs, tmp_path)


@pytest.mark.parametrize("screen", event_choice.SCREENS)
def test_no_random_event_throws_or_loses_anything(runs: Run, screen: str) -> None:
    events = event_choice.drawn(screen, COUNT, SEED)
    fault = runs.about(screen).first_fault(events)
    assert fault is None, f"{fault.sentence}\n{to_lines(fault.events)}"


def test_a_draft_that_cannot_be_brought_back_is_found(runs: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def throw_away(edits: TrayEdits) -> None:
        edits._draft.begin(type(edits._draft.box)())

    monkeypatch.setattr(TrayEdits, "start_new", throw_away)
    fault = runs.first_fault((*_TYPED, Event(Does.KEY, "Ctrl+N")))
    assert fault is not None
    assert "cannot be brought back" in fault.sentence


def test_a_draft_that_is_not_kept_over_closing_is_found(runs: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(DraftAutosave, "_save", lambda autosave: autosave._timer.stop())
    fault = runs.first_fault((*_TYPED, Event(Does.CLOSE)))
    assert fault is not None
    assert "not kept over closing" in fault.sentence


def test_an_exception_is_found_and_its_list_made_short(runs: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(_: TrayEdits) -> None:
        raise LookupError("as if by mistake")

    monkeypatch.setattr(TrayEdits, "repeat", fail)
    events = (*_TYPED, Event(Does.KEY, "Ctrl+D"), Event(Does.KEY, "Tab"))
    fault = runs.first_fault(events)
    assert fault is not None
    assert "as if by mistake" in fault.sentence
    least = event_runs.shortest(fault, runs.first_fault)
    assert least.events == (Event(Does.KEY, "Ctrl+D"),)


def test_the_shortest_list_is_one_that_leads_there() -> None:
    """Two events far apart that fail together only; no window is needed to look for them."""
    events = tuple(Event(Does.KEY, str(n)) for n in range(40))

    def play(played: object) -> Fault | None:
        assert isinstance(played, tuple)
        return Fault("both", played) if {events[3], events[31]} <= set(played) else None

    assert event_runs.shortest(Fault("both", events), play).events == (events[3], events[31])


def test_events_are_the_same_for_a_seed_and_read_back_as_themselves() -> None:
    events = event_choice.drawn("counter", 200, SEED)
    assert events == event_choice.drawn("counter", 200, SEED)
    assert events != event_choice.drawn("counter", 200, SEED + 1)
    assert of_lines(to_lines(events)) == events
