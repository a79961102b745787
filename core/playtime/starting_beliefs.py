"""What a new shop believes about tapes nobody knows anything of, by group: whose habit, and of what kind.

What holds for every format stands in ``resources/catalogue/habits.toml``, what holds for one in its own file.
The shares are invented, and say so; the shop's own captures outweigh them, and every fact replaces them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Annotated, Protocol, TypeAlias

from msgspec import Meta, Struct

from core.catalogue.cassettes import Format
from core.catalogue.format_file import ANY, Mark, NotNegative, Positive, Share, Words
from core.catalogue.markings import Marking, Sourced
from core.model import resource_files
from core.model.names import Origin, TvSystem
from core.model.shaped_toml import read, shaped
from core.playtime.fill_stretches import LEAST

Weights: TypeAlias = Mapping[str, float]
Group: TypeAlias = tuple[str, str]
"""What a habit is about and whose: ``("speed", "vhs-c-ntsc")``."""
Counts: TypeAlias = Mapping[Group, Weights]
"""How many tapes of each group were found to be what."""


class GroupWeights(Protocol):
    """Whoever believes something of every group: a shop, or a box in it."""

    def weights(self, group: Group) -> Mapping[str, float]:
        """The shares of a group's possibilities, adding up to one."""
        ...


SHARED = ("system", "tv", "speed", "fill")
"""Kinds of habit that the tapes of one box share; a cassette's length is its maker's."""
WHOLE = "whole"
"""The profile of what is copied as a whole: film, pictures."""
_Row: TypeAlias = Annotated[tuple[NotNegative, ...], Meta(min_length=1, description="weights")]


_Over: TypeAlias = Annotated[float, Meta(gt=-1, description="number")]
"""Share by which a cassette is longer than the catalogue's length; below 0: shorter."""


class _Fill(Struct, frozen=True, forbid_unknown_fields=True):
    """Weights of the stretches between the edges, for each profile a format may name."""

    edges: _Row
    home: _Row
    camera: _Row
    studio: _Row
    whole: _Row


class _Told(Struct, frozen=True, forbid_unknown_fields=True):
    off: Positive
    below: Positive


class _Read(Struct, frozen=True, forbid_unknown_fields=True):
    off: Positive
    source: Words
    mark: Mark


class _Length(Struct, frozen=True, forbid_unknown_fields=True):
    over: tuple[tuple[_Over, NotNegative], ...]
    source: Words
    mark: Mark


class _BoxTv(Struct, frozen=True, forbid_unknown_fields=True):
    wrong: Share


class _Beliefs(Struct, frozen=True, forbid_unknown_fields=True):
    """The shape of ``habits.toml``."""

    source: Words
    mark: Mark
    worth: dict[str, Positive]
    alike: dict[str, _Row]
    tv: dict[str, dict[str, NotNegative]]
    box_tv: _BoxTv
    fill: _Fill
    told: _Told
    read: _Read
    length: dict[str, _Length]


@cache
def _beliefs() -> _Beliefs:
    path = resource_files.path("catalogue", "habits.toml")
    return shaped(read(path), _Beliefs, path.name)


def source() -> str:
    """Where these beliefs come from, as a clerk may read it."""
    return Sourced(None, _beliefs().source, _beliefs().mark).words


def worth(kind: str) -> float:
    """The captures that weigh as much as the starting belief."""
    return _beliefs().worth[kind]


def concentrations(kind: str) -> tuple[tuple[float, float], ...]:
    """(concentration of the box prior, its weight) before any box was seen."""
    alike = _beliefs().alike
    return tuple(zip(alike["candidates"], alike[kind], strict=True))


@cache
def starting_concentration(kind: str) -> float:
    """The concentration that stands for all candidates."""
    return mean_concentration(concentrations(kind))


def mean_concentration(candidates: tuple[tuple[float, float], ...]) -> float:
    """One concentration for several: that of their mean correlation 1 ÷ (1 + c), which widens a sum."""
    total = sum(weight for _, weight in candidates)
    correlation = sum(weight / (1 + value) for value, weight in candidates) / total
    return 1 / correlation - 1


# --- each kind of habit: its group and what it starts from ---------------------------------


def tv_weights(name: str) -> Weights:
    """What is believed of the TV systems: of a marking made for one of them, or of any."""
    return _beliefs().tv[name]


def box_tv_wrong() -> float:
    """How often the TV system of a box is wrong for a cassette whose marking tells the other one."""
    return _beliefs().box_tv.wrong


def fill_weights(shell: Format) -> Weights:
    """What is believed of the stretches between `fill_edges`, by their number."""
    return _numbered(getattr(_beliefs().fill, shell.habits.fill))


def length_weights(name: str) -> Weights:
    """What is believed of the steps of `length_over`, by their number."""
    return _numbered([weight for _, weight in _beliefs().length[name].over])


