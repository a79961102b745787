"""How far a look-over came, without a window."""

from __future__ import annotations

import pytest

from core.catalogue import inspection
from core.model.names import Finding, FormatName
from gui.inspection.look_progress import LookProgress

VHS = FormatName("vhs")


@pytest.fixture
def begun() -> LookProgress:
    return LookProgress(inspection.steps(VHS))


def test_it_goes_step_by_step_to_the_end(begun: LookProgress) -> None:
    progress = begun
    for step in begun.steps:
        assert progress.step is step
        progress = progress.advanced()
    assert progress.step is None
    assert progress.result(VHS, "").looked == len(begun.steps)


def test_a_finding_that_stops_leads_to_the_end_and_back_to_its_step(begun: LookProgress) -> None:
    stopping = next(step for step in begun.steps if step.stop)
    at = begun.at_step(stopping.key).marked(stopping.looks_for[0], seen=True)
    ended = at.advanced()
    assert ended.step is None
    assert ended.stop == stopping.stop
    assert ended.stepped_back().step is stopping


def test_a_finding_taken_back_stops_nothing(begun: LookProgress) -> None:
    stopping = next(step for step in begun.steps if step.stop)
    found = stopping.looks_for[0]
    at = begun.at_step(stopping.key).marked(found, seen=True).marked(found, seen=False)
    assert not at.has_finding_here
    assert at.advanced().step is not None


def test_going_back_never_passes_the_first_step_nor_forgets_how_far_it_came(begun: LookProgress) -> None:
    twice = begun.advanced().advanced()
    back = twice.stepped_back().stepped_back().stepped_back()
    assert back.step is begun.steps[0]
    assert back.result(VHS, "").looked == 2


def test_what_changes_most_is_told_first(begun: LookProgress) -> None:
    progress = begun.marked(Finding.SCRATCHED, seen=True).marked(Finding.SNAPPED, seen=True)
    ranked = inspection.ranked(progress.found, VHS)
    assert progress.result(VHS, "").findings == tuple(each.finding for each in ranked)
