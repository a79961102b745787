"""Inventory files, good and wrong, for every door they can come in by."""

from __future__ import annotations

import copy
import json
from dataclasses import dataclass
from typing import Any

GOOD: dict[str, Any] = {
    "customer": {"name": "Ada Fenwick", "phone": "(303) 555-0142", "email": None},
    "tv": "ntsc",
    "tapes": [
        {
            "count": 2,
            "format": "vhs",
            "marking": "T-120",
            "speed": "unknown",
            "findings": [],
            "label": "winter",
        },
        {
            "count": 1,
            "format": "hi8",
            "marking": "P6-120",
            "recorded_as": "digital8",
            "findings": ["snapped"],
        },
        {"count": 1, "format": "minidv", "marking": "DVM60"},
    ],
    "deliver": [{"as": "files", "codec": "h264", "on": "usb"}, {"as": "dvd"}],
    "rush": False,
    "needed_by": None,
}


@dataclass(frozen=True, slots=True)
class Wrong:
    """A file that must be refused: where the complaint points, and a part of what it accepts."""

    name: str
    data: bytes
    place: str
    accepted: str


class _Absent:
    """Marks a member that is taken away."""


ABSENT = _Absent()


def changed(path: str, value: object) -> dict[str, Any]:
    """The good box with one place changed; ``path`` like ``tapes.1.marking``."""
    box = copy.deepcopy(GOOD)
    *way, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    inner: Any = box
    for step in way:
        inner = inner[step]
    if value is ABSENT:
        del inner[last]
    else:
        inner[last] = value
    return box


def written(box: object) -> bytes:
    return json.dumps(box).encode()


def _field(path: str, value: object, accepted: str, place: str | None = None) -> Wrong:
    steps = [f"[{step}]" if step.isdigit() else f".{step}" for step in path.split(".")]
    where = place if place is not None else "".join(steps).removeprefix(".")
    shown = "absent" if value is ABSENT else repr(value)[:24]
    return Wrong(f"{path}={shown}", written(changed(path, value)), f"box.json: {where}", accepted)


def _bytes(name: str, data: bytes, place: str, accepted: str) -> Wrong:
    return Wrong(name, data, f"box.json{place}", accepted)


_TEXT = json.dumps(GOOD)
_WHOLE = "a whole number from 1 to 500"

