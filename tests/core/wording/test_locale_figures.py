"""Days, amounts, numbers and phones by locale, against Babel's and phonenumbers' own formats."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import pytest

from core.wording import locale_figures, messages

DAY = date(2026, 3, 12)
AFTERNOON = time(14, 5)


# Patterns of CLDR (Unicode LDML part 4), fields widened as UTS 35 says; written out from Babel's data.
@pytest.mark.parametrize(
    ("locale", "long", "short", "clock"),
    [
        ("en_US", "Thursday, March 12", "Thu, Mar 12", "2:05\u00a0PM"),
        ("en_GB", "Thursday 12 March", "Thu 12 Mar", "14:05"),
        ("de_DE", "Donnerstag, 12. März", "Do., 12. März", "14:05"),
        ("es_ES", "jueves, 12 de marzo", "jue, 12 mar", "14:05"),
        ("fr_FR", "jeudi 12 mars", "jeu. 12 mars", "14:05"),
        ("pl_PL", "czwartek, 12 marca", "czw., 12 mar", "14:05"),
    ],
)
def test_days_and_clock_follow_the_locale(locale: str, long: str, short: str, clock: str) -> None:
    written = locale_figures.day(DAY, locale), locale_figures.short_day(DAY, locale)
    assert (*written, locale_figures.time_of_day(AFTERNOON, locale)) == (long, short, clock)


def test_a_moment_is_told_on_the_clock_of_its_place() -> None:
    noon = datetime(2026, 3, 12, 18, 5, tzinfo=UTC)
    assert locale_figures.moment(noon, "America/New_York") == "Thu, Mar 12, 2:05\u00a0PM"
    assert locale_figures.moment(noon, "America/New_York", "de_DE") == "Do., 12. März, 14:05"


# Minor units of ISO 4217: dollar 2, yen 0, dinar of Kuwait 3.
@pytest.mark.parametrize(("currency", "said"), [("USD", "$12.50"), ("JPY", "¥1,250"), ("KWD", "1.250")])
def test_amounts_have_the_decimals_of_their_currency(currency: str, said: str) -> None:
    # Babel leaves out the space that CLDR puts behind a code of letters.
    assert locale_figures.money(1250, currency).removeprefix("KWD") == said


def test_a_debt_has_a_minus_sign_and_its_range_has_words() -> None:
    assert locale_figures.money(-1250, "USD") == "−$12.50"
    assert locale_figures.money_range(-100, 200, "USD") == "−$1.00 to $2.00"
    assert locale_figures.money_range(100, 200, "USD") == "$1.00–$2.00"


def test_an_amount_follows_the_language_spoken_now() -> None:
    before = locale_figures.money(123456, "EUR")
    messages.use("de")
    assert (before, locale_figures.money(123456, "EUR")) == ("€1,234.56", "1.234,56\u00a0€")


def test_narrow_spaces_become_plain_ones() -> None:
    assert locale_figures.figure(12345, "fr_FR") == "12\u00a0345"


# ITU-T E.123: national and international notation, by phonenumbers.
@pytest.mark.parametrize(
    ("country", "said"), [(None, "(201) 555-0123"), ("US", "(201) 555-0123"), ("DE", "+1 201-555-0123")]
)
def test_a_phone_number_is_written_as_it_is_dialed_from_here(country: str | None, said: str) -> None:
    assert locale_figures.phone("+12015550123", country) == said


def test_lists_are_joined_as_the_locale_joins_them() -> None:
    things = ["a", "b", "c"]
    assert locale_figures.listed(things) == "a, b, and c"
    assert locale_figures.listed(things, locale="en_GB") == "a, b and c"
    assert locale_figures.listed(things, locale="de") == "a, b und c"


@pytest.mark.parametrize(
    ("gone", "said"),
    [
        (timedelta(seconds=-5), "just now"),
        (timedelta(minutes=12), "for 12 min"),
        (timedelta(hours=3), "for 3 h"),
        (timedelta(days=1), "for 1 day"),
        (timedelta(days=2), "for 2 days"),
    ],
)
def test_since_when_is_said_in_one_unit(gone: timedelta, said: str) -> None:
    then = datetime(2026, 3, 12, tzinfo=UTC)
    assert locale_figures.since(then, then + gone) == said


def test_lengths_and_codes() -> None:
    lengths = [locale_figures.duration(minutes) for minutes in (0, 45, 120, 125)]
    assert lengths == ["0 min", "45 min", "2 h", "2 h 5 min"]
    assert (locale_figures.minutes_range(62, 62), locale_figures.minutes_range(40, 124)) == (
        "62 min",
        "40–124 min",
    )
    assert locale_figures.tape_code("0000180014") == "000018 001 4"
    assert locale_figures.tape_code("lost") == "lost"


def test_weekday_and_month_stand_alone() -> None:
    assert (locale_figures.weekday(DAY), locale_figures.weekday(DAY, "fr_FR")) == ("Thursday", "jeudi")
    assert locale_figures.day_of_month(DAY, "de_DE") == "12. März"


@pytest.mark.parametrize(
    ("locale", "written"),
    [("en_US", "78%"), ("de_DE", "78\u00a0%"), ("fr_FR", "78\u00a0%")],
)
def test_a_share_is_written_as_the_locale_writes_percent(locale: str, written: str) -> None:
    """The percent patterns of CLDR."""
    assert locale_figures.percent(0.784, locale) == written


def test_a_range_of_shares_is_one_figure_where_both_ends_agree() -> None:
    assert locale_figures.percent_range(0.47, 0.534) == "47–53%"
    assert locale_figures.percent_range(0.531, 0.534) == "53%"


@pytest.mark.parametrize(("locale", "written"), [("en", ["9a", "12p", "2p"]), ("de", ["9", "12", "14"])])
def test_an_hour_on_an_axis_is_written_by_the_clock_of_the_locale(locale: str, written: list[str]) -> None:
    """Twelve hours and narrow day periods in ``en``, twenty-four in ``de``: CLDR, through Babel."""
    hours = [datetime(2026, 3, 12, hour) for hour in (9, 12, 14)]
    assert [locale_figures.hour_of_day(each, locale) for each in hours] == written


@pytest.mark.parametrize("locale", ["en", "en_GB", "de", "fr", "es"])
def test_the_forms_of_a_date_grow_shorter_and_never_lose_the_day_of_the_week(locale: str) -> None:
    forms = locale_figures.dates_by_length(DAY, locale)
    lengths = [len(form) for form in forms]
    assert lengths == sorted(lengths, reverse=True)
    assert all(forms[-1].rstrip(".") in form for form in forms)
