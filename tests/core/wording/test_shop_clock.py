"""The shop's own day is one day everywhere, and nobody reads a moment in another zone than the shop's.

2026-03-08 03:30 UTC is 10:30 PM on Saturday, March 7 in New York, where clocks go forward that night; on
Sundays the shop is closed, so that nothing is promised for that day either.
"""

from __future__ import annotations

import ast
import re
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from core.model.errors import WrongInput
from core.wording import locale_figures, shop_clock
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.typed import Typist

ROOT = Path(shop_clock.__file__).parents[2]
EVENING = "2026-03-07T22:30:00-05:00"
LATE = datetime(2026, 3, 8, 3, 30, tzinfo=UTC)

NEVER_SHOWN = "2026-03-08|Mar 8|March 8|Sunday|03:30|T03|\\+00:00"
"""How the evening looks in UTC."""


def _begin(desk: Desk) -> None:
    desk.clock.now = LATE
    desk.book(line())


begun_file, begun_server = beginnings.begun_file(_begin), beginnings.begun_server(_begin)


def test_the_day_is_the_shops_and_so_is_the_time() -> None:
    shop_clock.use("America/New_York")
    assert shop_clock.day(LATE) == date(2026, 3, 7)
    assert locale_figures.dated_moment(shop_clock.local(LATE)) == "Mar 7, 2026, 10:30\N{NO-BREAK SPACE}PM"
    shop_clock.use("Asia/Tokyo")
    assert shop_clock.day(LATE) == date(2026, 3, 8)


@pytest.fixture
def evening(typed: Typist, begun_file: Path) -> Typist:
    Path(typed.shop).write_bytes(begun_file.read_bytes())
    return typed


@pytest.mark.parametrize(
    "words",
    [
        ("history", "0000180014"),
        ("status", "000018"),
        ("agreement", "000018"),
        ("promises",),
        ("called", "000018", "--said", "soon"),
        ("shop", "history"),
        ("load-now",),
        ("customers", "Fenwick"),
    ],
)
def test_what_was_done_in_the_evening_is_told_as_of_that_evening(
    evening: Typist, words: tuple[str, ...]
) -> None:
    """In the plain text of the command line. Seen red: ``history`` told 03:30 and +00:00."""
    said = evening(*words, now=EVENING, as_json=False)
    assert said.code == 0, said.err
    assert not re.search(NEVER_SHOWN, said.out), said.out


def test_the_history_tells_day_and_time_as_people_say_them(evening: Typist) -> None:
    out = evening("history", "0000180014", now=EVENING, as_json=False).out
    assert "Mar 7, 2026, 10:30\N{NO-BREAK SPACE}PM  Kim: " in out


def test_phones_are_told_as_they_are_dialed(evening: Typist) -> None:
    """E.164 is for programs: the JSON keeps it."""
    words = ("correct", "000018", "--phone", "+1 303 555 0143")
    assert "(303) 555-0143" in evening(*words, now=EVENING, as_json=False).out
    assert evening(*words, now=EVENING).document["customer"]["phone"] == "+13035550143"


@pytest.mark.parametrize(
    ("found", "shown"),
    [
        ("3\tVHS\tT-120\n", "found '3 VHS T-120'"),
        ("D:\\Backup", "found 'D:\\Backup'"),
        ("it's", 'found "it\'s"'),
        ("two\nlines", "found 'two / lines'"),
        ("a\u202eb\x9bc", "found 'a b c'"),
    ],
)
def test_what_was_found_is_shown_as_it_was_typed(found: str, shown: str) -> None:
    """Never as a program writes it. Seen red: ``'3\\tVHS…'``."""
    assert shown in WrongInput("Format", found, "a format is accepted").sentence


# --- a fence -----------------------------------------------------------------------------

ON_THE_SHOPS_CLOCK = {
    "core/cli": {
        "subcommands/box_of_tapes.py": "the local time of the quote that is worked out",
        "subcommands/accounts_typed.py": "turned into the shop's zone in the same line",
        "subcommands/agreements_typed.py": "turned into the shop's zone in the same line",
        "subcommands/privacy_typed.py": "turned into the shop's zone in the same line",
    },
    "gui": {
        "app/walkthrough_records.py": "a moment that was given with its zone",
        "copying/copies_at_work.py": "turned into the shop's zone in the same line",
        "shop/deck_week_axis.py": "the week that is worked out, on the shop's clock",
        "shop/deck_week_words.py": "the week that is worked out, on the shop's clock",
        "shop/downtime_form.py": "the week that is worked out, on the shop's clock",
        "widgets/twenty_dots.py": "a promise is made at a time of the shop's clock",
    },
}
"""By file: why a day is taken from a moment without `shop_clock`."""


@pytest.mark.parametrize("shelf", ON_THE_SHOPS_CLOCK)
def test_whoever_shows_a_day_takes_it_from_the_shops_clock(shelf: str) -> None:
    """A moment of the records is in UTC: its day is another one in the evening."""
    found = {
        path.relative_to(ROOT / shelf).as_posix()
        for path in (ROOT / shelf).rglob("*.py")
        for each in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(each, ast.Call)
        and isinstance(each.func, ast.Attribute)
        and each.func.attr == "date"
        and not each.args
    }
    assert found == ON_THE_SHOPS_CLOCK[shelf].keys()
