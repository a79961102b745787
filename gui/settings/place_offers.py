"""What is offered where a place is asked: countries, currencies, time zones, languages, holiday regions."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from core.catalogue import country_defaults
from core.wording.messages import current, say, worded_cache


@worded_cache(maxsize=2)
def countries() -> Mapping[str, str]:
    """Every country by name, in the order of the names."""
    return dict(sorted(country_defaults.names().items(), key=lambda each: each[1]))


@worded_cache(maxsize=2)
def currencies() -> Mapping[str, str]:
    """Every currency that is money somewhere today: ``USD – US Dollar``."""
    from babel.numbers import get_currency_name

    return {
        code: say(
            "settings",
            "front-currency-words",
            code=code,
            name=get_currency_name(code, locale=current().locale),
        )
        for code in _in_use()
    }


def timezones(country: str) -> Mapping[str, str]:
    """The zones of the country first, then all others."""
    own = country_defaults.of(country).timezones if country in country_defaults.countries() else ()
    return {zone: zone.replace("_", " ") for zone in dict.fromkeys((*own, *_every_zone()))}


@worded_cache(maxsize=16)
def languages(country: str) -> Mapping[str, str]:
    """English as the country writes figures and dates, then its own languages, then American English."""
    own = country_defaults.of(country).languages if country in country_defaults.countries() else ()
    return {tag: _language(tag) for tag in dict.fromkeys((*own, "en", "en-GB"))}


@worded_cache(maxsize=2)
def holiday_countries() -> Mapping[str, str]:
    """Countries whose public holidays are known."""
    return {code: name for code, name in countries().items() if country_defaults.has_holidays(code)}


@worded_cache(maxsize=16)
def holiday_regions(country: str) -> Mapping[str, str]:
    """The regions of a country by name, the whole country first."""
    found = country_defaults.holiday_regions(country) or ()
    return {"": say("settings", "hours-whole-country"), **{code: _region(code, name) for code, name in found}}


def _region(code: str, name: str) -> str:
    return name if name == code else say("settings", "hours-region", name=name, code=code)


def _language(tag: str) -> str:
    from babel import Locale

    name = str(Locale.parse(tag.replace("-", "_")).get_display_name(current().locale))
    if tag == "en":
        name = str(Locale.parse("en_US").get_display_name(current().locale))
    if tag.startswith("en"):
        return name
    return say("settings", "front-language-part", name=name)


@cache
def _in_use() -> tuple[str, ...]:
    return tuple(sorted({country_defaults.currency(code) for code in country_defaults.countries()}))


@cache
def _every_zone() -> tuple[str, ...]:
    return tuple(
        sorted(zone for code in country_defaults.countries() for zone in country_defaults.timezones(code))
    )
