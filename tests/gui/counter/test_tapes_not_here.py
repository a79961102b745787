"""On the Counter: a marking by rule is typed and told, and what no machine plays stands apart, unpriced."""

from __future__ import annotations

import pytest

from core.model.names import JobNumber
from core.services import jobs
from core.wording.messages import say
from gui.bench.bench_screen import BenchScreen
from gui.counter import accepted_words
from gui.tables import choices
from tests.support.counting import Clerk, clerk_at
from tests.support.screens import Place, written


@pytest.fixture
def clerk(place: Place) -> Clerk:
    return clerk_at(place)


def test_a_tape_nobody_here_can_play_stands_on_the_slip_without_a_price(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh", marking="t120")
    place.settle()
    before = clerk.price
    clerk.count(format="u-m")
    place.settle()

    assert clerk.price == before
    rows = clerk.counter.parts.rows
    assert rows.columns[8].show(rows.rows[1]) == say("counter", "aside_not-here")
    slip = clerk.counter.parts.slip
    assert say("slip", "apart", count=1, format="U-matic") in slip.accessibleDescription()


def test_a_marking_of_no_list_is_typed_and_stays(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh", marking="t20")
    place.settle()

    assert "T-20" in clerk.cell_texts[0]
    assert clerk.price


def test_what_was_typed_in_full_is_offered_before_what_only_begins_so() -> None:
    offered = choices.matching(accepted_words.markings_offered("VHS"), "t-20")
    assert [choice.words for choice in offered][:2] == ["T-20", "T-200"]
    assert choices.matching(accepted_words.markings_offered("VHS"), "t-12")[1].words == "T-120"


def test_once_booked_the_bench_says_that_no_machine_here_plays_it(clerk: Clerk, place: Place) -> None:
    clerk.count(format="u-m")
    clerk.name_the_customer("Ada Fenwick")
    clerk.say_and_tick()
    clerk.book()
    job = place.records.shop.ask(jobs.get, JobNumber("000018"))
    (tape,) = job.tapes
    screen = place.turn_to(BenchScreen)
    screen.take(tape.code)
    place.settle()

    assert job.promise.day is None
    assert job.quote.price.gross.high == 0
    assert say("dates", "not_here_plays", what="U-matic") in written(screen.card)