def tv_group(marking: Marking | None) -> Group:
    nominal = marking.nominal_tv if marking is not None else None
    return "tv", nominal.value if nominal else "any"


def system_group(shell: Format) -> Group:
    return "system", shell.name


def speed_group(system: Format, tv: TvSystem) -> Group:
    """By format and TV system, or by format where speed does not depend on it."""
    name = _counted_name(system)
    depends = any(entry.tv is not None for entry in system.tape_speeds)
    return "speed", f"{name}-{tv.value}" if depends else name


def fill_group(shell: Format) -> Group:
    return "fill", _counted_name(shell)


def length_group(marking: Marking) -> Group:
    """By how well the length is known: published, needed by the marking, read by rule, told in minutes.

    Film is measured by its reel, pictures are counted.
    """
    if marking.unit in ("feet", "pieces"):
        return "length", "measured" if marking.unit == "feet" else "counted"
    if marking.is_told:
        return "length", "told"
    if marking.rule is not None:
        return "length", "rule-marking" if marking.is_shortest else "rule"
    return "length", "marking" if marking.is_shortest else "published"


def fill_edges() -> tuple[float, ...]:
    """Where the stretches of the recorded share begin and end; the last one is the full tape."""
    return _beliefs().fill.edges


def told_fill_off(share: float) -> float:
    """How far the recorded share may lie from the one that was told."""
    told = _beliefs().told
    return told.off * min(1.0, share / told.below)


def read_fill_off() -> float:
    """How far the recorded share may lie from one that was measured, where the measuring does not say."""
    return _beliefs().read.off


@cache
def length_over(group: Group) -> tuple[float, ...]:
    """How much longer the cassette is, as shares of the catalogue's length, shortest first."""
    return tuple(over for over, _ in _beliefs().length[group[1]].over)


def stretch(marking: Marking) -> float:
    """How many times the steps of its group the spread is that is printed of a marking itself; 1 where none.

    A step of the group stands for the same part of either: of the 3 m of a T-120, of the 9 m of an E-240.
    """
    if marking.longest_m is None:
        return 1.0
    printed = (marking.longest_m.value / marking.metres.value - 1) / max(length_over(length_group(marking)))
    return printed if marking.rule is None else max(1.0, printed)


def over_of(marking: Marking) -> tuple[float, ...]:
    """`length_over` of one marking: what is longer reaches as far as the sources of the marking say."""
    times = stretch(marking)
    return tuple(over * times if over > 0 else over for over in length_over(length_group(marking)))


@cache
def length_names() -> tuple[str, ...]:
    """How well lengths may be known, in a settled order."""
    return tuple(_beliefs().length)


def length_source(group: Group) -> str:
    length = _beliefs().length[group[1]]
    return Sourced(None, length.source, length.mark).words


def camera_share(system: Format) -> float:
    """Tapes of the format that a camcorder made; 0 where nobody needs to ask."""
    return system.habits.camera.share if system.habits.camera else 0.0


def of_origin(weights: Weights, system: Format, origin: Origin | None) -> dict[str, float]:
    """Speeds of the tapes of one origin, given those of all: both origins together make up the whole."""
    camera = system.habits.camera
    if origin is None or camera is None or not camera.share:
        return dict(weights)
    fitting = scaled({name: camera.speeds.get(name, 0.0) + LEAST for name in weights})
    if origin is Origin.CAMERA:
        return fitting
    return scaled({name: max(LEAST, whole - camera.share * fitting[name]) for name, whole in weights.items()})


def marking_weights(shell: Format, tv: TvSystem) -> dict[str, float]:
    """The usual cassettes of a format in one TV system."""
    usual = shell.habits.usual
    return dict(usual.get(tv.value) or usual[ANY])


def scaled(weights: Weights) -> dict[str, float]:
    """The same weights, adding up to one."""
    total = sum(weights.values())
    return {name: weight / total for name, weight in weights.items()}


def _counted_name(entry: Format) -> str:
    """The name under which a format's habits are kept: a better grade of tape is used alike."""
    return entry.habits.counted_with or entry.name


def system_weights(shell: Format) -> Weights:
    """The recordings that are expected in the shell; its own only, unless labels mislead."""
    return {name: weight for name, weight in shell.record.systems.items() if weight > 0}


def speed_weights(system: Format, tv: TvSystem | None) -> Weights:
    pages = system.habits.speeds
    weights = (tv and pages.get(tv.value)) or pages.get(ANY) or next(iter(pages.values()))
    found = {speed.value: weights.get(speed.value, 0.0) for speed in system.speeds_in(tv)}
    return found if any(found.values()) else dict.fromkeys(found, 1.0)


def _numbered(weights: Sequence[float]) -> Weights:
    return {str(n): weight for n, weight in enumerate(weights)}
