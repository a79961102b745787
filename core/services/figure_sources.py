"""Every figure of the catalogue beside speeds and lengths, with where it comes from, for the owner to read.

A figure without a source has an empty one here, and whoever shows it says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from core.catalogue import findings
from core.catalogue.cassettes import Format
from core.catalogue.format_file import PackGeometry
from core.catalogue.formats import catalogue
from core.catalogue.markings import Derivation, Sourced, thickness_of
from core.model.names import TvSystem
from core.pricing import bitrates
from core.wording.messages import say

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
        *(
            _fact(say("sources", "shell_of", words=words), _size(each.size.value), each.size)
            for words, each in list(zip(form.sentences("size"), form.shells, strict=True))[1:]
        ),
        *(
            [_fact(say("sources", "edge_reel"), _mm(form.reel_radius_mm), form.reel_radius_mm)]
            if form.reel_radius_mm
            else ()
        ),
        *_amounts(form),
        *_by_rule(form),
        *_by_marking(form, say("sources", "hub_radius"), "mm", "hub_radius_mm"),
        *_by_marking(form, say("sources", "tape_thickness"), "µm", "thickness_um"),
        *(
            _fact(
                say("sources", "track_along_tape", value=f", {each.tv.value.upper()}" if each.tv else ""),
                _mm(each.mm),
                each.mm,
            )
            for each in form.footprints
        ),
    )


def _amounts(form: Format) -> Iterator[SourcedFigure]:
    """What an amount of it is reckoned with: frames to the foot, seconds a picture, the machine's pace."""
    amount = form.record.amount
    named = {"amount_speed": "mm_s", "amount_pace": "pace"}
    for key in ("frames_per_foot", "seconds_a_piece", *named) if amount else ():
        found = getattr(amount, named.get(key, key))
        if found is not None:
            source = Sourced(None, found.source, found.mark)
            yield SourcedFigure(say("sources", key), f"{found.value:g}", source)


def of_packs() -> tuple[SourcedFigure, ...]:
    """What a reading through the window leaves open, and where the reels are drawn; alike formats once."""
    found: dict[str, PackGeometry] = {}
    for form in catalogue().formats:
        if form.record.pack is not None and form.record.pack not in found.values():
            found.setdefault(form.words, form.record.pack)
    return tuple(fact for words, pack in found.items() for fact in _of_pack(words, pack))


def _of_pack(words: str, pack: PackGeometry) -> Iterator[SourcedFigure]:
    for grade in pack.thicknesses.values():
        figure = say("sources", "microns", low=f"{grade.span.thin:g}", high=f"{grade.span.thick:g}")
        source = Sourced(None, grade.span.source, grade.span.mark)
        yield SourcedFigure(
            say("sources", "tape_m_may", words=words, value=f"{thickness_of(grade).value:g}"), figure, source
        )
    place = pack.reels_drawn
    figure = say("sources", "mm_apart_mm_back", apart=f"{place.apart:g}", from_back=f"{place.from_back:g}")
    yield SourcedFigure(
        say("sources", "reels_drawn", words=words), figure, Sourced(None, place.source, place.mark)
    )


def of_media() -> tuple[SourcedFigure, ...]:
    """Rates of codecs, sizes of discs, and every line between good and poor."""
    page = bitrates.page()
    rates = (
        SourcedFigure(words, f"{each['mb_s']:g} Mb/s", _told(each))
        for codec, table in page["codecs"].items()
        for words, each in _by_tv(bitrates.words(codec), table)
    )
    discs = (
        SourcedFigure(each["words"], say("sources", "sectors", n=str(each["sectors"])), _told(each))
        for each in page["discs"].values()
    )
    return (*rates, *discs, *_told_apart(page))


def _by_tv(words: str, table: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """A codec, and the TV systems for which it has a rate of their own."""
    yield words, table
    for tv in TvSystem:
        if tv.value in table:
            yield say("sources", "codec_in", codec=words, tv=tv.value.upper()), table[tv.value]


def _likely_minutes(minutes: tuple[float, float, float]) -> str:
    low, likely, high = (f"{each:g}" for each in minutes)
    return say("sources", "min_likely", low=low, likely=likely, high=high)


def of_repairs() -> tuple[SourcedFigure, ...]:
    """Bench times; none of them has a source, and the page of the catalogue says so once for all."""
    page = findings.page()
    whole = Sourced(None, page.source, page.mark)
    return tuple(
        SourcedFigure(say("sources", size, repair=say("repairs", code)), _likely_minutes(minutes), whole)
        for code, each in page.repairs.items()
        for minutes, size in ((each.usual, "any_shell"), (each.small, "small_shells"))
    )


def _told_apart(page: Mapping[str, Any]) -> Iterator[SourcedFigure]:
    for table, names in page["sources"].items():
        for name, about in names.items():
            yield SourcedFigure(
                say("media", f"figure-{table}-{name}"), _plain(page[table][name]), _told(about)
            )


def _by_rule(form: Format) -> Iterator[SourcedFigure]:
    """One fact for each rule by which markings are read that nobody lists."""
    for rule in form.rules:
        first, last = (rule.read(number) for number in rule.entry.numbers)
        lengths = f"{first.metres.value:.1f}–{last.metres.value:.1f} m"
        what = say("sources", "length-by-rule", first=first.name, last=last.name)
        yield SourcedFigure(what, lengths, Sourced(None, rule.entry.source, rule.entry.mark))


def _by_marking(form: Format, words: str, unit: str, name: str) -> Iterator[SourcedFigure]:
    """One fact for each figure, with the markings it holds for."""
    markings: dict[tuple[float, str | Derivation, str], list[str]] = {}
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
