"""Where the parts of each shell lie, for the drawings of the look-over.

Shares of width and depth, seen from above with the lid away from you (an audio cassette: thick edge towards
you). Only the outline is from the catalogue. That a VHS shell is freed in the middle of its underside, that
its tab is at the left of the spine, and that the slides of 8 mm and MiniDV are on opposite sides is common
practice, no source; every exact place is from memory, and the drawing says so.
"""

from __future__ import annotations

from dataclasses import dataclass

from core.catalogue.formats import catalogue
from core.model.names import FormatName

ABOVE, BELOW, BOTH = "above", "below", "both"
SMALL_SHELL_MM = 110.0
"""Shells narrower than this are drawn twice as large, and the drawing says so."""


@dataclass(frozen=True, slots=True)
class Spot:
    """One place on the shell; ``wide`` and ``deep`` around its middle. ``side`` is where it is seen."""

    x: float
    y: float
    wide: float
    deep: float
    side: str = BOTH
    is_round: bool = False


@dataclass(frozen=True, slots=True)
class Anatomy:
    """The parts of one shell that somebody may have to find."""

    parts: dict[str, tuple[Spot, ...]]
    label: Spot | None = None
    latch_moves: str = ""
    """How the latch is worked: ``in`` (a button), ``back`` (a slide, away from the lid); empty: not known."""
    lid_is_away: bool = True
    """False for the audio cassette, which has none: its thick edge is drawn towards you."""

    def spots(self, part: str, side: str) -> tuple[Spot, ...]:
        """Where a part is on one side; the nearest known part stands in for an unknown one."""
        while part and part not in self.parts:
            part = _STANDS_IN.get(part, "")
        return tuple(spot for spot in self.parts.get(part, ()) if spot.side in (side, BOTH))

    def named(self, part: str) -> str:
        """The part that is really pointed at; empty where nothing is known."""
        while part and part not in self.parts:
            part = _STANDS_IN.get(part, "")
        return part


_STANDS_IN = {"latch": "lid", "release": "hubs", "screws": "shell", "lid": "tape", "window": "shell"}


def _round(x: float, y: float, wide: float, deep: float, side: str = BELOW) -> Spot:
    return Spot(x, y, wide, deep, side, is_round=True)


_WHOLE = (Spot(0.5, 0.5, 1.0, 1.0),)
_LID = (Spot(0.5, 0.07, 1.0, 0.14),)
_TAPE = (Spot(0.5, 0.02, 0.86, 0.05),)


def _lidded(**parts: tuple[Spot, ...]) -> dict[str, tuple[Spot, ...]]:
    return {"shell": _WHOLE, "lid": _LID, "tape": _TAPE, **parts}


