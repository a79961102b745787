"""A hundred phrases and more, invented here, with the rows they mean and the words that nobody takes.

A row is written as a count, a format and then a mapping of whatever else is told of it.
"""

from __future__ import annotations

from typing import Any, NamedTuple


class Meant(NamedTuple):
    """What one phrase means."""

    said: str
    rows: tuple[tuple[int, str | None, dict[str, Any]], ...]
    not_taken: tuple[str, ...] = ()


def _meant(said: str, *rows: tuple[Any, ...], not_taken: tuple[str, ...] = ()) -> Meant:
    return Meant(said, tuple((row[0], row[1], row[2] if len(row) > 2 else {}) for row in rows), not_taken)


SNAPPED, MOULD = {"findings": ("snapped",)}, {"findings": ("mould",)}

PHRASES = (
    # --- the example and its like
    _meant(
        "5 vhs t120, 3 vhs-c, hi8 snapped, 2 betamax mould",
        (5, "vhs", {"marking": "T-120"}),
        (3, "vhs-c"),
        (1, "hi8", SNAPPED),
        (2, "betamax", MOULD),
    ),
    _meant("1 vhs", (1, "vhs")),
    _meant("vhs", (1, "vhs")),
    _meant("VHS", (1, "vhs")),
    _meant("12 vhs", (12, "vhs")),
    _meant("500 vhs", (500, "vhs")),
    _meant("3 vhs; 2 hi8", (3, "vhs"), (2, "hi8")),
    _meant("3 vhs\n2 hi8", (3, "vhs"), (2, "hi8")),
    _meant("3 vhs,, 2 hi8,", (3, "vhs"), (2, "hi8")),
    _meant("", not_taken=()),
    _meant(" , ; ", not_taken=()),
    # --- order mixed up
    _meant("t120 vhs x5", (5, "vhs", {"marking": "T-120"})),
    _meant("vhs t-120 5", (5, "vhs", {"marking": "T-120"})),
    _meant("snapped hi8", (1, "hi8", SNAPPED)),
    _meant("mouldy betamax x 2", (2, "betamax", MOULD)),
    _meant("lp minidv 3", (3, "minidv", {"speed": "lp"})),
    _meant("pal vhs e180 4", (4, "vhs", {"tv": "pal", "marking": "E-180"})),
    _meant("snapped 2 hi8 p6-120", (2, "hi8", {"marking": "P6-120", **SNAPPED})),
    # --- counts
    _meant("five vhs", (5, "vhs")),
    _meant("a dozen vhs", (12, "vhs")),
    _meant("dozen vhs tapes", (12, "vhs")),
    _meant("half a dozen hi8", (6, "hi8")),
    _meant("two dozen minidv", (24, "minidv")),
    _meant("a couple of betamax", (2, "betamax")),
    _meant("twenty-five vhs", (25, "vhs")),
    _meant("twenty five vhs", (25, "vhs")),
    _meant("a hi8 and a betamax", (1, "hi8"), (1, "betamax")),
    _meant("one vhs", (1, "vhs")),
    _meant("5x vhs", (5, "vhs")),
    _meant("5 x vhs", (5, "vhs")),
    _meant("5 × vhs", (5, "vhs")),
    _meant("vhs ×5", (5, "vhs")),
    _meant("5vhs", (5, "vhs")),
    _meant("5vhs,3hi8", (5, "vhs"), (3, "hi8")),
    _meant("0 vhs", (1, "vhs"), not_taken=("0",)),
    _meant("501 vhs", (1, "vhs"), not_taken=("501",)),
    _meant("-3 vhs", (1, "vhs"), not_taken=("-3",)),
    # --- dictated, without commas
    _meant(
        "five vhs t120 three vhs-c hi8 snapped two betamax mould",
        (5, "vhs", {"marking": "T-120"}),
        (3, "vhs-c"),
        (1, "hi8", SNAPPED),
        (2, "betamax", MOULD),
    ),
    _meant("3 vhs 2 hi8 1 betamax", (3, "vhs"), (2, "hi8"), (1, "betamax")),
    _meant("vhs hi8 betamax", (1, "vhs"), (1, "hi8"), (1, "betamax")),
    _meant("four vhs and three hi8", (4, "vhs"), (3, "hi8")),
    _meant("vhs and hi8 & betamax + minidv", (1, "vhs"), (1, "hi8"), (1, "betamax"), (1, "minidv")),
    _meant("hi8 snapped and mouldy", (1, "hi8", {"findings": ("snapped", "mould")})),
    _meant("2 vhs 3 8mm", (2, "vhs"), (3, "8mm-unknown")),
    _meant("5 8mm", (5, "8mm-unknown")),
    _meant("5 8 mm tapes", (5, "8mm-unknown")),
    _meant("six video 8 tapes with mold", (6, "video8", MOULD)),
    # --- plural, spelling, other words for the same
    _meant("3 betamaxes", (3, "betamax")),
    _meant("2 hi8s", (2, "hi8")),
    _meant("4 VHS's", (4, "vhs")),
    _meant("2 minidvs", (2, "minidv")),
    _meant("mini dv", (1, "minidv")),
    _meant("mini-DV tape", (1, "minidv")),
    _meant("vhs c", (1, "vhs-c")),
    _meant("vhsc", (1, "vhs-c")),
    _meant("compact vhs", (1, "vhs-c")),
    _meant("svhs", (1, "s-vhs")),
    _meant("super vhs", (1, "s-vhs")),
    _meant("beta", (1, "betamax")),
    _meant("betacam sp", (1, "betacam-sp")),
    _meant("beta sp", (1, "betacam-sp")),
    _meant("digital 8", (1, "digital8")),
    _meant("u-matic kca-60", (1, "u-matic", {"marking": "KCA-60"})),
    _meant("audio cassette c90", (1, "audio-cassette", {"marking": "C90"})),
    _meant("2 moldy vhs", (2, "vhs", MOULD)),
    _meant("vhs with mould", (1, "vhs", MOULD)),
    _meant("vhs broken shell", (1, "vhs", {"findings": ("shell-broken",)})),
    _meant("vhs off the hub", (1, "vhs", {"findings": ("off-hub",)})),
    _meant("vhs no sound", (1, "vhs", {"findings": ("sound-missing",)})),
    _meant("5 vhs with a broken shell", (5, "vhs", {"findings": ("shell-broken",)})),
    # --- markings, speeds, systems
    _meant("vhs t 120", (1, "vhs", {"marking": "T-120"})),
    _meant("2 hi8 p6 120", (2, "hi8", {"marking": "P6-120"})),
    _meant("3 minidv dvm60", (3, "minidv", {"marking": "DVM60"})),
    _meant("minidv 60 min", (1, "minidv", {"marking": "60 min"})),
    _meant("vhs about 90 minutes", (1, "vhs", {"marking": "90 min"})),
    _meant("vhs 1 h 30 min", (1, "vhs", {"marking": "90 min"})),
    _meant("3 betacam 30", (3, "betacam", {"marking": "30"})),
    _meant("betacam 30", (1, "betacam", {"marking": "30"})),
    _meant("2 super 8 50 ft", (2, "super-8", {"marking": "50 ft"})),
    _meant("16 mm film 400 feet", (1, "film-16mm", {"marking": "400 ft"})),
    _meant("80 slides", (1, "slides", {"marking": "80 slides"})),
    _meant("2 boxes of 80 slides", (2, "slides", {"marking": "80 slides"})),
    _meant("200 prints", (1, "prints", {"marking": "200 prints"})),
    _meant("3 minidv in lp", (3, "minidv", {"speed": "lp"})),
    _meant("vhs t120 slp", (1, "vhs", {"marking": "T-120", "speed": "ep"})),
    _meant("vhs long play pal", (1, "vhs", {"speed": "lp", "tv": "pal"})),
    _meant("super 8 at 18 fps", (1, "super-8", {"speed": "18fps"})),
    _meant("hi8 recorded as digital8", (1, "hi8", {"recorded_as": "digital8"})),
    _meant("2 hi8 as digital 8 snapped", (2, "hi8", {"recorded_as": "digital8", **SNAPPED})),
    _meant("cd scratched", (1, "optical-disc", {"findings": ("disc-scratched",)})),
    _meant("vhs scratched", (1, "vhs", {"findings": ("scratched",)})),
    # --- labels
    _meant('vhs "wedding 1994"', (1, "vhs", {"label": "wedding 1994"})),
    _meant("vhs “Mom, Dad”, hi8", (1, "vhs", {"label": "Mom, Dad"}), (1, "hi8")),
    _meant('vhs "he said ""hi"""', (1, "vhs", {"label": 'he said "hi"'})),
    _meant("vhs labeled summer by the sea, hi8", (1, "vhs", {"label": "summer by the sea"}), (1, "hi8")),
    _meant("vhs labelled 'x'", (1, "vhs", {"label": "'x'"})),
    _meant('vhs label: "T-120"', (1, "vhs", {"label": "T-120"})),
    _meant("vhs no label", (1, "vhs")),
    _meant("3 vhs unlabeled", (3, "vhs")),
    # --- more about the tapes just named, or about some of them
    _meant("5 vhs, snapped", (5, "vhs", SNAPPED)),
    _meant("5 vhs, t120, lp", (5, "vhs", {"marking": "T-120", "speed": "lp"})),
    _meant("5 vhs, all mouldy", (5, "vhs", MOULD)),
    _meant("5 vhs, all of them snapped", (5, "vhs", SNAPPED)),
    _meant(
        "5 vhs t120, 2 of them mouldy",
        (3, "vhs", {"marking": "T-120"}),
        (2, "vhs", {"marking": "T-120", **MOULD}),
    ),
    _meant("5 vhs, 2 mouldy", (3, "vhs"), (2, "vhs", MOULD)),
    _meant(
        "3 minidv in lp, one of them snapped",
        (2, "minidv", {"speed": "lp"}),
        (1, "minidv", {"speed": "lp", **SNAPPED}),
    ),
    _meant(
        "6 hi8, 2 of them mouldy, 1 of them snapped, 3 vhs",
        (3, "hi8"),
        (2, "hi8", MOULD),
        (1, "hi8", SNAPPED),
        (3, "vhs"),
    ),
    _meant("2 hi8, 2 of them snapped", (2, "hi8", SNAPPED)),
    _meant("5 minidv sp, 2 of them lp", (3, "minidv", {"speed": "sp"}), (2, "minidv", {"speed": "lp"})),
    _meant("10 betacam, 5 snapped", (5, "betacam"), (5, "betacam", SNAPPED)),
    _meant("2 hi8, 3 of them snapped", (2, "hi8"), not_taken=("3", "of them", "snapped")),
    _meant("5 vhs, some of them mouldy", (5, "vhs"), not_taken=("some", "of them", "mouldy")),
    # --- what nobody takes
    _meant("5 vsh t120", (5, None, {"marking": "t120"}), not_taken=("vsh",)),
    _meant("3 bettamax", (3, None), not_taken=("bettamax",)),
    _meant("5 vhs, 2 bettamax mould", (5, "vhs"), (2, None, MOULD), not_taken=("bettamax",)),
    _meant("5 vhs, bettamax mould", (5, "vhs"), (1, None, MOULD), not_taken=("bettamax",)),
    _meant("vhs moldd", (1, "vhs"), not_taken=("moldd",)),
    _meant("vhs not snapped", (1, "vhs"), not_taken=("not snapped",)),
    _meant("vhs no mould", (1, "vhs"), not_taken=("no mould",)),
    _meant("5 vhs wedding", (5, "vhs"), not_taken=("wedding",)),
    _meant("2 minidv t120", (2, "minidv"), not_taken=("t120",)),
    _meant("hi8 ep", (1, "hi8"), not_taken=("ep",)),
    _meant("vhs as betamax", (1, "vhs"), not_taken=("betamax",)),
    _meant("vhs t120 t160", (1, "vhs", {"marking": "T-120"}), not_taken=("t160",)),
    _meant("5 vhs 120", (5, "vhs"), not_taken=("120",)),
    _meant("3 8mm film", (3, None), not_taken=("8mm film",)),
    _meant("5 vhs, 3", (5, "vhs"), (3, None)),
    _meant("snapped", (1, None, SNAPPED)),
    _meant("hello world", (1, None), not_taken=("hello", "world")),
    _meant("vhs 🙂", (1, "vhs"), not_taken=("🙂",)),
    _meant("vhs🙂", (1, None), not_taken=("vhs🙂",)),
    _meant("vhs # hi8", (1, "vhs"), (1, "hi8"), not_taken=("#",)),
    _meant("v*h*s", (1, None), not_taken=("v*h*s",)),
)
