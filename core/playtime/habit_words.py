"""Habits in words: what a habit is about, whose it is, and each of its possibilities."""

from __future__ import annotations

from itertools import pairwise

from core.catalogue.formats import catalogue
from core.model.names import Speed
from core.playtime.habits import NoticedChange, format_and_tv, starting
from core.playtime.starting_beliefs import Group, fill_edges, length_over
from core.wording.messages import say


def about(kind: str) -> str:
    """What a kind of habit is about: ``recording speed``."""
    return say("habits", f"about-{kind}")


def whose(group: Group) -> str:
    """Whose habit it is: ``VHS-C (NTSC)``."""
    kind, name = group
    if kind == "length":
        return say("habits", f"whose-{name}")
    if kind == "tv":
        return say("habits", "whose-any-tv" if name == "any" else "whose-tv", tv=name.upper())
    form, tv = format_and_tv(name)
    return say("habits", "whose-in-tv", format=form.words, tv=tv.value.upper()) if tv else form.words


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
        keys = (*("fill-less" if m < 0.42 else "fill-most" for m in middles[:-1]), "fill-full")
        return {name: say("habits", key) for name, key in zip(names, keys, strict=True)}
    if kind == "length":
        overs = length_over(group)
        return {
            name: say("habits", _length_key(over), percent=abs(100 * over))
            for name, over in zip(names, overs, strict=True)
        }
    return {name: name.upper() for name in names}


def changed(change: NoticedChange) -> str:
    """That customers bring other tapes than before, and since when."""
    return say("habits", "changed", tapes=change.tapes)


def _length_key(over: float) -> str:
    if over < 0:
        return "shorter"
    return "longer" if over else "no-longer"
