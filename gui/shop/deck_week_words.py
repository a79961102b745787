"""The deck week in words: for a screen reader, and the legend below the picture."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from PySide6.QtWidgets import QWidget

from core.scheduling.deck_week import DeckRuns, Run, Week
from core.wording.locale_figures import listed, tape_code
from gui.toolkit.text import say, short_day, time_of_day
from gui.widgets.layouts import words


def in_words(week: Week) -> str:
    """The whole picture, one line a deck."""
    return "\n".join(_deck(each) for each in week.timelines)


def legend() -> QWidget:
    """What the signs of the picture mean."""
    return words(say("shop", "legend"), "small")


def _deck(timeline: DeckRuns) -> str:
    told = [_run(run) for run in timeline.runs] + [_outage(*outage) for outage in timeline.out]
    nothing = say("shop", "idle" if timeline.deck.in_service else "out_of_service")
    return say("shop", "deck_told", deck=timeline.deck.name, told=listed(told, "unit") or nothing)


def _run(run: Run) -> str:
    return say(
        "shop",
        "run",
        tape=tape_code(run.tape.code),
        day=short_day(run.start.date()),
        start=time_of_day(run.start),
        early=time_of_day(run.early),
        late=time_of_day(run.late),
    )


def _outage(begins: datetime, ends: datetime) -> str:
    return say("shop", "planned_out", begins=short_day(begins.date()), ends=short_day(_last_day(ends)))


def _last_day(ends: datetime) -> date:
    """The last day of a time that ends at midnight."""
    return (ends - timedelta(seconds=1)).date()
