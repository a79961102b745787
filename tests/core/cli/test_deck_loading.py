"""What goes on the free decks now, typed."""

from __future__ import annotations

from datetime import datetime

from core.services import shop_overview
from core.services.records_door import Shop
from core.wording.locale_figures import time_of_day
from tests.support.typed import NOW, Typist, walk


def test_the_tape_for_a_free_deck_is_told(typed: Typist, codes: list[str]) -> None:
    walk(typed, codes[0], "looked-over", "cleared-to-play")
    first = typed("load-now").document["decks"][0]
    assert (first["deck"], first["tape"]) == ("VHS 1", codes[0])
    told = typed("load-now", as_json=False).out.splitlines()[0]
    assert told.startswith(f"VHS 1: {codes[0]} VHS ")
    assert f"ends about {time_of_day(datetime.fromisoformat(first['ends']))}. {first['why']}" in told


def test_nothing_is_loaded_when_no_tape_waits(typed: Typist, codes: list[str]) -> None:
    for code in codes:
        walk(typed, code, "cannot-be-played")
    assert typed("load-now").document == {"decks": []}
    assert typed("load-now", as_json=False).out == "No tape in the queue is waiting for a free deck.\n"


def test_the_command_line_names_what_the_deck_week_plays(typed: Typist, codes: list[str]) -> None:
    for code in codes[:2]:
        walk(typed, code, "looked-over", "cleared-to-play")
    told = {each["deck"]: each["tape"] for each in typed("load-now").document["decks"] if each["tape"]}
    with Shop.open(str(typed.shop), clock=lambda: datetime.fromisoformat(NOW)) as shop:
        week = shop.ask(shop_overview.read).week
    now = [lane for lane in week.timelines if lane.deck.name in told]
    assert set(told.values()) == set(codes[:2])
    assert told == {lane.deck.name: lane.runs[0].tape.code for lane in now}