_VHS = Anatomy(
    _lidded(
        window=(Spot(0.255, 0.56, 0.25, 0.56, ABOVE), Spot(0.745, 0.56, 0.25, 0.56, ABOVE)),
        hubs=(_round(0.255, 0.54, 0.14, 0.25), _round(0.745, 0.54, 0.14, 0.25)),
        latch=(Spot(0.99, 0.20, 0.02, 0.09),),
        release=(_round(0.5, 0.54, 0.035, 0.065),),
        protect=(Spot(0.07, 0.98, 0.05, 0.04, ABOVE),),
        screws=tuple(
            _round(x, y, 0.028, 0.05)
            for x, y in ((0.05, 0.24), (0.95, 0.24), (0.05, 0.92), (0.95, 0.92), (0.5, 0.28))
        ),
    ),
    label=Spot(0.5, 0.56, 0.2, 0.56, ABOVE),
    latch_moves="in",
)
_VHS_C = Anatomy(
    _lidded(
        window=(Spot(0.76, 0.71, 0.28, 0.30, ABOVE),),
        hubs=(_round(0.33, 0.56, 0.30, 0.48), _round(0.84, 0.32, 0.14, 0.22)),
        protect=(Spot(0.12, 0.97, 0.08, 0.06, ABOVE),),
    )
)
_BETA = Anatomy(
    _lidded(
        window=(Spot(0.25, 0.57, 0.30, 0.46, ABOVE),),
        hubs=(_round(0.27, 0.57, 0.14, 0.23), _round(0.73, 0.57, 0.14, 0.23)),
        protect=(Spot(0.12, 0.95, 0.06, 0.06, BELOW),),
    ),
    label=Spot(0.685, 0.57, 0.43, 0.58, ABOVE),
)
_EIGHT = Anatomy(
    _lidded(
        window=(Spot(0.5, 0.59, 0.68, 0.34, ABOVE),),
        hubs=(_round(0.30, 0.59, 0.14, 0.21), _round(0.70, 0.59, 0.14, 0.21)),
        latch=(Spot(0.015, 0.22, 0.03, 0.12),),
        release=(_round(0.5, 0.66, 0.05, 0.076),),
        protect=(Spot(0.14, 0.965, 0.10, 0.07, ABOVE),),
    ),
    latch_moves="back",
)
_DV = Anatomy(
    _lidded(
        window=(Spot(0.60, 0.57, 0.60, 0.46, ABOVE),),
        hubs=(_round(0.30, 0.57, 0.15, 0.20), _round(0.70, 0.57, 0.15, 0.20)),
        latch=(Spot(0.985, 0.22, 0.03, 0.12),),
        release=(_round(0.5, 0.64, 0.05, 0.07),),
        protect=(Spot(0.14, 0.965, 0.12, 0.07, ABOVE),),
    ),
    label=Spot(0.155, 0.57, 0.13, 0.46, ABOVE),
    latch_moves="back",
)
_DV_LARGE = Anatomy(
    _lidded(
        window=(Spot(0.52, 0.57, 0.52, 0.40, ABOVE),),
        hubs=(_round(0.31, 0.56, 0.12, 0.19), _round(0.69, 0.56, 0.12, 0.19)),
        protect=(Spot(0.10, 0.97, 0.08, 0.05, ABOVE),),
    ),
    label=Spot(0.12, 0.57, 0.14, 0.46, ABOVE),
)
_MICRO = Anatomy(
    _lidded(
        window=(Spot(0.56, 0.60, 0.62, 0.40, ABOVE),),
        hubs=(_round(0.32, 0.60, 0.16, 0.24), _round(0.68, 0.60, 0.16, 0.24)),
    ),
    label=Spot(0.12, 0.60, 0.12, 0.40, ABOVE),
)
_BETACAM = Anatomy(
    _lidded(
        window=(Spot(0.5, 0.52, 0.62, 0.24, ABOVE),),
        hubs=(_round(0.27, 0.57, 0.14, 0.23), _round(0.73, 0.57, 0.14, 0.23)),
        protect=(_round(0.86, 0.88, 0.05, 0.08),),
    ),
    label=Spot(0.5, 0.82, 0.70, 0.22, ABOVE),
)
_U = Anatomy(
    _lidded(
        window=(Spot(0.5, 0.67, 0.60, 0.42, ABOVE),),
        hubs=(_round(0.32, 0.62, 0.13, 0.21), _round(0.68, 0.62, 0.13, 0.21)),
        protect=(_round(0.16, 0.86, 0.05, 0.08),),
    ),
    label=Spot(0.5, 0.30, 0.60, 0.16, ABOVE),
)
_AUDIO = Anatomy(
    {
        "shell": _WHOLE,
        "window": (Spot(0.5, 0.44, 0.24, 0.20),),
        "hubs": (_round(0.2875, 0.445, 0.10, 0.156, BOTH), _round(0.7125, 0.445, 0.10, 0.156, BOTH)),
        "tape": (Spot(0.5, 0.985, 0.56, 0.045),),
        "protect": (Spot(0.06, 0.025, 0.07, 0.05, ABOVE), Spot(0.94, 0.025, 0.07, 0.05, ABOVE)),
        "screws": tuple(
            _round(x, y, 0.035, 0.055, BOTH)
            for x, y in ((0.04, 0.09), (0.96, 0.09), (0.04, 0.93), (0.96, 0.93), (0.5, 0.84))
        ),
    },
    label=Spot(0.5, 0.36, 0.90, 0.56, ABOVE),
    lid_is_away=False,
)

ANATOMIES: dict[str, Anatomy] = {
    "vhs": _VHS,
    "s-vhs": _VHS,
    "vhs-c": _VHS_C,
    "s-vhs-c": _VHS_C,
    "betamax": _BETA,
    "betacam": _BETACAM,
    "betacam-sp": _BETACAM,
    "video8": _EIGHT,
    "hi8": _EIGHT,
    "digital8": _EIGHT,
    "8mm-unknown": _EIGHT,
    "minidv": _DV,
    "hdv": _DV,
    "dvcam": _DV_LARGE,
    "micromv": _MICRO,
    "u-matic": _U,
    "audio-cassette": _AUDIO,
}
"""By format: every shell of the catalogue is drawn for itself, none for another."""


def anatomy(name: FormatName) -> Anatomy:
    """The parts of one format's shell; WrongInput when the catalogue does not know it."""
    return ANATOMIES[catalogue().format(name).name]
