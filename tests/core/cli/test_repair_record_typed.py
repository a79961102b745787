"""The repair record, typed: places in metres, what was tried, donors, the look, and taking things back."""

from __future__ import annotations

import pytest

from core.wording.locale_figures import tape_code
from tests.support.typed import READY, Typist, walk


def spliced(typed: Typist, code: str, *where: str) -> dict[str, object]:
    document = typed("splice", code, *where, "--cut-cm", "2", "--joined-with", "tape").document
    last: dict[str, object] = document["splices"][-1]
    return last


def test_a_place_is_typed_in_minutes_or_in_metres(typed: Typist, codes: list[str]) -> None:
    by_metres = spliced(typed, codes[0], "--at-metres", "30")
    assert (by_metres["measured"], by_metres["at_metres"]) == ("metres", 30.0)
    by_minutes = spliced(typed, codes[0], "--at-minutes", "15")
    assert (by_minutes["measured"], by_minutes["at_minutes"]) == ("minutes", 15.0)
    for where in ((), ("--at-minutes", "1", "--at-metres", "2")):
        refused = typed("splice", codes[0], *where, "--cut-cm", "2", "--joined-with", "tape")
        assert refused.code == 2
        assert "--at-metres" in refused.err


def test_a_joint_in_the_leader_loses_nothing_and_is_not_for_reuse(typed: Typist, codes: list[str]) -> None:
    words = ("splice", codes[0], "--at-minutes", "0", "--cut-cm", "2", "--joined-with", "leader")
    tape = typed(*words).document
    assert (tape["splices"][0]["in"], tape["splices"][0]["seconds_removed"]) == ("leader", 0)
    assert tape["not_for_reuse"] is True
    told = typed(*words, "--in", "programme").document["splices"][1]
    assert told["in"] == "programme"
    assert told["seconds_removed"] > 0
    refused = typed("splice", codes[0], "--at-minutes", "40", *words[4:], "--in", "leader")
    assert refused.code == 2
    assert "leader lies at the two ends" in refused.err


def test_one_of_several_splices_is_struck_out(typed: Typist, codes: list[str]) -> None:
    for minute in ("1", "2", "3"):
        spliced(typed, codes[0], "--at-minutes", minute)
    tape = typed("undo-splice", codes[0], "--because", "typed twice", "--nth", "2").document
    assert [each["at_minutes"] for each in tape["splices"]] == [1, 3]
    assert tape["struck"][0]["because"] == "typed twice"
    assert typed("undo-splice", codes[0], "--because", "x", "--nth", "3").code == 2


def test_a_label_to_come_off_is_told_until_it_is_off(typed: Typist, codes: list[str]) -> None:
    spliced(typed, codes[0], "--at-minutes", "1")
    typed("mark", codes[0])
    undone = typed("undo-splice", codes[0], "--because", "wrong tape", as_json=False)
    assert "take the not-for-reuse label off" in undone.out
    off = typed("label-off", codes[0])
    assert off.document["label_to_come_off"] is False
    assert typed("label-off", codes[0]).code == 3


def test_a_repair_takes_its_part_off_the_shelf(typed: Typist, codes: list[str]) -> None:
    words = ("repair", codes[0], "shell-swap", "--part", "shell")
    refused = typed(*words)
    assert refused.code == 3
    assert "came from elsewhere" in refused.err
    stocked = typed("donors", "--add", "vhs", "shell", "2", "--came-from", "a thrift store").document
    lot = {"format": "vhs", "part": "shell", "came_from": "a thrift store"}
    assert stocked["donors"] == [{**lot, "count": 2, "used_for": []}]
    (tried,) = typed(*words).document["tried"]
    assert (tried["succeeded"], tried["came_from"]) == (True, "a thrift store")
    assert typed("donors").document["donors"] == [{**lot, "count": 1, "used_for": [codes[0]]}]
    assert typed("undo-repair", codes[0], "--because", "wrong tape").document["tried"] == []
    assert "2 × VHS shell, from a thrift store" in typed("donors", as_json=False).out


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("vhs", "wheel", "1"), "accepted: shell, reel, lid, screws"),
        (("vhs", "shell", "many"), "up to 1,000"),
        (("vhs", "shell", "0"), "from 1 to 1,000"),
        (("vhss", "shell", "1"), "vhss"),
    ],
)
def test_what_is_no_donor_is_named(
    typed: Typist, codes: list[str], words: tuple[str, ...], named: str
) -> None:
    refused = typed("donors", "--add", *words)
    assert (refused.code, refused.out) == (2, "")
    assert named in refused.err
    assert typed("donors").document == {"donors": []}


def test_a_count_is_put_right_with_a_reason(typed: Typist, codes: list[str]) -> None:
    typed("donors", "--add", "vhs", "reel", "5")
    right = ("donors", "--correct", "vhs", "reel", "3")
    assert "a few words" in typed(*right).err
    told = typed(*right, "--because", "two were cracked").document
    assert told["donors"][0]["count"] == 3
    assert "give it together with --correct" in typed("donors", "--because", "no reason to").err


def test_a_failed_try_stands_in_the_history(typed: Typist, codes: list[str]) -> None:
    typed("repair", codes[0], "re-anchor", "--failed", "--note", "the clip is cracked")
    words = typed("history", codes[0]).document["history"][-1]["words"]
    assert words == "re-anchor the leader: failed; the clip is cracked"
    assert "accepted: splice, re-anchor" in typed("repair", codes[0], "polish").err


def test_clearing_a_spliced_tape_is_the_look_unless_it_has_to_be_done_again(
    typed: Typist, codes: list[str]
) -> None:
    walk(typed, codes[2], "looked-over", "at-the-bench")
    spliced(typed, codes[2], "--at-minutes", "1")
    assert typed("looked", codes[2], "again", "--note", "it overhangs").document["look_due"] is True
    assert typed("move", codes[2], "cleared-to-play").code == 3
    spliced(typed, codes[2], "--at-minutes", "1")
    assert typed("move", codes[2], "cleared-to-play").document["look_due"] is False
    assert (
        "looked over after its repair with this move"
        in typed("history", codes[2]).document["history"][-1]["words"]
    )


def test_a_splice_after_a_bad_look_is_redone_unless_it_is_said_not_to_be(
    typed: Typist, codes: list[str]
) -> None:
    walk(typed, codes[2], "looked-over", "at-the-bench")
    assert typed("splice", codes[2], *JOINT, "--redone", "yes").code == 3
    for said, redone in (((), [False]), ((), [False, True]), (("--redone", "no"), [False, True, False])):
        tape = typed("splice", codes[2], *JOINT, *said).document
        assert [each["redone"] for each in tape["splices"]] == redone
        typed("looked", codes[2], "again")


JOINT = ("--at-minutes", "1", "--cut-cm", "2", "--joined-with", "tape")


def test_a_label_that_goes_home_on_a_tape_without_a_splice_is_warned_of_and_goes(
    typed: Typist, codes: list[str]
) -> None:
    walk(typed, codes[0], *READY)
    spliced(typed, codes[0], "--at-minutes", "1")
    typed("mark", codes[0])
    typed("undo-splice", codes[0], "--because", "wrong tape")
    number = codes[0][:6]
    gone = typed("pickup", number, "--tape", codes[0], "--signed-by", "Ada Fenwick")
    assert gone.code == 0
    assert f"Tape {tape_code(codes[0])} has a not-for-reuse label but no splice" in gone.err

    walk(typed, codes[1], *READY)
    assert typed("pickup", number, "--tape", codes[1], "--signed-by", "Ada Fenwick").err == ""
