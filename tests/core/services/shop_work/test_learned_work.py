"""What a real shop's history shows of its work goes into its dates, and nothing else does."""

from __future__ import annotations

import logging
import shutil
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from core.cli import json_answers, plain_answers
from core.model import numbers
from core.model.own_shop.work_habits import NO_HABITS
from core.model.stations import Station
from core.scheduling.worktime.work_evidence import WorkEvidence
from core.services import event_counts, jobs, promises, shop_overview, tapes
from core.services.own_shop import settings_effects, shop_document
from core.services.shop_work import history_acts, learned_work
from core.store import current_settings
from core.store.unit import Unit
from tests.support.beginnings import begun_file, begun_server
from tests.support.booked import Desk, line, opened
from tests.support.named_everywhere import erase, price_due

TAPES = (12, 8)
"""Of the first order and of the second."""
NUMBERS = (numbers.job_number(1), numbers.job_number(2))
TAKES = {
    Station.LOOKED_OVER: 10.0,
    Station.CLEARED_TO_PLAY: 0.2,
    Station.PLAYING: 6.0,
    Station.BEING_CHECKED: 44.0,
    Station.READY: 16.0,
}
"""Minutes from one record to the next: twice what is planned, after forty of play before it is unloaded."""


def _slow_days(desk: Desk) -> None:
    """Two orders, each cassette after the other through the hands of one person, on two days."""
    desk.writes_copies = False
    for who, name, count in zip(("Kim", "Bo"), ("Ada Fenwick", "Zebedee Quill"), TAPES, strict=True):
        job = desk.book(line(count=count), name=name)
        desk.shop.who = who
        for tape in job.tapes:
            for station, minutes in TAKES.items():
                desk.clock.go_on(minutes=minutes)
                played = 40.0 if station is Station.BEING_CHECKED else None
                desk.shop.run(tapes.move, tape.code, station, minutes=played)
            if desk.clock.now.hour >= 20:  # three in New York
                desk.clock.now = (desk.clock.now + timedelta(days=1)).replace(hour=15)
        desk.clock.now = (desk.clock.now + timedelta(days=1)).replace(hour=15)


begun_file = begun_file(_slow_days)
begun_server = begun_server(_slow_days)


def found(desk: Desk) -> dict[str, WorkEvidence]:
    return {one.kind: one for one in desk.shop.ask(learned_work.evidence)}


@pytest.fixture(autouse=True)
def _later(desk: Desk) -> None:
    desk.clock.go_on(days=20)


def test_what_people_take_is_what_dates_are_made_with(desk: Desk) -> None:
    plan, states = desk.shop.ask(promises.reckoned), desk.shop.ask(current_settings.read)
    assert states.handling.check == 8.0
    assert plan.handling.look_over == pytest.approx(10, rel=0.1)
    assert plan.handling.load == pytest.approx(6, rel=0.1)
    assert plan.handling.unload == pytest.approx(4, rel=0.1)
    assert plan.handling.check == pytest.approx(16, rel=0.1)


def test_what_is_stated_anew_is_where_counting_begins(desk: Desk) -> None:
    """The same history beside another figure: some eighteen checks outweigh what is worth two."""
    desk.shop.run(shop_document.set_texts, [("handling.check", "16")])
    assert desk.shop.ask(promises.reckoned).handling.check == pytest.approx(16, rel=0.05)
    effects = desk.shop.ask(settings_effects.of, desk.shop.ask(current_settings.read))
    assert not effects.moved


def test_the_owner_reads_what_was_stated_and_what_was_counted(desk: Desk) -> None:
    check = found(desk)["check"]
    assert (check.at_first, check.now) == (8.0, pytest.approx(16, rel=0.1))
    assert 15 < check.told <= check.seen <= sum(TAPES)
    assert "you stated 8" in " ".join(check.lines)
    view = desk.shop.ask(shop_overview.read)
    assert {one.kind for one in view.work} == {one.kind for one in found(desk).values()}
    told = json_answers.work(view.work)["work"]
    assert {"kind", "about", "at_first", "now", "seen", "told", "lines"} == set(told[0])
    assert "you stated 8" in plain_answers.work(view.work)


def test_a_date_that_was_given_stays(desk: Desk) -> None:
    """The second order was promised before most was seen."""
    given = [desk.shop.ask(jobs.get, number) for number in NUMBERS]
    assert desk.shop.ask(promises.reckoned).handling.check > 14
    assert [job.promise for job in given] == [job.quote.promise for job in given]


def test_who_was_erased_is_not_needed_and_not_missed(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another till, which has read the history before, forgets as well."""
    monkeypatch.setattr(history_acts, "_PACE", 1)
    before, memory = desk.shop.ask(promises.reckoned).handling, dict[str, object]()
    desk.shop.ask(_read_with, memory)
    job = desk.write_copies(NUMBERS[1])
    owed = desk.shop.ask(price_due, job.number) - job.paid_minor
    desk.hand_back(job, paid_minor=owed)
    desk.clock.go_on(days=400)
    erase(desk.shop, "Zebedee Quill")
    after = desk.shop.ask(promises.reckoned).handling
    assert after.check == pytest.approx(before.check, rel=0.1)
    assert desk.shop.ask(_read_with, memory).acts == desk.shop.ask(_read_with, {}).acts


def _read(unit: Unit) -> history_acts.History:
    return history_acts.read(unit, current_settings.read(unit))


def _read_with(unit: Unit, memory: dict[str, object]) -> history_acts.History:
    return _read(replace(unit, memory=memory))


def test_acts_bear_no_word_about_a_customer_and_nothing_is_logged(
    desk: Desk, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.DEBUG):
        acts = desk.shop.ask(_read_with, {}).acts
        desk.shop.ask(learned_work.evidence)
    assert len(acts) > 80
    words = f"{acts}{caplog.text}"
    assert not [name for name in ("Fenwick", "Zebedee", "555-0142") if name in words]
    assert "Kim" not in caplog.text


def test_it_is_worked_out_once_for_all_who_ask(desk: Desk) -> None:
    assert desk.shop.ask(_learned) is desk.shop.ask(_learned)
    assert desk.shop.ask(_read) is desk.shop.ask(_read)


def _learned(unit: Unit) -> object:
    return learned_work.read(unit, current_settings.read(unit))


def test_people_are_told_by_name_only_to_whoever_may_see_reports(desk: Desk) -> None:
    boss = '{may = ["settings", "reports"]}'
    desk.shop.run(shop_document.set_texts, [("person.Bo", boss), ("person.Kim", "{}")])
    told = {}
    for who in ("Bo", "Kim"):
        desk.shop.who = who
        told[who] = [one.about for one in desk.shop.ask(learned_work.evidence) if one.kind == "person"]
    assert told == {"Bo": ["Bo", "Kim"], "Kim": []}


def test_a_new_shop_plans_as_it_states(empty_file: Path, tmp_path: Path) -> None:
    with opened(str(shutil.copy(empty_file, tmp_path / "new.sqlite")), "sqlite") as new:
        plan, states = new.shop.ask(promises.reckoned), new.shop.ask(current_settings.read)
        assert (plan.handling, plan.copying, plan.worked) == (states.handling, states.copying, NO_HABITS)
        assert plan == new.shop.ask(event_counts.reckoned)
