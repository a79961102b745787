"""What a shell looks like: its parts for the drawings of the look-over, its face for the small silhouettes.

Places are shares of the shell's width and depth. The parts are seen from above with the lid away from you
(a shell without a lid: thick edge towards you), the silhouette with the lid towards you. Only the outline is
from the catalogue; every exact place is from memory, and the drawing says so.
"""

# Annotations are not put off here: msgspec would have to evaluate each text of them at the first start.
from typing import Annotated, Literal, TypeAlias

from msgspec import Meta, Struct

ABOVE, BELOW, BOTH = "above", "below", "both"
PARTS = ("shell", "window", "screws", "protect", "lid", "latch", "tape", "release", "hubs")
"""What a step of the look-over may point at."""
_STANDS_IN = {"latch": "lid", "release": "hubs", "screws": "shell", "lid": "tape", "window": "shell"}
"""The part that is shown where the one asked for is not known."""

Share: TypeAlias = Annotated[float, Meta(ge=0, le=1, description="share")]


class Spot(Struct, frozen=True, forbid_unknown_fields=True):
    """One place on the shell; ``wide`` and ``deep`` around its middle. ``side`` is where it is seen."""

    x: Share
    y: Share
    wide: Share
    deep: Share
    side: Literal["above", "below", "both"] = "both"
    is_round: bool = False


_LIDDED = {"lid": (Spot(0.5, 0.07, 1.0, 0.14),), "tape": (Spot(0.5, 0.02, 0.86, 0.05),)}
_WHOLE = {"shell": (Spot(0.5, 0.5, 1.0, 1.0),)}


class Anatomy(Struct, frozen=True, forbid_unknown_fields=True):
    """The parts of one shell that somebody may have to find."""

    parts: dict[str, tuple[Spot, ...]]
    label: Spot | None = None
    latch_moves: Literal["", "in", "back"] = ""
    """How the latch is worked: ``in`` (a button), ``back`` (a slide, away from the lid); empty: not known."""
    has_lid: bool = True
    """False for an audio cassette: its thick edge is drawn towards you."""
    shape: Literal["cassette", "round", "plain"] = "cassette"
    """``round``: a reel or a disc; ``plain``: a box or a sheet."""

    def __post_init__(self) -> None:
        lidded = self.has_lid and self.shape == "cassette"
        for name, spots in (_WHOLE | (_LIDDED if lidded else {})).items():
            self.parts.setdefault(name, spots)

    def spots(self, part: str, side: str) -> tuple[Spot, ...]:
        """Where a part is on one side; the nearest known part stands in for an unknown one."""
        return tuple(spot for spot in self.parts.get(self.named(part), ()) if spot.side in (side, BOTH))

    def named(self, part: str) -> str:
        """The part that is really pointed at; empty where nothing is known."""
        while part and part not in self.parts:
            part = _STANDS_IN.get(part, "")
        return part


class Silhouette(Struct, frozen=True, forbid_unknown_fields=True):
    """What is seen on top of a small drawing of the shell."""

    windows: tuple[tuple[Share, Share, Share, Share], ...]
    """Left, top, width, height."""
    hubs: tuple[tuple[Share, Share, Share], ...]
    """Centre x, centre y, radius as a share of the depth."""
    label: tuple[Share, Share, Share, Share] | None = None
    has_foot: bool = False
    """Whether the tape side is a thickened foot (compact audio cassettes)."""
