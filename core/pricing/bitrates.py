"""Megabits a second, gigabytes and GiB: the arithmetic under every disc and stick.

All figures and their sources are in ``resources/catalogue/media.toml``. Gigabytes are decimal.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

from core.model import resource_files
from core.model.errors import WrongInput, one_of
from core.model.names import TvSystem
from core.model.ranges import Range
from core.wording.messages import say

CODECS = ("h264", "h264-8", "dv", "hdv", "mpeg2", "ffv1", "v210")

GB_PER_MB_S_MINUTE = 0.0075
"""Published check: GB = Mb/s × minutes × 0.0075 (handbook: Dalhousie Libraries moving images)."""
GIB = 1.073741824
"""Decimal gigabytes in one GiB, which most systems show: 2³⁰ ÷ 10⁹ by definition (IEC 80000-13)."""


def gigabytes(mb_s: float, minutes: float) -> float:
    """Decimal gigabytes of a stream of ``mb_s`` megabits a second over ``minutes``."""
    return mb_s * minutes * GB_PER_MB_S_MINUTE


def gib(gigabytes: float) -> float:
    """Decimal gigabytes as GiB."""
    return gigabytes / GIB


def rate(codec: str, tv: TvSystem | None = None) -> Range:
    """Mb/s of a codec, sound included; WrongInput when it is not known.

    ``tv`` is the system of the recording, None where nobody knows: the larger one, which is NTSC.
    """
    table = _codec(codec)
    table = table.get(tv.value, table) if tv else table
    usual = float(table["mb_s"])
    return Range(table.get("mb_s_low", usual), usual, table.get("mb_s_high", usual))


def tv_of(systems: Iterable[TvSystem | None]) -> TvSystem | None:
    """The one TV system of several recordings; None where they differ or one is not known."""
    found = set(systems)
    return found.pop() if len(found) == 1 else None


def size(codec: str, minutes: Range, tv: TvSystem | None = None) -> Range:
    """Gigabytes of a recording of ``minutes`` in ``tv`` as a file of this codec."""
    mb_s = rate(codec, tv)
    return Range(
        gigabytes(mb_s.low, minutes.low),
        gigabytes(mb_s.likely, minutes.likely),
        gigabytes(mb_s.high, minutes.high),
    )


def words(codec: str) -> str:
    """``H.264 files``."""
    _codec(codec)  # refuses one that nobody knows
    return say("media", f"codec-{codec}")


@cache
def page() -> Mapping[str, Any]:
    """The catalogue's page on media."""
    return tomllib.loads(resource_files.path("catalogue", "media.toml").read_text(encoding="utf-8"))


def _codec(codec: str) -> Mapping[str, Any]:
    if codec not in CODECS:
        raise WrongInput("codec", codec, one_of(CODECS))
    table: Mapping[str, Any] = page()["codecs"][codec]
    return table
