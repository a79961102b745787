"""What the decks showed, told on the command line, and what the shop makes of it."""

from __future__ import annotations

from tests.support.typed import Typist, walk


def test_what_the_deck_showed_is_told_with_the_move_and_learned(typed: Typist, codes: list[str]) -> None:
    before = typed("habits").document
    assert (before["habits"], before["change"]) == ([], None)
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing")
    moved = typed("move", codes[0], "being-checked", "--minutes", "318.5", "--found-speed", "ep")
    assert moved.code == 0

    found = typed("habits").document["habits"]
    speed = next(one for one in found if one["kind"] == "speed")
    assert speed["sentence"] == "1 of your last 1 VHS (NTSC) was EP."
    assert (speed["tapes"], speed["seen"]["EP"]) == (1, 1.0)
    assert speed["now"]["EP"] > speed["at_first"]["EP"]
    assert abs(sum(speed["now"].values()) - 1) < 1e-5


def test_a_speed_this_tape_cannot_have_is_refused(typed: Typist, codes: list[str]) -> None:
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing")
    refused = typed("move", codes[0], "being-checked", "--minutes", "60", "--found-speed", "b2")
    assert refused.code == 2
    assert "VHS in NTSC has sp, lp, ep" in refused.err
    assert typed("habits").document["habits"] == []
