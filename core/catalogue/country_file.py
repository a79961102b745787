"""The shape of ``countries.toml``: what a country settles and no library knows."""

# Annotations are not put off here: msgspec would have to evaluate each text of them at the first start.
from typing import Annotated, TypeAlias

from msgspec import Meta, Struct

from core.catalogue.format_file import Mark, Words

Country: TypeAlias = Annotated[str, Meta(pattern=r"^[A-Z]{2}$", description="country")]


class CountryPaper(Struct, frozen=True, forbid_unknown_fields=True):
    """Countries whose office paper is Letter; everywhere else it is A4."""

    source: Words
    mark: Mark
    letter: frozenset[Country]


class CountryTv(Struct, frozen=True, forbid_unknown_fields=True):
    """Countries whose home tapes have 525 lines; everywhere else they have 625."""

    source: Words
    mark: Mark
    ntsc: frozenset[Country]


class CountryTaxes(Struct, frozen=True, forbid_unknown_fields=True):
    """The name of the tax on services, by where the price has it: on top, or inside."""

    source: Words
    mark: Mark
    on_top: dict[Country, Words]
    inside: dict[Country, Words]


class CountryZones(Struct, frozen=True, forbid_unknown_fields=True):
    """``first``: the zone most people live in, where a country has several."""

    source: Words
    mark: Mark
    first: dict[Country, Words]


class CountryFile(Struct, frozen=True, forbid_unknown_fields=True):
    """The whole file."""

    paper: CountryPaper
    tv: CountryTv
    tax: CountryTaxes
    time_zone: CountryZones
