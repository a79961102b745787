"""Every figure of the catalogue beside speeds and lengths, with where it comes from, for the owner to read.

A figure without a source has an empty one here, and whoever shows it says so.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from core.catalogue.cassettes import Format, Sourced
from core.model import resource_files
from core.playtime import packs
from core.pricing import bitrates

Figure = Sourced[float]


@dataclass(frozen=True, slots=True)
class SourcedFigure:
    """One figure: what it is of, the figure with its unit, and where it comes from."""

    what: str
    figure: str
    source: Sourced[None]


def of_format(form: Format) -> tuple[SourcedFigure, ...]:
    """Reels, hubs, thicknesses and tracks of one format; equal ones of several markings are one fact."""
    return (
        *(_fact(f"shell, {each.words}", _size(each.size.value), each.size) for each in form.shells[1:]),
        *(
            [_fact("edge of the reel", _mm(form.reel_radius_mm), form.reel_radius_mm)]
            if form.reel_radius_mm
            else ()
        ),
        *_by_marking(form, "hub radius", "mm", "hub_radius_mm"),
        *_by_marking(form, "tape thickness", "µm", "thickness_um"),
        *(
            _fact(
                f"track along the tape{f', {each.tv.value.upper()}' if each.tv else ''}",
                _mm(each.mm),
                each.mm,
            )
            for each in form.footprints
        ),
    )


def of_packs() -> tuple[SourcedFigure, ...]:
    """What a reading through the window leaves open, and where the reels are drawn."""
    page, found = packs.page(), []
    for family, spans in page["thickness"].items():
        for span in spans:
            figure = f"{span['from']:g} to {span['to']:g} µm"
            found.append(
                SourcedFigure(f"{family} tape of {span['nominal']:g} µm may be", figure, _told(span))
            )
    for family, place in page["reels"].items():
        figure = f"{place['apart']:g} mm apart, {place['from_back']:g} mm from the back"
        found.append(SourcedFigure(f"reels of {family}, as drawn", figure, _told(place)))
    return tuple(found)


def of_media() -> tuple[SourcedFigure, ...]:
    """Rates of codecs, sizes of discs, and every line between good and poor."""
    page = bitrates.page()
    rates = (
        SourcedFigure(each["words"], f"{each['mb_s']:g} Mb/s", _told(each))
        for each in page["codecs"].values()
    )
    discs = (
        SourcedFigure(each["words"], f"{each['sectors']} sectors", _told(each))
        for each in page["discs"].values()
    )
    return (*rates, *discs, *_told_apart(page))


def of_repairs() -> tuple[SourcedFigure, ...]:
    """Bench times; none of them has a source, and the page of the catalogue says so once for all."""
    page = tomllib.loads(resource_files.path("catalogue", "repairs.toml").read_text(encoding="utf-8"))
    whole = Sourced(None, page["source"], page["mark"])
    return tuple(
        SourcedFigure(f"{each['words']}{size}", "{0} to {2} min, likely {1}".format(*each[key]), whole)
        for each in page["repairs"].values()
        for key, size in (("minutes", ""), ("small", ", small shells"))
    )


def _told_apart(page: Mapping[str, Any]) -> Iterator[SourcedFigure]:
    for table, names in page["sources"].items():
        for name, about in names.items():
            yield SourcedFigure(about["words"], _plain(page[table][name]), _told(about))


def _by_marking(form: Format, words: str, unit: str, name: str) -> Iterator[SourcedFigure]:
    """One fact for each figure, with the markings it holds for."""
    markings: dict[tuple[float, str, str], list[str]] = {}
    for each in form.markings:
        figure: Figure | None = getattr(each, name)
        if figure is not None:
            markings.setdefault((figure.value, figure.source, figure.mark), []).append(each.name)
    for (value, source, mark), named in markings.items():
        yield SourcedFigure(f"{words}, {', '.join(named)}", f"{value:g} {unit}", Sourced(None, source, mark))


def _fact(what: str, figure: str, value: Sourced[Any]) -> SourcedFigure:
    return SourcedFigure(what, figure, Sourced(None, value.source, value.mark))


def _mm(figure: Figure) -> str:
    return f"{figure.value:g} mm"


def _size(size: tuple[float, float, float]) -> str:
    return " × ".join(f"{side:g}" for side in size) + " mm"


def _plain(value: object) -> str:
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)


def _told(table: Mapping[str, Any]) -> Sourced[None]:
    return Sourced(None, table["source"], table["mark"])
