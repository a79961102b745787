"""The bench is told which tape to load, by the plan the dates are made with."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from core.model.names import TvSystem
from core.model.own_shop.settings_records import Outage, ShopSettings
from core.model.ranges import exactly
from core.model.stations import Station
from core.scheduling import deck_week
from core.scheduling.next_tape import NextTape, next_tapes
from core.scheduling.queued_tapes import QueuedTape
from core.services.own_shop import shop_settings
from core.wording.locale_figures import tape_code
from core.wording.messages import say
from tests.support.shops import TUESDAY, deck, fittings, queued

SHOP = fittings(deck("VHS", "vhs"), deck("MiniDV", "minidv"))
LATE = TUESDAY.replace(hour=17)
THREE = fittings(deck("VHS", "vhs"), deck("S-VHS", "vhs", "s-vhs"), deck("MiniDV", "minidv"))


def tape(n: int, minutes: float, job: int = 1, **changes: object) -> QueuedTape:
    return queued(n, minutes=exactly(minutes), job=job, **changes)  # type: ignore[arg-type]


def ask(*queue: QueuedTape, late: bool = False, shop: ShopSettings = SHOP) -> NextTape:
    return next_tapes(shop, queue, LATE if late else TUESDAY)["VHS"]


def free(*playing: str | None, shop: ShopSettings = THREE) -> list[str]:
    """The decks that load something while tapes play on these, and one of each kind waits and more."""
    queue = [
        replace(queued(n, station=Station.PLAYING), deck=name) for n, name in enumerate(playing, start=1)
    ]
    waiting = [tape(n, 60, job=2) for n in range(1, 4)] + [tape(1, 60, job=3, format="minidv")]
    return list(next_tapes(shop, [*queue, *waiting], TUESDAY))


def test_a_new_shop_loads_what_the_deck_week_plays() -> None:
    """Both VHS decks busy: the PAL tape fits S-VHS only, so it goes before the longer NTSC tape."""
    shop = shop_settings.new_shop()
    busy = [replace(tape(n, 200, job=9, station=Station.PLAYING), deck=f"VHS {n}") for n in (1, 2)]
    pal, ntsc = replace(tape(1, 60), tv=TvSystem.PAL), tape(2, 120)
    queue = [*busy, pal, ntsc]
    week = deck_week.week(shop, queue, TUESDAY)
    (place,) = (n for n, each in enumerate(shop.decks) if each.name == "S-VHS")
    assert week.timelines[place].runs[0].tape == pal
    assert next_tapes(shop, queue, TUESDAY)["S-VHS"].tape == pal


def test_the_queue_is_played_in_its_order_and_a_box_from_its_longest_tape() -> None:
    first, second = tape(1, 60), tape(2, 90)
    assert ask(first, second, tape(3, 200, job=2)) == NextTape(second, say("bench", "next"))


def test_a_rush_box_goes_first_and_other_formats_do_not_count() -> None:
    hurried = tape(1, 30, job=3, rush=True)
    assert ask(tape(1, 60), hurried).tape == hurried
    assert list(next_tapes(SHOP, [tape(1, 60), hurried], TUESDAY)) == ["VHS"]


def test_towards_closing_the_longest_that_still_ends_in_time_is_played_instead() -> None:
    long, short, middle = tape(1, 200), tape(1, 40, job=2), tape(2, 110, job=3)
    found = ask(long, short, middle, late=True)
    assert found == NextTape(middle, say("bench", "instead_too_long", code=tape_code(long.code)))


def test_when_nothing_ends_in_time_the_morning_is_named() -> None:
    found = ask(tape(1, 200), tape(2, 190), late=True)
    assert found == NextTape(None, say("bench", "none_ends", day="Wednesday, March 4"))


def test_what_is_not_cleared_or_still_cold_waits() -> None:
    at_the_bench = tape(1, 90, station=Station.AT_THE_BENCH)
    ready = tape(1, 60, job=2)
    told = say("bench", "instead_not_cleared", code=tape_code(at_the_bench.code))
    assert ask(at_the_bench, ready) == NextTape(ready, told)
    assert ask(at_the_bench) == NextTape(None, say("bench", "none_cleared"))
    cold = replace(ready, rests_until=TUESDAY + timedelta(hours=2))
    assert ask(cold) == NextTape(None, say("bench", "none_warm"))
    warm = tape(2, 30, job=3)
    told = say("bench", "instead_cold", code=tape_code(cold.code))
    assert ask(cold, warm) == NextTape(warm, told)


def test_no_tape_begins_that_would_run_into_a_planned_outage() -> None:
    """Open over midnight, the deck out from Wednesday on."""
    night = fittings(
        deck("VHS", "vhs"),
        openings=tuple(replace(each, end=26 * 60) for each in fittings().openings),
        outages=(Outage("VHS", date(2026, 3, 4), date(2026, 3, 4)),),
    )
    eleven = TUESDAY.replace(hour=23)
    long, short = tape(1, 90), tape(1, 40, job=2)
    assert next_tapes(night, [short], eleven)["VHS"].tape == short
    assert next_tapes(night, [long], eleven)["VHS"] == NextTape(None, say("bench", "none_outage"))


def test_a_shop_without_hours_is_told_so() -> None:
    found = ask(tape(1, 60), shop=fittings(deck("VHS", "vhs"), openings=()))
    assert found == NextTape(None, say("bench", "no_hours"))


def test_a_deck_is_free_with_no_tape_in_it_and_in_service() -> None:
    assert free() == ["VHS", "S-VHS", "MiniDV"]
    assert free("VHS") == ["S-VHS", "MiniDV"]
    out = fittings(deck("VHS", "vhs", in_service=False), deck("MiniDV", "minidv"))
    assert free(shop=out) == ["MiniDV"]


def test_a_tape_that_plays_nobody_said_where_takes_a_deck_all_the_same() -> None:
    assert free(None) == ["S-VHS", "MiniDV"]
    assert free(None, "VHS") == ["MiniDV"]


def test_a_deck_out_by_plan_is_free_again_the_day_after() -> None:
    today = Outage("VHS", date(2026, 3, 1), TUESDAY.date())
    assert "VHS" not in free(shop=replace(THREE, outages=(today,)))
    assert "VHS" in free(shop=replace(THREE, outages=(replace(today, ends=date(2026, 3, 2)),)))


def test_no_tape_goes_to_two_decks() -> None:
    long, short = tape(2, 90), tape(1, 60)
    found = next_tapes(THREE, [short, long], TUESDAY)
    assert {name: each.tape for name, each in found.items()} == {"VHS": long, "S-VHS": short}


def test_before_the_door_opens_the_deck_waits_for_the_opening() -> None:
    early = TUESDAY.replace(hour=7)
    assert next_tapes(SHOP, [tape(1, 60)], early)["VHS"].why == say("bench", "before_opening")