WRONG = (
    # not one JSON document in UTF-8
    _bytes("empty", b"", "", "one JSON object"),
    _bytes("blank", b" \n\t", "", "one JSON object"),
    _bytes("not JSON", b"6 VHS tapes", ": line 1, column 3", "not JSON"),
    _bytes("cut short", _TEXT[:-5].encode(), f": line 1, column {len(_TEXT) - 4}", "not JSON"),
    _bytes(
        "something after the end", _TEXT.encode() + b"{}", f": line 1, column {len(_TEXT) + 1}", "not JSON"
    ),
    # Python 3.11 stumbles over the bracket after the comma, 3.13 over the comma itself: told is the comma.
    _bytes("comma too many", b'{"tapes": [],}', ": line 1, column 13", "a comma too many"),
    _bytes("comma too many in a list", b'{"tapes": [{} ,\n ]}', ": line 1, column 15", "a comma too many"),
    _bytes("single quotes", b"{'tapes': []}", ": line 1, column 2", "not JSON"),
    _bytes("a comment", b'{\n// six tapes\n"tapes": []}', ": line 2, column 1", "not JSON"),
    _bytes("a line break in text", b'{"tv": "nt\nsc"}', ": line 1, column 11", "not JSON"),
    _bytes("latin-1", _TEXT.replace("winter", "été").encode("latin-1"), ": line 1", "UTF-8"),
    _bytes("utf-16", _TEXT.encode("utf-16"), ": line 1", "UTF-8"),
    _bytes("utf-16 without a mark", _TEXT.encode("utf-16-le"), ": line 1, column 2", "not JSON"),
    _bytes("a picture", b"\x89PNG\r\n\x1a\n", ": line 1", "UTF-8"),
    _bytes("huge", b" " * 2_000_001, "", "at most 2,000,000 bytes"),
    _bytes("deep", b'{"tapes":' + b"[" * 50_000, ": line 1", "levels"),
    _bytes("a list", b"[]", "", "an object with"),
    _bytes("a word", b'"vhs"', "", "an object with"),
    _bytes("null", b"null", "", "an object with"),
    _bytes("NaN", b'{"tapes": [{"count": NaN}]}', ": tapes[0].count", "ordinary number"),
    _bytes("Infinity", b'{"tapes": [{"fill": -Infinity}]}', ": tapes[0].fill", "ordinary number"),
    _bytes(
        "4000 digits", b'{"tapes": [{"count": ' + b"9" * 4000 + b"}]}", ": tapes[0].count", "ordinary number"
    ),
    _bytes("tapes twice", b'{"tapes": [], "tapes": []}', ": tapes", "each name once"),
    _bytes("count twice", b'{"tapes": [{"count": 1, "count": 2}]}', ": tapes[0].count", "each name once"),
    # the box
    _field("colour", "red", "customer, tv, tapes"),
    _field("tapes", ABSENT, "at least one tape"),
    _field("tapes", [], "at least one tape"),
    _field("tapes", None, "a list of tapes"),
    _field("tapes", {"count": 1}, "a list of tapes"),
    _field("tapes", "vhs", "a list of tapes"),
    _field("tapes", [{"count": 400, "format": "vhs"}] * 2, "at most 500"),
    _field("tv", "secam", "ntsc, pal"),
    _field("tv", "NTSC", "ntsc, pal"),
    _field("tv", 60, "ntsc, pal"),
    _field("rush", 1, "true or false"),
    _field("rush", "no", "true or false"),
    _field("rush", None, "true or false"),
    _field("cold", 3, "true or false"),
    _field("cold", "yes", "true or false"),
    _field("needed_by", "2026-03-01", "today or later"),
    _field("needed_by", "2026-02-30", "a date like 2026-03-02"),
    _field("needed_by", "next week", "a date like 2026-03-02"),
    _field("needed_by", 20260401, "a date like 2026-03-02"),
    _field("needed_by", "2099-01-01", "within three years"),
    # one line
    _field("tapes.1", "hi8", "an object with count, format"),
    _field("tapes.1", None, "an object with count, format"),
    _field("tapes.1.minutes", 60, "count, format, marking"),
    _field("tapes.1.count", ABSENT, _WHOLE),
    _field("tapes.1.count", 0, _WHOLE),
    _field("tapes.1.count", -1, _WHOLE),
    _field("tapes.1.count", 501, _WHOLE),
    _field("tapes.1.count", 10**15, _WHOLE),
    _field("tapes.1.count", 1.0, _WHOLE),
    _field("tapes.1.count", "6", _WHOLE),
    _field("tapes.1.count", True, _WHOLE),
    _field("tapes.1.count", None, _WHOLE),
    _field("tapes.1.format", ABSENT, "one of vhs, s-vhs"),
    _field("tapes.1.format", "dvd", "vhs, s-vhs"),
    _field("tapes.1.format", "VHS", "vhs, s-vhs"),
    _field("tapes.1.format", 8, "vhs, s-vhs"),
    _field("tapes.1.format", ["hi8"], "vhs, s-vhs"),
    _field("tapes.0.marking", "T-1000", "VHS is sold as T-30, T-60"),
    _field("tapes.0.marking", "P6-120", "VHS is sold as T-30, T-60"),
    _field("tapes.0.marking", "", "VHS is sold as T-30, T-60"),
    _field("tapes.0.marking", 120, "as printed on the cassette"),
    _field("tapes.0.marking", "T" * 1000, "at most 40 characters"),
    _field("tapes.1.recorded_as", "vhs", "hi8, video8, digital8"),
    _field("tapes.1.recorded_as", True, "hi8, video8, digital8"),
    _field("tapes.0.speed", "slp", "sp, lp, ep, unknown"),
    _field("tapes.0.speed", "b2", "sp, lp, ep, unknown"),
    _field("tapes.2.speed", "ep", "sp, lp, unknown"),
    _field("tapes.1.tv", "palm", "ntsc, pal"),
    _field("tapes.1.fill", 0, "above 0 (1 is all of it"),
    _field("tapes.1.fill", -0.5, "above 0 (1 is all of it"),
    _field("tapes.1.fill", True, "above 0 (1 is all of it"),
    _field("tapes.1.fill_known", "guessed", "told, read, at-least"),
    _field("tapes.1.fill_known", "READ", "told, read, at-least"),
    _field("tapes.1.fill_known", True, "told, read, at-least"),
    _field("tapes.0.fill_known", "read", "fill is needed beside it"),
    _field("tapes.1.fill_off", 0, "above 0 and up to 1"),
    _field("tapes.1.fill_off", 1.5, "above 0 and up to 1"),
    _field("tapes.1.fill_off", "0.1", "above 0 and up to 1"),
    _field("tapes.0.fill_off", 0.1, "fill is needed beside it"),
    _field(
        "tapes.1",
        {"count": 1, "format": "hi8", "fill": 0.5, "fill_known": "at-least", "fill_off": 0.1},
        "only told and read shares are",
        "tapes[1].fill_off",
    ),
    _field("tapes.1.findings", "snapped", "a list of findings"),
    _field("tapes.1.findings", ["broken"], "snapped, off-hub", "tapes[1].findings[0]"),
    _field("tapes.1.findings", ["mould", None], "snapped, off-hub", "tapes[1].findings[1]"),
    _field("tapes.1.findings", ["mould", "mould"], "named once", "tapes[1].findings[1]"),
    _field("tapes.1.label", 7, "text or null"),
    _field("tapes.1.label", "a" * 201, "at most 200 characters"),
    _field("tapes.1.label", "two\nlines", "without control characters"),
    _field("tapes.1.label", "\x00", "without control characters"),
    # the customer
    _field("customer", None, "needed for a booking"),
    _field("customer", ABSENT, "needed for a booking"),
    _field("customer", "Ada", "an object with name, phone, email"),
    _field("customer.street", "High Street", "name, phone, email"),
    _field("customer.name", ABSENT, "the customer's name"),
    _field("customer.name", None, "the customer's name"),
    _field("customer.name", "  ", "at least one letter"),
    _field("customer.name", "a" * 121, "at most 120 characters"),
    _field("customer.phone", "12345", "with its area code"),
    _field("customer.phone", "ask her sister", "with its area code"),
    _field("customer.phone", "+999 303 555 0142", "with its area code"),
    _field("customer.phone", 3035550142, "with its area code"),
    _field("customer.email", "ada", "name@example.org"),
    _field("customer.email", "a b@example.org", "name@example.org"),
    # the copies
    _field("deliver", {"as": "dvd"}, "a list"),
    _field("deliver.1", "dvd", "an object with as, codec, on"),
    _field("deliver.1.as", ABSENT, "files, dvd"),
    _field("deliver.1.as", "vhs", "files, dvd"),
    _field("deliver.1.codec", "h264", "takes none"),
    _field("deliver.0.codec", "mp3000", "h264"),
    _field("deliver.0.on", "floppy", "usb"),
    _field("deliver.0.size", 64, "as, codec, on"),
)
