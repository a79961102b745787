"""Booked in the evening: every place of the window says the same day, the shop's own."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.services import calls
from core.wording import shop_clock
from core.wording.messages import say
from gui.phone.answer_slip import AnswerSlip
from gui.toolkit import text, theme
from gui.widgets.slip import Slip
from tests.support.booked import Desk, line, quoted
from tests.support.screens import written

LATE = datetime(2026, 3, 3, 3, 30, tzinfo=UTC)
"""10:30 PM on Monday, March 2 in New York."""
MONDAY = datetime(2026, 3, 2).date()


@pytest.fixture(autouse=True)
def in_new_york(qapp: QApplication) -> None:
    theme.apply(qapp)
    shop_clock.use("America/New_York")


def test_the_slip_of_an_order_and_of_its_quote_say_one_day(qtbot: QtBot, file_desk: Desk) -> None:
    """Seen red: *quote of Mon, Mar 2* and *booked Tue, Mar 3*."""
    file_desk.clock.now = LATE
    quote, job = quoted(file_desk.shop, line()), file_desk.book(line())
    slip = Slip()
    qtbot.addWidget(slip)
    slip.show_quote(quote)
    until = text.short_day(quote.valid_until)
    assert say("slip", "quoted", day=text.short_day(MONDAY), until=until) in written(slip)
    slip.show_job(job)
    assert say("slip", "booked", day=text.short_day(MONDAY)) in written(slip)


def test_what_was_agreed_that_evening_is_told_to_a_caller_as_of_that_evening(
    qtbot: QtBot, file_desk: Desk
) -> None:
    """Seen red: *Tue, Mar 3*."""
    file_desk.clock.now = LATE
    job = file_desk.allow(file_desk.book(line()))
    answer = AnswerSlip()
    qtbot.addWidget(answer)
    (found,) = file_desk.shop.ask(calls.status, job.number)
    answer.show_match(found)
    (agreed,) = job.agreements[-1:]
    assert say(
        "phone", "agreed_line", who=agreed.who_agreed, day=text.short_day(MONDAY), what=agreed.words
    ) in (written(answer))
