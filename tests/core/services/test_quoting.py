"""The whole quote of a box: what the clerk says over the counter, in one piece."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from core.model.errors import WrongInput
from core.model.inventory import Delivery, Inventory, TapeLine
from core.model.names import Finding, FormatName, Outcome, Speed, TvSystem
from core.model.own_shop.settings_records import Deck, Expected, ShopSettings
from core.model.quote_records import Quote
from core.model.ranges import ZERO
from core.playtime import tape_minutes
from core.pricing import price_book
from core.promise import turnaround
from core.services import quoting
from core.services.own_shop import shop_settings as shops
from core.services.quoting import ShopSnapshot
from core.wording.messages import say
from tests.support.shops import TUESDAY, queued

BOOK = price_book.in_force(TUESDAY.date())
SHOP = shops.new_shop()
VHS, HI8 = FormatName("vhs"), FormatName("hi8")


def quote(*lines: TapeLine, shop: ShopSettings = SHOP, queue: int = 0, **changes: object) -> Quote:
    inventory = replace(Inventory(lines, tv=TvSystem.NTSC), **changes)  # type: ignore[arg-type]
    load = turnaround.load(shop, [queued(n) for n in range(queue)], TUESDAY)
    return quoting.quote(inventory, ShopSnapshot(shop, BOOK, load, TUESDAY))


def without(shop: ShopSettings, format: str) -> ShopSettings:
    return replace(shop, decks=tuple(deck for deck in shop.decks if format not in deck.plays))


def test_every_cassette_is_a_tape_of_the_quote() -> None:
    made = quote(TapeLine(2, VHS, "T-120"), TapeLine(1, HI8))
    assert [(tape.line, tape.n, tape.draft.format) for tape in made.tapes] == [
        *((1, 1, "vhs"), (1, 2, "vhs")),
        (2, 1, "hi8"),
    ]


def test_a_box_that_came_in_cold_is_promised_a_day_later_and_says_why() -> None:
    line = TapeLine(1, VHS, "T-120", speed=Speed.SP)
    calm = replace(SHOP, expected=Expected())
    warm, cold = quote(line, shop=calm), quote(line, shop=calm, cold=True)
    assert warm.promise.day == TUESDAY.date()
    assert cold.promise.day == TUESDAY.date() + timedelta(days=1)
    assert say("quotes", "came_in_cold", hours=24.0) in cold.warnings
    assert not any("cold" in warning for warning in warm.warnings)


def test_a_tape_carries_the_tv_system_of_its_box() -> None:
    (tape,) = quote(TapeLine(1, VHS)).tapes
    assert tape.draft.tv is TvSystem.NTSC
    (own,) = quote(TapeLine(1, VHS, tv=TvSystem.PAL)).tapes
    assert own.draft.tv is TvSystem.PAL


def test_hours_price_copies_date_and_validity_are_those_of_the_tapes() -> None:
    made = quote(TapeLine(2, VHS, "T-120", speed=Speed.SP, fill=1.0))
    least, most = (
        sum(getattr(tape.minutes, column) for tape in made.tapes) / 60 for column in ("low", "high")
    )
    assert least <= made.capture_hours.low <= made.capture_hours.likely <= made.capture_hours.high <= most
    assert made.price.currency == "USD"
    assert made.storage.copies
    assert made.promise.day is not None
    assert made.valid_until == date(2026, 4, 2)
    assert made.book == BOOK.name


def test_the_same_box_at_the_same_moment_is_the_same_quote() -> None:
    assert quote(TapeLine(3, VHS), queue=4) == quote(TapeLine(3, VHS), queue=4)


@pytest.mark.parametrize(
    ("finding", "outcome"),
    [
        (Finding.STICKY, Outcome.CANNOT),
        (Finding.CRUSHED, Outcome.PARTLY),
        (Finding.COMMERCIAL_RECORDING, Outcome.PLAYS),
    ],
)
def test_a_tape_nothing_is_done_on_has_no_minutes_and_its_reason_is_told(
    finding: Finding, outcome: Outcome
) -> None:
    made = quote(TapeLine(1, VHS, findings=(finding,)))
    assert made.tapes[0].verdict.outcome is outcome
    assert (made.tapes[0].minutes, made.capture_hours) == (ZERO, ZERO)
    assert made.price.gross.high == 0
    assert any(warning.startswith("1 × VHS:") for warning in made.warnings)


def test_a_scratch_is_told_before_money_is_taken() -> None:
    made = quote(TapeLine(1, VHS, findings=(Finding.SCRATCHED,)))
    assert any("scratch" in warning.lower() for warning in made.warnings)


def out_of_service(shop: ShopSettings, format: str) -> ShopSettings:
    decks = (replace(deck, in_service=format not in deck.plays) for deck in shop.decks)
    return replace(shop, decks=tuple(decks))


def test_a_format_whose_deck_is_out_of_service_is_a_warning_on_its_line() -> None:
    made = quote(TapeLine(2, HI8), TapeLine(1, VHS), shop=out_of_service(SHOP, "hi8"))
    assert "2 × Hi8: no deck in service plays Hi8 or Digital8." in made.warnings
    assert made.promise.day is not None
    assert made.tapes[0].verdict.outcome is Outcome.PLAYS


def test_a_box_whose_deck_is_out_of_service_has_no_date_and_says_why() -> None:
    made = quote(TapeLine(2, HI8), shop=out_of_service(SHOP, "hi8"))
    assert made.promise.day is None
    assert any(
        warning.startswith("No date can be given: no deck in service plays") for warning in made.warnings
    )


def test_a_shell_nobody_can_name_warns_when_no_deck_plays_all_it_may_be() -> None:
    eight = next(deck for deck in SHOP.decks if "hi8" in deck.plays)
    plain: Deck = replace(eight, plays=frozenset({FormatName("video8"), HI8}))
    shop = replace(without(SHOP, "hi8"), decks=(plain,))
    made = quote(TapeLine(1, FormatName("8mm-unknown")), shop=shop)
    assert any("no single deck in service plays" in warning for warning in made.warnings)


def test_a_hi8_cassette_asks_whether_it_was_recorded_as_digital8_and_the_answer_leads_to_a_line() -> None:
    made = quote(TapeLine(1, VHS), TapeLine(1, HI8, "P6-120"))
    (question,) = [asked for asked in made.questions if "Digital8" in asked.text]
    assert question.line == 2
    assert question.answers[0].draft.recorded_as == "digital8"


def test_a_date_after_the_needed_one_says_the_chance_and_what_rush_would_do() -> None:
    wanted = TUESDAY.date() + timedelta(days=1)
    made = quote(TapeLine(6, VHS, "T-120", speed=Speed.SP), queue=60, needed_by=wanted)
    (needed,) = [warning for warning in made.warnings if warning.startswith("Needed by")]
    (rush,) = [warning for warning in made.warnings if "rush" in warning]
    assert needed.startswith("Needed by Wednesday, March 4, but the earliest day we can promise is ")
    assert rush.startswith("As a rush order it would be ready by ")
    assert rush.endswith(" more.")
    hurried = quote(TapeLine(6, VHS, "T-120", speed=Speed.SP), queue=60, needed_by=wanted, rush=True)
    assert hurried.promise.day is not None
    assert f"March {hurried.promise.day.day}" in rush
    more = hurried.price.gross.likely - made.price.gross.likely
    assert f"{BOOK.spelled(more)} more" in rush


def test_rush_is_not_sold_when_it_would_change_nothing() -> None:
    calm = replace(SHOP, expected=Expected())
    box = TapeLine(9, VHS, "T-160", speed=Speed.EP, fill=1.0)
    made = quote(box, shop=calm, needed_by=TUESDAY.date())
    assert say("quotes", "rush_no_earlier") in made.warnings


def test_a_date_in_time_says_nothing_about_rush() -> None:
    made = quote(TapeLine(1, VHS, "T-120"), needed_by=date(2026, 12, 1))
    assert not any("rush" in warning or "Needed by" in warning for warning in made.warnings)


def test_a_tape_longer_than_any_opening_is_a_warning() -> None:
    short = tuple(replace(opening, end=opening.start + 60) for opening in SHOP.openings)
    made = quote(TapeLine(1, VHS, "T-160", speed=Speed.EP, fill=1.0), shop=replace(SHOP, openings=short))
    assert any(say("quotes", "overlong") in warning for warning in made.warnings)


def test_what_the_copies_need_is_warned_about() -> None:
    made = quote(TapeLine(9, VHS, "T-120"), deliver=(Delivery("files", "dv", "usb"),))
    assert set(made.storage.notes) <= set(made.warnings)
    assert made.storage.notes


def test_a_book_in_another_currency_than_the_till_is_a_warning() -> None:
    shop = replace(SHOP, front=replace(SHOP.front, currency="EUR"))
    assert any(
        "is priced in USD, but the shop's currency is EUR" in text
        for text in quote(TapeLine(1, VHS), shop=shop).warnings
    )


def test_a_box_too_large_for_one_job_is_refused() -> None:
    with pytest.raises(WrongInput, match="up to 500 tapes fit on one order"):
        quote(TapeLine(400, VHS), TapeLine(101, VHS))


def test_an_empty_box_is_a_quote_of_nothing() -> None:
    made = quote()
    assert (made.price.gross.high, made.promise.day, made.warnings) == (0, None, ())


def test_a_key_in_one_of_forty_lines_believes_nothing_anew() -> None:
    """The typing measurement holds a key to its milliseconds; this is why it can be kept."""
    formats = ("vhs", "vhs-c", "hi8", "minidv", "s-vhs")
    lines = [TapeLine(1, FormatName(formats[n % 5]), label=str(n)) for n in range(40)]
    load = turnaround.load(SHOP, [], TUESDAY)

    def typed(label: str) -> int:
        lines[20] = replace(lines[20], label=label)
        inventory = Inventory(tuple(lines), tv=TvSystem.NTSC)
        quoting.quote(inventory, ShopSnapshot(SHOP, BOOK, load, TUESDAY))
        return tape_minutes.belief_of.cache_info().misses

    assert typed("first") == typed("second")


@pytest.mark.parametrize(
    ("marking", "key", "metres", "minutes"),
    [("T-130", "read_by_rule", 265, 130), ("75 min", "told_minutes", 154, 75)],
)
def test_the_quote_says_that_a_length_was_read_by_rule(
    marking: str, key: str, metres: int, minutes: int
) -> None:
    made = quote(TapeLine(1, VHS, marking), TapeLine(1, VHS, "T-120"))
    told = say("quotes", key, marking=marking, metres=metres, minutes=minutes, system="VHS", speed="SP")

    assert say("quotes", "about_tapes", count=1, format="VHS", sentence=told) in made.warnings
    assert sum("by rule" in warning for warning in made.warnings) == 1
