"""What goes on the free decks now, typed."""

from __future__ import annotations

from tests.support.typed import Typist, walk


def test_the_tape_for_a_free_deck_is_told(typed: Typist, codes: list[str]) -> None:
    walk(typed, codes[0], "looked-over", "cleared-to-play")
    first = typed("up-next").document["decks"][0]
    assert (first["deck"], first["tape"]) == ("VHS 1", codes[0])
    told = typed("up-next", as_json=False).out.splitlines()[0]
    assert told.startswith(f"VHS 1: {codes[0]} VHS ")
    assert f"ends about {first['ends'][11:16]}. {first['why']}" in told


def test_nothing_is_loaded_when_no_tape_waits(typed: Typist, codes: list[str]) -> None:
    for code in codes:
        walk(typed, code, "cannot-be-played")
    assert typed("up-next").document == {"decks": []}
    assert typed("up-next", as_json=False).out == "No tape of the queue waits for a free deck.\n"
