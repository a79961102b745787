"""Each ordered copy is made, checked and handed over; what is on it is known, wrong entries struck out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model import box_standing
from core.model.copies import copy_standing
from core.model.copies.copy_records import CopiedFile, CopyState
from core.model.dispositions import Disposition
from core.model.errors import Refused, WrongInput
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.stations import Station
from core.services import calls, jobs, recordings, tape_dispositions, tapes
from core.services.after_ready import telling
from core.services.agreement import agreement_versions
from core.services.copies import copy_making, unfinished_copies
from tests.core.capture.copied_file import FILE, sign
from tests.support.behind import behind
from tests.support.booked import Desk, command, line

USB = Delivery("files", "h264", "usb")
DVD = Delivery("dvd")


@pytest.fixture
def working(desk: Desk) -> Desk:
    """A shop in which nobody makes the copies unless a test does."""
    return replace(desk, writes_copies=False)


def _done(desk: Desk, count: int = 2, ready: int | None = None, **changes: object) -> Job:
    job = desk.book(line(count=count), **changes)
    for tape in job.tapes[: count if ready is None else ready]:
        desk.bring_to(tape, Station.READY, minutes=60)
    return desk.shop.ask(jobs.get, job.number)


def test_an_order_is_not_all_ready_before_its_copies_are_checked(working: Desk) -> None:
    job = _done(working)
    (copy,) = job.copies
    assert (copy.state, copy.pieces, copy.delivery) == (CopyState.TO_MAKE, 1, USB)
    assert copy_standing.are_being_written(job)
    assert not box_standing.may_be_collected(job)
    assert not box_standing.waits_for_owner(job)
    with pytest.raises(Refused, match="a copy is not done"):
        working.shop.ask(telling.one, job.number)
    (said,) = working.shop.ask(calls.status, job.number)
    assert "copies are being written" in said.spoken
    made = working.shop.run(copy_making.made, job.number, copy.id)
    assert made.copies[0].state is CopyState.MADE
    assert not box_standing.may_be_collected(made)
    checked = working.shop.run(copy_making.checked, job.number, copy.id)
    assert box_standing.may_be_collected(checked)
    assert box_standing.waits_for_owner(checked)
    assert working.shop.ask(telling.one, job.number).job == checked
    (said,) = working.shop.ask(calls.status, job.number)
    assert "being written" not in said.spoken
    assert working.shop.verify() == ()


def test_what_is_on_a_copy_is_known_with_files_and_checksums(working: Desk) -> None:
    job = working.book(line(count=2))
    for tape in job.tapes:
        working.bring_to(tape, Station.BEING_CHECKED, minutes=60)
        file = replace(FILE, name=f"{tape.code}.mp4", sha256=tape.code.rjust(64, "0"))
        working.shop.run(recordings.attach, tape.code, file)
        sign(working, tape.code)
        working.shop.run(tapes.move, tape.code, Station.READY)
    made = working.shop.run(copy_making.made, job.number, job.copies[0].id).copies[0]
    assert made.made is not None
    assert (made.made.by, made.made.at) == ("Kim", working.clock())
    assert made.contents.tapes == tuple(tape.code for tape in job.tapes)
    assert [each.tape for each in made.contents.files] == [tape.code for tape in job.tapes]
    assert [each.name for each in made.contents.files] == [f"{tape.code}.mp4" for tape in job.tapes]


def test_a_copy_read_back_must_hold_the_files_it_was_made_with(working: Desk) -> None:
    job = _done(working, count=1)
    right, wrong = CopiedFile("one.mp4", 10, "a" * 64), CopiedFile("one.mp4", 10, "b" * 64)
    item = job.copies[0].id
    working.shop.run(copy_making.made, job.number, item, files=[right])
    for read, named in (([], "one.mp4 is not on"), ([right, wrong], "not one it was made with")):
        with pytest.raises(Refused, match=named):
            working.shop.run(copy_making.checked, job.number, item, files=read)
    assert working.shop.run(copy_making.checked, job.number, item, files=[right]).copies[0].checked


def test_a_copy_is_checked_only_once_it_is_made(working: Desk) -> None:
    job = _done(working)
    item = job.copies[0].id
    with pytest.raises(Refused, match="not made yet"):
        working.shop.run(copy_making.checked, job.number, item)
    with pytest.raises(WrongInput, match="copy"):
        working.shop.run(copy_making.made, job.number, item + 99)
    working.shop.run(copy_making.made, job.number, item)
    working.shop.run(copy_making.checked, job.number, item)
    with pytest.raises(Refused, match="checked already"):
        working.shop.run(copy_making.checked, job.number, item)


def test_only_copied_tapes_go_onto_a_copy(working: Desk) -> None:
    job = _done(working, count=2, ready=1)
    first, second = (tape.code for tape in job.tapes)
    item = job.copies[0].id
    with pytest.raises(Refused, match="is not copied"):
        working.shop.run(copy_making.made, job.number, item, tapes=[first, second])
    other = _done(working, count=1)
    with pytest.raises(Refused, match="not in the agreement"):
        working.shop.run(copy_making.made, job.number, item, tapes=[other.tapes[0].code])
    assert working.shop.run(copy_making.made, job.number, item).copies[0].contents.tapes == (first,)


def test_nothing_can_be_made_of_an_order_of_which_nothing_is_copied(working: Desk) -> None:
    job = working.book(line(count=1))
    with pytest.raises(Refused, match="nothing to put on it"):
        working.shop.run(copy_making.made, job.number, job.copies[0].id)


def test_what_was_entered_by_mistake_is_struck_out_with_the_reason(working: Desk) -> None:
    job = _done(working)
    item = job.copies[0].id
    with pytest.raises(Refused, match="Nothing was entered"):
        working.shop.run(copy_making.strike, job.number, item, because="wrong order")
    working.shop.run(copy_making.made, job.number, item)
    working.shop.run(copy_making.checked, job.number, item)
    with pytest.raises(WrongInput):
        working.shop.run(copy_making.strike, job.number, item, because=" ")
    unchecked = working.shop.run(copy_making.strike, job.number, item, because="not read back").copies[0]
    assert (unchecked.state, unchecked.steps[-1].reason) == (CopyState.MADE, "not read back")
    unmade = working.shop.run(copy_making.strike, job.number, item, because="another order").copies[0]
    assert unmade.state is CopyState.TO_MAKE
    assert len(unmade.steps) == 4
    assert working.shop.verify() == ()


def test_a_command_is_carried_out_once_and_bound_to_what_it_asked_for(working: Desk) -> None:
    job = _done(working)
    item, once = job.copies[0].id, command()
    first = working.shop.once(once, copy_making.made, job.number, item).answer
    assert working.shop.once(once, copy_making.made, job.number, item).answer == first
    with pytest.raises(Refused, match="used for something else"):
        working.shop.once(once, copy_making.made, job.number, item, tapes=[job.tapes[0].code])


def test_the_steps_of_a_copy_are_never_changed(working: Desk) -> None:
    job = _done(working)
    working.shop.run(copy_making.made, job.number, job.copies[0].id)
    for change in ("UPDATE copy_steps SET reason = 'x'", "DELETE FROM copy_steps"):
        with (
            pytest.raises(Exception, match="append-only"),
            working.shop.database.writing.begin() as connection,
        ):
            connection.execute(behind(change))


# --- handing over ------------------------------------------------------------------------


def test_a_stick_with_one_of_four_tapes_stays_until_the_others_are_settled(working: Desk) -> None:
    job = _done(working, count=4, ready=1)
    item = job.copies[0].id
    working.shop.run(copy_making.made, job.number, item)
    working.shop.run(copy_making.checked, job.number, item)
    with pytest.raises(Refused, match="are not on it"):
        working.hand_back(job, [job.tapes[0].code], copies=[item])
    for tape in job.tapes[1:]:
        working.shop.run(tape_dispositions.settle, tape.code, Disposition.NOT_WANTED)
    pickup = working.hand_back(job)
    assert [copy.id for copy in pickup.copies] == [item]
    found = working.shop.ask(agreement_versions.versions, job.number)
    assert found[-1].kind.value == "settled"


def test_a_copy_may_go_with_some_tapes_and_the_rest_is_made_without_charge(working: Desk) -> None:
    job = _done(working, count=2, ready=1)
    first, second = job.tapes
    item = job.copies[0].id
    working.shop.run(copy_making.made, job.number, item)
    working.shop.run(copy_making.checked, job.number, item)
    before = working.shop.ask(jobs.reprice, job.number)
    pickup = working.hand_back(job, [first.code], copies=[item], partly=True)
    assert pickup.copies[0].contents.tapes == (first.code,)
    assert pickup.final == before
    rest = pickup.job.copies[-1] if len(pickup.job.copies) > 1 else None
    rest = rest or working.shop.ask(jobs.get, job.number).copies[-1]
    assert rest.follows == item
    working.bring_to(second, Station.READY, minutes=60)
    made = working.shop.run(copy_making.made, job.number, rest.id).copies[-1]
    assert made.contents.tapes == (second.code,)
    working.shop.run(copy_making.checked, job.number, rest.id)
    last = working.hand_back(job)
    assert [copy.id for copy in last.copies] == [rest.id]
    charged = [each for each in last.final.charges if each.code.startswith("media") or "usb" in each.code]
    assert len(charged) == 1
    assert charged[0].quantity.startswith("1")
    assert working.shop.verify() == ()


def test_a_copy_not_made_or_not_checked_is_not_handed_over(working: Desk) -> None:
    job = _done(working)
    item = job.copies[0].id
    with pytest.raises(Refused, match=f"copy-made {job.number} {item}"):
        working.hand_back(job, copies=[item])
    working.shop.run(copy_making.made, job.number, item)
    with pytest.raises(Refused, match=f"copy-checked {job.number} {item}"):
        working.hand_back(job, copies=[item], partly=True)
    assert working.hand_back(job).copies == ()
    found = working.shop.ask(agreement_versions.versions, job.number)
    assert found[-1].kind.value != "settled"


def test_copies_of_an_order_of_which_nothing_was_copied_are_neither_made_nor_charged(working: Desk) -> None:
    job = working.book(line(count=1))
    settled = working.shop.run(tape_dispositions.settle, job.tapes[0].code, Disposition.NOTHING_ON_IT)
    assert settled.station is Station.READY
    price = working.shop.ask(jobs.reprice, job.number)
    assert not any(each.code == job.copies[0].code for each in price.charges)
    working.hand_back(job)
    found = working.shop.ask(agreement_versions.versions, job.number)
    assert found[-1].kind.value == "settled"


def test_sets_for_relatives_are_items_of_their_own(working: Desk) -> None:
    job = _done(working, count=2, deliver=(USB, DVD, DVD, DVD))
    assert [(copy.code, copy.pieces) for copy in job.copies] == [("usb-16", 1), *[("dvd-r", 2)] * 3]
    price = working.shop.ask(jobs.reprice, job.number)
    (discs,) = (each for each in price.charges if "dvd-r" in each.code)
    assert discs.quantity.startswith("6")
    assert job in working.shop.ask(unfinished_copies.orders)
    for copy in job.copies[:2]:
        working.shop.run(copy_making.made, job.number, copy.id)
        working.shop.run(copy_making.checked, job.number, copy.id)
    assert len(working.hand_back(job).copies) == 2
