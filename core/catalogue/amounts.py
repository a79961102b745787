"""Amounts: what is written on a reel, a box or a disc, and what it takes on the machine.

``[amount]`` of a format's file is written out as the speeds, lots and rules of a tape, so that everything
else goes the same way. Film has a length and runs at its frames a second; a picture counts as one millimetre,
a minute as the tape of one minute, and both "run" at what the machine does in a second.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from core.catalogue.format_file import AmountEntry, Figure
from core.model import resource_files
from core.model.errors import WrongInput, at, missing, nothing
from core.model.names import Speed
from core.model.ranges import Range
from core.wording.messages import say

if TYPE_CHECKING:
    from core.catalogue.cassettes import Format

Unit: TypeAlias = Literal["feet", "pieces", "minutes"]

ROOM = "files"
FOOT_MM = 304.8
"""The international foot, exact since 1959 (standard: NIST SP 811, appendix B)."""
PIECE_MM = 1.0
MINUTE_MM = 1000.0
"""Tape of a minute where no speed is told: any length would do."""
_FEET = ("{n} ft", "{n} feet", "{n} foot")
_METRES = ("{n} m", "{n} meters", "{n} metres", "{n} meter", "{n} metre")
_MINUTES = ("{n} min",)
_OF_TAPE = ("pack", "asks_for")
"""What is borrowed from a tape and holds for no amount."""
_NEEDED = {"feet": "frames_per_foot", "pieces": "seconds_a_piece"}


def written_out(page: Mapping[str, Any], entry: AmountEntry, name: str, where: str) -> dict[str, Any]:
    """The tables of a format with ``entry``, its ``[amount]``, as speeds, lots and rules.

    WrongInput, by file and key, for what an amount of its unit needs or cannot have.
    """
    _check(entry, at(where, "amount"))
    speeds = _speeds(entry)
    nominal = {"system": name, "speed": max(_rates(entry), key=lambda each: _rates(entry)[each])}
    habits = page.get("habits", {})
    if not isinstance(habits, dict):
        raise WrongInput(at(where, "habits"), habits, say(ROOM, "table"))
    return {
        **{key: value for key, value in page.items() if key not in _OF_TAPE},
        "speeds": speeds,
        "lots": [
            {"sold_as": [name], "nominal": nominal, **_source(_figure(entry)), "cassettes": _usual(entry)}
        ],
        "lengths": {"amount": _length(entry, _unit_mm(entry)), "metres": _length(entry, MINUTE_MM)},
        "rules": list(_rules(entry, nominal)),
        "footprints": [],
        "sides": 1,
        "habits": {
            **{key: value for key, value in habits.items() if key not in ("camera", "counted_with")},
            "fill": habits.get("fill", "whole") if entry.unit == "minutes" else "whole",
            "speeds": {"any": _rates(entry)},
            "usual": {"any": {_written(entry, number): weight for number, weight in entry.usual.items()}},
        },
    }


def of_metres(form: Format, metres: Range) -> Range:
    """Feet, pieces or minutes of a length; the length itself where the format counts none."""
    entry = form.record.amount
    return metres.times(1000 / _unit_mm(entry)) if entry else metres


def _check(entry: AmountEntry, place: str) -> None:
    needed = _NEEDED.get(entry.unit)
    if needed and getattr(entry, needed) is None:
        raise missing(place, needed, say(ROOM, "figure"))
    for number in entry.usual:
        if not (number.isascii() and number.isdigit() and 1 <= int(number) <= entry.most):
            raise WrongInput(at(place, "usual"), number, say(ROOM, "amount-number", most=entry.most))
    if not sum(entry.usual.values()):
        raise WrongInput(at(place, "usual"), dict(entry.usual), say(ROOM, "weight-above-0"))
    if entry.unit == "feet":
        _check_rates(entry, place)


def _check_rates(entry: AmountEntry, place: str) -> None:
    known = [speed.value for speed in Speed if speed.frames_a_second]
    if not sum(entry.rates.values()):
        raise WrongInput(at(place, "rates"), nothing(), say(ROOM, "rates"))
    for rate in entry.rates:
        if rate not in known:
            raise WrongInput(at(place, "rates"), rate, say(ROOM, "one-of", names=", ".join(known)))


def _rates(entry: AmountEntry) -> dict[str, float]:
    return dict(entry.rates) if entry.unit == "feet" else {Speed.SP.value: 1.0}


def _speeds(entry: AmountEntry) -> list[dict[str, Any]]:
    """How much goes by in a second of the machine, in mm."""
    pace, source = (entry.pace.value if entry.pace else 1.0), _source(_figure(entry))
    if entry.frames_per_foot is not None and entry.unit == "feet":
        frame = FOOT_MM / entry.frames_per_foot.value
        rates = {rate: Speed(rate).frames_a_second * frame / pace for rate in entry.rates}
        return [{"speed": rate, "mm_s": round(mm_s, 9), **source} for rate, mm_s in rates.items()]
    if entry.seconds_a_piece is not None and entry.unit == "pieces":
        mm_s = PIECE_MM / entry.seconds_a_piece.value
    else:
        mm_s = (entry.mm_s.value if entry.mm_s else MINUTE_MM / 60) / pace
    return [{"speed": Speed.SP.value, "mm_s": round(mm_s, 15), **source}]


def _unit_mm(entry: AmountEntry) -> float:
    if entry.unit == "feet":
        return FOOT_MM
    if entry.unit == "pieces":
        return PIECE_MM
    return entry.mm_s.value * 60 if entry.mm_s else MINUTE_MM


def _figure(entry: AmountEntry) -> Figure | None:
    own = {"feet": entry.frames_per_foot, "pieces": entry.seconds_a_piece, "minutes": entry.mm_s}
    return own[entry.unit] or entry.pace


def _source(figure: Figure | None) -> dict[str, str]:
    if figure is None:
        return {"source": _source_of_minutes(), "mark": "derived"}
    return {"source": figure.source, "mark": figure.mark}


@cache
def _source_of_minutes() -> str:
    """Cited in one language like every source: the catalogue is read once, whatever is spoken."""
    page = tomllib.loads(resource_files.path("catalogue", "amounts.toml").read_text(encoding="utf-8"))
    return str(page["minutes"]["source"])


def _length(entry: AmountEntry, unit_mm: float) -> dict[str, Any]:
    return {"per_minute": 0.0, "plus": 0.0, "per_number": unit_mm / 1000, **_source(_figure(entry))}


def _names(entry: AmountEntry) -> tuple[str, ...]:
    usual = {"feet": _FEET, "pieces": ("{n}",), "minutes": _MINUTES}[entry.unit]
    return tuple(dict.fromkeys((*entry.written, *usual)))


def _written(entry: AmountEntry, number: str) -> str:
    return _names(entry)[0].replace("{n}", str(int(number)))


def _minutes(entry: AmountEntry, mm: float) -> float:
    """What so much takes at the usual rate."""
    usual = max(_rates(entry), key=lambda each: _rates(entry)[each])
    (mm_s,) = [float(each["mm_s"]) for each in _speeds(entry) if each["speed"] == usual]
    return mm / mm_s / 60


def _usual(entry: AmountEntry) -> list[dict[str, Any]]:
    unit = _unit_mm(entry)
    return [
        {
            "name": _written(entry, number),
            "minutes": _minutes(entry, int(number) * unit),
            "metres": round(int(number) * unit / 1000, 9),
        }
        for number in sorted(entry.usual, key=int)
    ]


def _rules(entry: AmountEntry, nominal: Mapping[str, str]) -> Iterable[dict[str, Any]]:
    """Every amount in its unit; film in metres too."""
    unit = _unit_mm(entry)
    common = {"nominal": nominal, "tolerance": 0.001, **_source(_figure(entry))}
    is_told = entry.unit == "minutes"
    yield {
        "names": _names(entry),
        "numbers": [1, entry.most],
        "minutes": _minutes(entry, unit),
        "length": "amount",
        "told": is_told,
        **common,
    }
    if entry.unit == "feet":
        most = max(1, int(entry.most * FOOT_MM / 1000))
        minutes = _minutes(entry, 1000.0)
        yield {"names": _METRES, "numbers": [1, most], "minutes": minutes, "length": "metres", **common}
