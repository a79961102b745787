"""What a country settles: by the libraries where they know it, by a table with sources where they do not."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from zoneinfo import ZoneInfo, available_timezones

import phonenumbers
import pytest
from babel import Locale, localedata
from babel.numbers import get_territory_currencies
from holidays import country_holidays, list_supported_countries

from core.catalogue import country_defaults
from core.model.errors import WrongInput
from core.model.names import TvSystem
from core.wording import messages, typed_amounts

LETTER = {"BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"}
"""CLDR 46, common/supplemental/supplementalData.xml, paperSize US-Letter."""

NTSC = (
    "AG AW BS BB BZ BM BO MM CA CL CO CR CU CW DO EC SV GU GT HN JM JP KR MX MS NI PA PE PH PR KN SR TW TT US"
    " VE VI"
)
PAL = (
    "AL DZ AU AT BH BD BE BA BN KH CM HR CY DK EG ET GQ FI DE GH GI GL IS IN ID IL IT JO KE KW LR LY"
    " LU MY MV MT NP NL NZ NG NO OM PK PG PT QA ST SC SL SG SI SO ES LK SD SZ SE CH SY TH TN TR UG AE"
    " YE AR PY UY CN KP RO AO BW GM GW HK IE LS MW NA ZA TZ GB MC MZ ZM ZW"
)
"""Countries by color system as a table of broadcast frequencies lists them (N. Laredo and B. Biggs, 2002)."""

SECAM = "DJ GR IR IQ LB ML MR MU MA AF AM AZ BY BG CZ EE GE HU KZ LT MN MD PL RU SK UA VN MG BJ BF BI TD FR"
"""From the same table: 625 lines, played by PAL decks here."""

COUNTRIES = country_defaults.countries()


@pytest.fixture(autouse=True, scope="module")
def read_and_let_go() -> Iterator[None]:
    """Babel keeps what it read of a locale; the other tests of the run need not carry all of them."""
    yield
    localedata._cache.clear()


@pytest.mark.parametrize("country", COUNTRIES)
def test_every_country_has_what_a_shop_needs(country: str) -> None:
    found = country_defaults.of(country)
    assert found.currency in get_territory_currencies(country)
    assert typed_amounts.is_currency(found.currency)
    assert set(found.timezones) <= available_timezones()
    assert ZoneInfo(found.timezones[0])
    assert found.dialing_code == phonenumbers.country_code_for_region(country) > 0
    assert found.paper == ("letter" if country in LETTER else "a4")
    for tag in found.languages:
        assert Locale.parse(messages.speech(tag).locale)
    assert found.languages[0].startswith("en")
    assert bool(found.tax_name) is (found.tax_is_on_top is not None)


@pytest.mark.parametrize("country", COUNTRIES)
def test_the_regions_are_those_whose_holidays_are_known(country: str) -> None:
    found = country_defaults.of(country)
    known = list_supported_countries(include_aliases=False)
    assert found.holidays is (country in known)
    assert [code for code, _ in found.regions] == known.get(country, [])
    for code, words in found.regions[:1]:
        assert words
        assert country_holidays(country, subdiv=code, years=date(2026, 1, 1).year) is not None


def test_nearly_every_country_of_the_usual_traveler_has_one_time_zone_to_begin_with() -> None:
    first = {country: country_defaults.of(country).timezones[0] for country in COUNTRIES}
    assert first["US"] == "America/New_York"
    assert first["DE"] == "Europe/Berlin"  # not Busingen, a village
    assert first["ES"] == "Europe/Madrid"
    assert first["RU"] == "Europe/Moscow"
    assert first["NZ"] == "Pacific/Auckland"


@pytest.mark.parametrize(
    ("countries", "system"),
    [(NTSC, TvSystem.NTSC), (PAL, TvSystem.PAL), (SECAM, TvSystem.PAL)],
    ids=["ntsc", "pal", "secam"],
)
def test_the_tv_system_is_that_of_the_published_list(countries: str, system: TvSystem) -> None:
    wrong = {code for code in countries.split() if country_defaults.of(code).tv is not system}
    assert wrong == set()


@pytest.mark.parametrize(
    ("country", "currency", "on_top", "tax", "order"),
    [
        ("US", "USD", True, "Sales tax", "mdy"),
        ("CA", "CAD", True, "GST/HST", "ymd"),
        ("GB", "GBP", False, "VAT", "dmy"),
        ("DE", "EUR", False, "MwSt.", "dmy"),
        ("JP", "JPY", False, "Consumption tax", "ymd"),
        ("KW", "KWD", None, "", "dmy"),
    ],
)
def test_money_tax_and_dates_are_those_of_the_country(
    country: str, currency: str, on_top: bool | None, tax: str, order: str
) -> None:
    found = country_defaults.of(country)
    assert (found.currency, found.tax_is_on_top, found.tax_name) == (currency, on_top, tax)
    assert found.date_order == order


def test_countries_are_called_as_the_reader_calls_them() -> None:
    assert country_defaults.name("DE") == "Germany"
    messages.use("de")
    try:
        assert country_defaults.name("DE") == "Deutschland"
    finally:
        messages.use("en")


def test_an_unknown_country_is_named() -> None:
    with pytest.raises(WrongInput, match="Country: found 'ZZ'; a country code"):
        country_defaults.of("ZZ")
