"""What a country settles for a shop: currency, tax, paper, TV system, holidays, language, dates, time zone.

From Babel (CLDR: currencies, official languages, time zones, order of dates), `holidays` (countries and their
regions), phonenumbers (dialing codes); the rest is in ``countries.toml``, each part with its source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from core.catalogue.country_file import CountryFile
from core.model import resource_files
from core.model.errors import WrongInput
from core.model.names import TvSystem
from core.model.shaped_toml import read, shaped
from core.wording.messages import current, say

DateOrder = Literal["mdy", "dmy", "ymd"]


@dataclass(frozen=True, slots=True)
class CountryDefaults:
    """What is usual in a country. Everything may be changed by the owner."""

    country: str
    """ISO 3166, two letters; a phone number without a country code belongs there."""
    currency: str
    """ISO 4217."""
    tax_is_on_top: bool | None
    """Whether tax comes on top of a price or is inside; None where it is not known here."""
    tax_name: str
    """As it stands on a bill; empty where it is not known here."""
    paper: str
    """``letter`` or ``a4``."""
    tv: TvSystem
    dialing_code: int
    """As ITU-T E.164 gives it."""
    holidays: bool
    """Whether the public holidays are known."""
    regions: tuple[tuple[str, str], ...]
    """Codes and names of the regions with holidays of their own."""
    languages: tuple[str, ...]
    """Tags, the one to begin with first."""
    date_order: DateOrder
    """In which order day, month and year stand."""
    timezones: tuple[str, ...]
    """IANA names, the one most people live in first."""


@cache
def countries() -> tuple[str, ...]:
    """Every country with a telephone network, a currency and a time zone, by code."""
    from babel.core import get_global
    from babel.numbers import get_territory_currencies
    from phonenumbers import SUPPORTED_REGIONS

    zones = set(get_global("zone_territories").values()) & SUPPORTED_REGIONS
    return tuple(sorted(code for code in zones if get_territory_currencies(code)))


def name(country: str) -> str:
    """The country as the reader's language calls it; the code where CLDR has no name."""
    return names().get(country, country)


def names() -> Mapping[str, str]:
    """Every country's name in the reader's language, by code."""
    return _names(current().locale)


@lru_cache(maxsize=256)
def of(country: str) -> CountryDefaults:
    """What is usual in a country; WrongInput when it is none of `countries`."""
    if country not in countries():
        raise WrongInput(say("settings", "front-country"), country, say("files", "country"))
    from phonenumbers import country_code_for_region

    page = _page()
    regions = holiday_regions(country)
    return CountryDefaults(
        country=country,
        currency=currency(country),
        tax_is_on_top=_tax_is_on_top(country),
        tax_name=(page.tax.on_top | page.tax.inside).get(country, ""),
        paper="letter" if country in page.paper.letter else "a4",
        tv=TvSystem.NTSC if country in page.tv.ntsc else TvSystem.PAL,
        dialing_code=country_code_for_region(country),
        holidays=regions is not None,
        regions=regions or (),
        languages=_languages(country),
        date_order=_date_order(country),
        timezones=timezones(country),
    )


def currency(country: str) -> str:
    """The money of one of `countries`, by ISO 4217."""
    from babel.numbers import get_territory_currencies

    return str(get_territory_currencies(country)[0])


def timezones(country: str) -> tuple[str, ...]:
    """The IANA zones of one of `countries`, the one most people live in first."""
    from babel.core import get_global

    zones = sorted(zone for zone, where in get_global("zone_territories").items() if where == country)
    first = _page().time_zone.first.get(country, zones[0])
    return tuple(dict.fromkeys([first, *zones]))


def has_holidays(country: str) -> bool:
    """Whether the public holidays of a country are known."""
    from holidays import list_supported_countries

    return country in list_supported_countries(include_aliases=False)


@lru_cache(maxsize=256)
def holiday_regions(country: str) -> tuple[tuple[str, str], ...] | None:
    """Codes and names of the regions whose public holidays differ; None where no holidays are known."""
    from holidays import country_holidays, list_supported_countries

    codes = list_supported_countries(include_aliases=False).get(country)
    if codes is None:
        return None
    named = country_holidays(country).get_subdivision_aliases()
    return tuple((code, next(iter(named.get(code) or ()), code)) for code in codes)


@lru_cache(maxsize=4)
def _names(locale: str) -> Mapping[str, str]:
    from babel import Locale

    known = Locale.parse(locale).territories
    return {code: str(known.get(code, code)) for code in countries()}


@cache
def _page() -> CountryFile:
    path = resource_files.path("catalogue", "countries.toml")
    return shaped(read(path), CountryFile, path.name)


def _tax_is_on_top(country: str) -> bool | None:
    tax = _page().tax
    if country in tax.on_top:
        return True
    return False if country in tax.inside else None


def _languages(country: str) -> tuple[str, ...]:
    """English with the figures and dates of the country, or of the world; then the official languages.

    English first: it is the language that has every sentence.
    """
    from babel.languages import get_official_languages

    own = [tag for tag in get_official_languages(country, regional=False, de_facto=True) if _has_locale(tag)]
    english = "en" if country == "US" else f"en-{country}" if _has_locale(f"en_{country}") else "en-001"
    return tuple(dict.fromkeys([english, *(tag for tag in own if tag != "en")]))


def _date_order(country: str) -> DateOrder:
    """By the short date of the country's first official language."""
    from babel import Locale
    from babel.languages import get_official_languages

    own = get_official_languages(country, regional=False, de_facto=True)
    tags = [f"{tag}_{country}" for tag in own if _has_locale(f"{tag}_{country}")]
    pattern = str(Locale.parse(tags[0] if tags else "en_001").date_formats["short"].pattern)
    order = "".join(sorted("dMy", key=pattern.find)).lower()
    return "ymd" if order == "ymd" else "mdy" if order == "mdy" else "dmy"


@lru_cache(maxsize=1024)
def _has_locale(tag: str) -> bool:
    """Whether CLDR has it. Nothing of it is read: Babel never forgets what it once read of a locale."""
    from babel import Locale, UnknownLocaleError

    try:
        Locale.parse(tag)
    except (UnknownLocaleError, ValueError):
        return False
    return True
