"""The receipt says first what to do with the tapes, and leaves nothing out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.dispositions import Disposition
from core.model.job_records import Pickup
from core.model.names import DonorPart, Join, Look, Measure, Section
from core.model.ranges import Range
from core.model.repair_records import AfterRepair, RepairAttempt, Splice
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.papers.handover import receipt
from core.papers.typesetting.page import Pen
from core.papers.typesetting.paper_tokens import NARROW
from core.wording.messages import say
from tests.support import invented_job as records
from tests.support import pdf


@pytest.fixture(scope="module")
def pickup() -> Pickup:
    return records.pickup()


@pytest.fixture(scope="module")
def paper(pickup: Pickup) -> bytes:
    return receipt.render(pickup, records.FRONT)


def test_the_first_sentence_says_what_to_do_with_the_spliced_tapes(paper: bytes) -> None:
    first = pdf.words(paper)
    told = first.index("never play or record on them again")
    assert told < first.index("No splice lasts forever") < first.index("All 10 tapes you get back")


def test_every_spliced_tape_is_listed_with_its_joins(paper: bytes, pickup: Pickup) -> None:
    said = pdf.words(paper)
    spliced = [tape for tape in pickup.handed_back if tape.not_for_reuse]
    assert len(spliced) == 2
    for tape in spliced:
        part = said[said.index(f"{tape.code[:6]} {tape.code[6:9]} {tape.code[9]}") :]
        assert tape.label in part
        for join in tape.splices:
            assert f"{join.seconds_disturbed:.1f} s" in part
            assert say("paper", f"join-{join.joined_with.value}") in part
            if join.cut_cm:
                assert f"{join.cut_cm:.1f} cm cut away: {join.seconds_removed:.1f} s gone" in part
    assert said.count("Labeled Mar 4.") == 2


def test_the_words_not_for_reuse_stand_on_each_tape_and_on_each_row(paper: bytes) -> None:
    # Once on the sign at the top, then in the row of each of two tapes.
    assert pdf.words(paper).count("NOT FOR REUSE") == 1 + 2


def test_a_tape_without_its_mark_is_said_to_be_without(pickup: Pickup) -> None:
    unmarked = replace(
        pickup, handed_back=tuple(replace(tape, marked_at=None) for tape in pickup.handed_back)
    )
    assert "is not on it yet" in pdf.words(receipt.render(unmarked, records.FRONT))


def test_every_tape_handed_back_and_every_tape_still_here_is_named(paper: bytes, pickup: Pickup) -> None:
    said = pdf.words(paper)
    back, here = said[said.index("All 10 tapes") :].split("2 tapes are still here")
    for tape in pickup.handed_back:
        assert f"{tape.code[:6]} {tape.code[6:9]} {tape.code[9]}" in back
    for tape in pickup.still_here:
        assert f"{tape.code[:6]} {tape.code[6:9]} {tape.code[9]}" in here
    assert "Being copied" in here


def test_the_money_adds_up_on_paper(paper: bytes) -> None:
    said = pdf.words(paper)
    assert "Before tax $339.00 Sales tax 8.25%, added $27.97 Total $366.97" in said
    assert "Deposit, Thursday, February 26, 2026 $100.00 Balance, Friday, March 13, 2026 $266.97" in said
    assert "Paid so far $366.97 Still to pay $0.00" in said


def test_money_that_is_owed_to_the_customer_is_not_printed_as_a_debt(pickup: Pickup) -> None:
    said = pdf.words(receipt.render(replace(pickup, due_minor=-500), records.FRONT))
    assert "We owe you $5.00" in said
    assert "Still to pay" not in said


def test_the_signer_and_the_moment_on_the_shops_clock_are_printed(paper: bytes) -> None:
    # 21:05 UTC is 17:05 in New York: summer time began there on 8 March 2026.
    assert "Signed by Łucja Núñez-Brandt, Friday, March 13, 2026, 5:05 PM" in pdf.words(paper)


def test_each_stroke_of_the_signature_is_drawn_inside_its_box(paper: bytes, pickup: Pickup) -> None:
    strokes = len(pickup.signature.strokes)
    blank = receipt.render(replace(pickup, signature=replace(pickup.signature, strokes=())), records.FRONT)
    page = len(pdf.pages(paper)) - 1
    drawn = [box for box in pdf.path_boxes(paper, page) if box not in pdf.path_boxes(blank, page)]
    assert len(drawn) == strokes
    (signed,) = [box for number, text, box in pdf.text_boxes(paper) if number == page and "Signed by" in text]
    width, _ = pdf.size(paper)
    for left, bottom, right, top in drawn:
        assert width / 2 <= left <= right <= width - NARROW
        assert signed[3] < bottom <= top < signed[3] + 80


def test_without_a_pen_the_paper_says_that_only_the_name_was_taken(pickup: Pickup) -> None:
    named = replace(pickup, signature=replace(pickup.signature, strokes=()))
    assert "no signature was taken on the screen" in pdf.words(receipt.render(named, records.FRONT))


def test_tapes_without_a_splice_are_given_back_without_the_sign(pickup: Pickup) -> None:
    sound = replace(pickup, handed_back=pickup.handed_back[:3], still_here=())
    said = pdf.words(receipt.render(sound, records.FRONT))
    assert "None of them was spliced" in said
    assert "NOT FOR REUSE" not in said
    assert "still here" not in said


def test_a_tape_that_could_not_be_played_is_not_called_copied(pickup: Pickup) -> None:
    apart = replace(pickup.still_here[1], station=Station.HANDED_BACK)
    said = pdf.words(receipt.render(replace(pickup, handed_back=(apart,), still_here=()), records.FRONT))
    assert "Could not be played" in said
    assert "Copied" not in said


def test_who_checked_a_copy_stands_beside_what_became_of_it(pickup: Pickup) -> None:
    checked = replace(pickup.handed_back[0], signed_off_by="Kim")
    said = pdf.words(receipt.render(replace(pickup, handed_back=(checked,)), records.FRONT))
    assert said.count("Copy checked by Kim.") == 1
    blank = replace(checked, disposition=Disposition.NOTHING_ON_IT, played_minutes=None)
    said = pdf.words(receipt.render(replace(pickup, handed_back=(blank,)), records.FRONT))
    assert "Copy checked" not in said


def test_the_advice_to_keep_two_copies_is_on_the_first_page(paper: bytes) -> None:
    assert "copy the files to two places" in pdf.pages(paper)[0]


def test_a_pen_that_slid_off_the_pad_stays_in_the_box(
    monkeypatch: pytest.MonkeyPatch, pickup: Pickup
) -> None:
    seen: list[tuple[float, float]] = []
    monkeypatch.setattr(
        Pen,
        "lines",
        lambda _pen, strokes, _width: seen.extend(point for stroke in strokes for point in stroke),
    )
    wild = replace(pickup.signature, strokes=(((-3.0, 0.5), (4.0, 7.0)),))
    receipt.render(replace(pickup, signature=wild), records.FRONT)
    assert seen
    assert all(612 / 2 <= x <= 612 - NARROW for x, _ in seen)


# --- the repair record -------------------------------------------------------------------


def with_first(pickup: Pickup, **changes: object) -> str:
    """The words of a receipt of one spliced tape, changed."""
    tape: TapeRecord = next(each for each in pickup.handed_back if each.not_for_reuse)
    changed = replace(tape, **changes)  # type: ignore[arg-type]  # the names are those of TapeRecord
    return pdf.words(receipt.render(replace(pickup, handed_back=(changed,), still_here=()), records.FRONT))


def tried(code: str, words: str, succeeded: bool, **more: object) -> RepairAttempt:
    plain = {
        "part": None,
        "came_from": "",
        "note": "for the bench only",
        "by": "Ada",
        "at": records.BOOKED_AT,
    }
    return RepairAttempt(code, words, succeeded, **{**plain, **more})  # type: ignore[arg-type]  # as above


@pytest.mark.parametrize(("minutes", "end"), [(0.0, "start"), (120.0, "end")])
def test_a_joint_in_the_leader_is_said_to_have_cost_nothing(pickup: Pickup, minutes: float, end: str) -> None:
    joint = replace(records.splice(minutes, 3.0, Join.LEADER), section=Section.LEADER)
    said = with_first(pickup, splices=(joint,))
    where = f"in the clear leader at the {end} of the tape"
    assert f"Spliced {where}, the leader fixed to the reel again." in said
    assert "Nothing of the recording is lost" in said
    assert "cut away" not in said
    assert "NOT FOR REUSE" in said


def test_a_place_read_in_metres_is_printed_in_metres(pickup: Pickup) -> None:
    joint: Splice = replace(records.splice(30.0), at_metres=60.0, measured=Measure.METRES)
    assert "Spliced 60.0 m (30:00) from the start" in with_first(pickup, splices=(joint,))


def test_what_is_not_known_exactly_is_printed_as_from_and_to(pickup: Pickup) -> None:
    joint: Splice = replace(
        records.splice(50.0),
        at_metres=100.0,
        measured=Measure.METRES,
        reckoned=Range(50, 50, 150),
        removed=Range(1.5, 1.5, 4.5),
        disturbed=Range(4.4, 4.4, 8.9),
    )
    said = with_first(pickup, splices=(joint,))
    assert "100.0 m (50:00 to 2:30:00) from the start" in said
    assert "1.5 to 4.5 s gone, 4.4 to 8.9 s disturbed" in said


def test_joints_are_listed_as_they_lie_on_the_tape(pickup: Pickup) -> None:
    said = with_first(pickup, splices=(records.splice(90.0), records.splice(3.0)))
    assert said.index("Spliced 3:00") < said.index("Spliced 1:30:00")


def test_what_was_tried_is_printed_with_its_outcome_and_without_the_notes_of_the_bench(
    pickup: Pickup,
) -> None:
    tries = (
        tried("re-anchor", "re-anchor the leader", False),
        tried(
            "shell-swap", "move the reels into a donor shell", True, part=DonorPart.SHELL, came_from="a T-60"
        ),
    )
    looked = AfterRepair(records.BOOKED_AT, Look.OK, "Ada", records.PICKED_UP_AT)
    said = with_first(pickup, tried=tries, after_repair=looked)
    assert "Tried, but it did not work: re-anchor the leader." in said
    assert "Done: move the reels into a donor shell (shell from a T-60)." in said
    assert "Looked over again after the repair on Friday, March 13, 2026." in said
    assert "for the bench only" not in said


def test_repairs_of_a_tape_without_a_splice_have_a_part_of_their_own(pickup: Pickup) -> None:
    sound = replace(
        pickup.handed_back[0],
        splices=(),
        not_for_reuse=False,
        tried=(tried("lid-swap", "fit a donor lid", True),),
    )
    said = pdf.words(receipt.render(replace(pickup, handed_back=(sound,), still_here=()), records.FRONT))
    assert "Done: fit a donor lid." in said
    assert "NOT FOR REUSE" not in said
