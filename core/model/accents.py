"""The accent colors a shop may choose from, by name; every one can be read on paper and on the screens."""

from __future__ import annotations

from dataclasses import dataclass

from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Accent:
    """One color as it is printed, and as it shines on the dark look of the screens."""

    light: str
    dark: str


_COLORS = {
    "": Accent("#8C3B1F", "#E69169"),
    "brick": Accent("#9A2F2A", "#F09086"),
    "plum": Accent("#76335F", "#DE97C4"),
    "indigo": Accent("#3D3F8F", "#AEB2F2"),
    "navy": Accent("#1D4477", "#8FB8EC"),
    "teal": Accent("#14585A", "#74C4C4"),
    "forest": Accent("#2A5B33", "#8CC996"),
    "olive": Accent("#57541A", "#C9C373"),
    "slate": Accent("#414B57", "#B4C0CE"),
}
NAMES = tuple(_COLORS)
"""The first, without a name, is the color the program comes with."""


def of(name: str) -> Accent:
    """The color called ``name``; a name of a later version of the program gives the usual one."""
    return _COLORS.get(name, _COLORS[""])


def words(name: str) -> str:
    """What the color is called on the screen."""
    return say("settings", f"accent-{name or 'usual'}")
