"""The checklist of a pickup: what can go, what is checked off, whose label is to be seen to."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.stations import Station
from gui.pickup.checklist import Checklist
from gui.widgets.tray_rows import copy_key
from tests.support import invented_job


@pytest.fixture
def job() -> Job:
    """Tapes ready to go, the first two not for reuse and without their label; the last one is playing."""
    made = invented_job.job()
    ready = [replace(tape, station=Station.READY, not_for_reuse=False, marked_at=None) for tape in made.tapes]
    for place in (0, 1):
        ready[place] = replace(ready[place], not_for_reuse=True)
    ready[-1] = replace(ready[-1], station=Station.PLAYING)
    copies = tuple(replace(copy, handed_back_at=None) for copy in made.copies)
    return replace(made, tapes=tuple(ready), copies=copies)


def test_what_can_go_is_every_ready_tape_and_every_copy(job: Job) -> None:
    keys = [tape.code for tape in job.tapes[:-1]] + [copy_key(copy) for copy in job.copies]
    assert Checklist(job).open_keys == tuple(keys)
    assert Checklist(job).checked(job.tapes[-1].code) is None


def test_the_summary_counts_tapes_and_copies_apart(job: Job) -> None:
    empty = Checklist(job)
    assert empty.summary == ""
    assert empty.toggle(job.tapes[0].code).summary == "1 tape"
    both = empty.toggle(job.tapes[0].code).toggle(job.tapes[1].code).toggle(copy_key(job.copies[0]))
    assert both.summary == "2 tapes and 1 copy"


def test_a_second_toggle_takes_the_check_back_and_a_tape_that_stays_gets_none(job: Job) -> None:
    first, playing = job.tapes[0].code, job.tapes[-1].code
    assert Checklist(job).toggle(first).toggle(first) == Checklist(job)
    assert Checklist(job).toggle(playing) == Checklist(job)


def test_a_second_scan_keeps_the_check(job: Job) -> None:
    first = job.tapes[0].code
    assert Checklist(job).scan(first).scan(first).codes == (first,)


def test_a_scan_says_what_is_wrong_with_the_tape(job: Job) -> None:
    with pytest.raises(Refused, match=r"is playing, not ready to go"):
        Checklist(job).scan(job.tapes[-1].code)
    with pytest.raises(Refused, match=r"belongs to order 999999, not to order"):
        Checklist(job).scan("9999990018")
    with pytest.raises(WrongInput, match="has no such tape"):
        Checklist(job).scan(f"{job.number}9990")


def test_what_has_gone_meanwhile_is_no_longer_checked_off(job: Job) -> None:
    first, second = (tape.code for tape in job.tapes[:2])
    checked = Checklist(job).scan(first).scan(second)
    gone = replace(job.tapes[0], station=Station.HANDED_BACK)
    renewed = checked.renewed(replace(job, tapes=(gone, *job.tapes[1:])))
    assert renewed.codes == (second,)
    assert renewed.has_gone


def test_a_missing_label_comes_before_a_stray_one_and_the_current_tape_before_the_first(job: Job) -> None:
    first, second, third = job.tapes[:3]
    stray = replace(third, label_astray=True)
    checklist = Checklist(replace(job, tapes=(first, second, stray, *job.tapes[3:])))
    assert checklist.label_to_check() == first
    assert checklist.label_to_check(second.code) == second
    assert checklist.label_to_check(stray.code) == first
    labelled = tuple(replace(tape, marked_at=invented_job.PICKED_UP_AT) for tape in (first, second))
    assert Checklist(replace(job, tapes=(*labelled, stray))).label_to_check() == stray
    assert Checklist(replace(job, tapes=labelled)).label_to_check() is None
