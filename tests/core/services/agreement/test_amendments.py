"""A booked order opened again: what changes, what stays, what is refused, and what each version says."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from core.model.agreement_records import AgreementKind, Consent
from core.model.errors import Conflict, Refused, WrongInput
from core.model.inventory import CustomerDraft, Delivery, Inventory
from core.model.job_records import Job
from core.model.names import CommandId, Finding, JobNumber, Join, TapeCode
from core.model.stations import Station
from core.pricing.agreement_differences import AgreementPart
from core.pricing.amendment_records import Amended, Amendment
from core.services import jobs, promise_entries, repair_record, tapes
from core.services.agreement import agreement_versions, amendments, cancellations
from tests.support.booked import Desk, command, inventory, line

ADA = Consent("Ada Fenwick")


def _amend(desk: Desk, job: Job, box: Inventory, *codes: tuple[TapeCode, ...], **more: object) -> Amended:
    asked = {"reason": "on the phone", "consent": ADA, "sent": command()} | more
    sent, wanted = CommandId(str(asked.pop("sent"))), Amendment(box, codes)
    return desk.shop.once(sent, amendments.amend, job.number, wanted, **asked).answer  # type: ignore[arg-type]


def _parts(amended: Amended) -> list[AgreementPart]:
    return [each.part for each in amended.differences]


def test_one_tape_more_gets_the_next_code_and_the_price_of_the_book(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.clock.go_on(days=1)
    amended = _amend(desk, job, inventory(line(count=3)))
    codes = [each.code for each in amended.job.tapes]
    assert codes[:2] == [each.code for each in job.tapes]
    assert codes[2] == "0000180039"
    assert amended.job.tapes[2].station is Station.BOOKED_IN
    dearer = desk.book(line(count=3)).quote.price
    assert amended.job.quote.price.gross == dearer.gross
    assert amended.version.ceiling_minor == dearer.ceiling_minor
    assert amended.job.ceiling_minor == dearer.ceiling_minor
    assert (amended.version.number, amended.version.kind) == (2, AgreementKind.REVISED)
    assert AgreementPart.TAPE_ADDED in _parts(amended)
    assert AgreementPart.CEILING in _parts(amended)
    assert len(desk.shop.ask(promise_entries.said, job.number)) == 2
    assert desk.shop.verify() == ()


def test_nothing_differs_when_nothing_is_changed(desk: Desk) -> None:
    job = desk.book(line(count=2), line("hi8", marking="P6-120"))
    desk.clock.go_on(days=1)
    amended = _amend(desk, job, inventory(line(count=2), line("hi8", marking="P6-120")))
    assert [part for part in _parts(amended) if part is not AgreementPart.DATE] == []
    assert amended.job.ceiling_minor == job.ceiling_minor
    assert [copy.id for copy in amended.job.copies] == [copy.id for copy in job.copies]


def test_a_tape_taken_out_waits_for_its_owner_and_costs_nothing(desk: Desk) -> None:
    job = desk.book(line(count=3))
    desk.bring_to(job.tapes[1], Station.CLEARED_TO_PLAY)
    amended = _amend(desk, job, inventory(line(count=2)))
    gone = [each for each in amended.job.tapes if each.left_out_in is not None]
    assert [each.code for each in gone] == [job.tapes[2].code]
    assert gone[0].station is Station.READY
    two = desk.book(line(count=2)).quote.price
    assert amended.job.quote.price.gross == two.gross
    assert desk.hand_back(amended.job, [gone[0].code]).handed_back[0].code == gone[0].code


def test_tapes_are_described_anew_without_a_new_code(desk: Desk) -> None:
    job = desk.book(line(count=1), line(count=1, marking="T-160"))
    box = inventory(line(count=1, marking="T-180"), line(count=1, marking="T-160"))
    amended = _amend(desk, job, box)
    assert [each.code for each in amended.job.tapes] == [each.code for each in job.tapes]
    assert amended.job.tapes[0].draft.marking == "T-180"
    assert amended.job.tapes[0].minutes.likely > job.tapes[0].minutes.likely
    assert _parts(amended)[0] is AgreementPart.TAPE_DESCRIBED


def test_a_line_may_name_its_cassettes(desk: Desk) -> None:
    job = desk.book(line(count=2))
    second = job.tapes[1].code
    amended = _amend(desk, job, inventory(line("vhs-c", marking="TC-30")), (second,))
    assert amended.job.tapes[0].left_out_in == 2
    assert amended.job.tapes[1].format == "vhs-c"


def test_a_code_of_another_order_is_refused(desk: Desk) -> None:
    job, other = desk.book(line()), desk.book(line())
    with pytest.raises(Refused, match="not in the agreement of order"):
        _amend(desk, job, inventory(line()), (other.tapes[0].code,))
    twice = desk.book(line(count=2))
    with pytest.raises(WrongInput, match="1 code at most"):
        _amend(desk, twice, inventory(line()), tuple(each.code for each in twice.tapes))


def test_a_copied_tape_stays(desk: Desk) -> None:
    job = desk.book(line(count=2))
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY, minutes=60)
    before = desk.shop.ask(jobs.get, job.number)
    with pytest.raises(Refused, match="is copied already"):
        _amend(desk, job, inventory(line()))
    assert desk.shop.ask(jobs.get, job.number) == before


def test_a_spliced_tape_may_be_taken_out_and_keeps_its_label(desk: Desk) -> None:
    job = desk.book(line(), line("vhs-c", marking="TC-30"))
    desk.shop.run(repair_record.splice, job.tapes[0].code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    amended = _amend(desk, job, inventory(line("vhs-c", marking="TC-30")))
    out = amended.job.tapes[0]
    assert (out.left_out_in, out.not_for_reuse, len(out.splices)) == (2, True, 1)


def test_what_was_found_at_the_bench_stays_found(desk: Desk) -> None:
    job = desk.book(line(count=1), line(count=1))
    desk.shop.run(repair_record.find, job.tapes[0].code, [Finding.SHELL_BROKEN])
    amended = _amend(desk, job, inventory(line(count=1, marking="T-160"), line(count=1)))
    assert amended.job.tapes[0].findings == (Finding.SHELL_BROKEN,)


def test_rush_wish_copies_and_customer_change_as_well(desk: Desk) -> None:
    job = desk.book(line(count=2))
    box = replace(
        inventory(line(count=2), name="Bo Fenwick", phone="(303) 555-0199"),
        rush=True,
        needed_by=date(2026, 4, 1),
        deliver=(Delivery("dvd"),),
    )
    amended = _amend(desk, job, box)
    assert amended.job.rush
    assert amended.job.customer.name == "Bo Fenwick"
    assert {each.code for each in amended.job.copies} == {"dvd-r"}
    assert {
        AgreementPart.COPIES,
        AgreementPart.RUSH,
        AgreementPart.WISH,
        AgreementPart.CUSTOMER,
        AgreementPart.TOTAL,
    } <= set(_parts(amended))


def test_two_people_with_one_phone_stay_two(desk: Desk) -> None:
    job, other = desk.book(line(), name="Ada Fenwick"), desk.book(line(), name="Bo Fenwick")
    _amend(desk, job, replace(inventory(line()), customer=CustomerDraft("Bo Fenwick", "(303) 555-0142")))
    assert desk.shop.ask(jobs.get, job.number).customer.name == "Bo Fenwick"
    assert desk.shop.ask(jobs.get, other.number).customer.name == "Bo Fenwick"


def test_the_same_command_is_carried_out_once(desk: Desk) -> None:
    job = desk.book(line(count=2))
    sent = command()
    first = _amend(desk, job, inventory(line(count=3)), sent=sent)
    again = _amend(desk, job, inventory(line(count=3)), sent=sent)
    assert again == first
    with pytest.raises(Refused, match="used for something else"):
        _amend(desk, job, inventory(line(count=4)), sent=sent)
    with pytest.raises(Refused, match="used for something else"):
        desk.shop.once(sent, cancellations.cancel, job.number, None, reason="no", consent=ADA)


def test_a_second_clerk_hears_that_somebody_was_faster(desk: Desk) -> None:
    job = desk.book(line(count=2))
    _amend(desk, job, inventory(line(count=3)), based_on=1)
    with pytest.raises(Conflict, match=r"Kim changed the agreement .* \(version 2\)"):
        _amend(desk, job, inventory(line(count=4)), based_on=1)


def test_a_change_says_why_and_who_agreed(desk: Desk) -> None:
    job = desk.book(line(count=2))
    for reason, consent in (("", ADA), ("more tapes", Consent(" "))):
        with pytest.raises(WrongInput):
            _amend(desk, job, inventory(line(count=3)), reason=reason, consent=consent)
    assert len(desk.shop.ask(agreement_versions.versions, job.number)) == 1


def test_what_is_home_is_not_amended(desk: Desk) -> None:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY, minutes=60)
    desk.hand_back(job)
    assert desk.shop.ask(agreement_versions.versions, job.number)[-1].kind is AgreementKind.SETTLED
    with pytest.raises(Refused, match="nothing to change"):
        _amend(desk, job, inventory(line(count=2)))


# --- calling off -------------------------------------------------------------------------


def test_a_whole_order_is_called_off(desk: Desk) -> None:
    job = desk.book(line(count=2))
    off = desk.shop.run(cancellations.cancel, job.number, None, reason="changed my mind", consent=ADA)
    assert {each.station for each in off.tapes} == {Station.READY}
    assert off.copies == ()
    assert desk.shop.ask(jobs.reprice, job.number).gross.likely == 0
    version = desk.shop.ask(agreement_versions.versions, job.number)[-1]
    assert (version.kind, version.reason, version.fee_minor) == (
        AgreementKind.CANCELLED,
        "changed my mind",
        0,
    )
    with pytest.raises(Refused, match="left to cancel"):
        desk.shop.run(cancellations.cancel, job.number, None, reason="again", consent=ADA)


def test_some_tapes_are_called_off_and_the_rest_goes_on(desk: Desk) -> None:
    job = desk.book(line(count=3))
    off = desk.shop.run(
        cancellations.cancel, job.number, [job.tapes[0].code], reason="not that one", consent=ADA
    )
    assert [each.left_out_in for each in off.tapes] == [2, None, None]
    assert off.ceiling_minor < job.ceiling_minor
    assert desk.shop.ask(agreement_versions.versions, job.number)[-1].kind is AgreementKind.REVISED
    with pytest.raises(Refused, match="taken out of the agreement in version 2"):
        desk.shop.run(cancellations.cancel, job.number, [job.tapes[0].code], reason="x", consent=ADA)


def test_what_was_copied_is_not_called_off(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY, minutes=60)
    with pytest.raises(Refused, match="copied already"):
        desk.shop.run(cancellations.cancel, job.number, [job.tapes[0].code], reason="x", consent=ADA)
    off = desk.shop.run(cancellations.cancel, job.number, None, reason="the rest", consent=ADA)
    assert [each.left_out_in for each in off.tapes] == [None, 2]
    assert desk.shop.ask(jobs.reprice, JobNumber(job.number)).gross.likely > 0


def test_a_tape_on_a_deck_comes_off_it(desk: Desk) -> None:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.PLAYING, deck="VHS 1")
    off = desk.shop.run(cancellations.cancel, job.number, None, reason="stop", consent=ADA)
    assert (off.tapes[0].deck, off.tapes[0].station) == (None, Station.READY)
    assert "taken off the deck" in desk.shop.ask(tapes.history, off.tapes[0].code)[-1].words
