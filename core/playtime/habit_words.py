"""Habits in words: what a habit is about, whose it is, and each of its possibilities."""

from __future__ import annotations

from itertools import pairwise

from core.catalogue.formats import catalogue
from core.model.names import Speed
from core.playtime.starting_beliefs import Group, fill_edges, format_and_tv, length_over, starting

ABOUT = {
    "system": "what was recorded",
    "tv": "TV system",
    "speed": "recording speed",
    "fill": "how full",
    "length": "length of the cassette",
}
"""Kinds of habit in words."""


def whose(group: Group) -> str:
    """Whose habit it is: ``VHS-C (NTSC)``."""
    kind, name = group
    if kind == "length":
        return (
            "full cassettes of unpublished length" if name == "marking" else "full cassettes of known length"
        )
    if kind == "tv":
        return "tapes marked for no TV system" if name == "any" else f"tapes marked for {name.upper()}"
    form, tv = format_and_tv(name)
    return f"{form.words} ({tv.value.upper()})" if tv else form.words


def possibilities_of(group: Group) -> dict[str, str]:
    """The possibilities of a group, each in words; several may share their words."""
    kind = group[0]
    names = starting(group)
    if kind == "speed":
        return {name: Speed(name).words for name in names}
    if kind == "system":
        return {name: catalogue().format(name).words for name in names}
    if kind == "fill":
        middles = [(a + b) / 2 for a, b in pairwise(fill_edges())]
        said = ["less than half full" if m < 0.42 else "half full or more" for m in middles[:-1]]
        return dict(zip(names, (*said, "full to the end"), strict=True))
    if kind == "length":
        overs = length_over(group)
        return {
            name: f"{100 * over:g} % longer" if over else "no longer"
            for name, over in zip(names, overs, strict=True)
        }
    return {name: name.upper() for name in names}
