"""``python -m tests.bench [name …]``: measure, print the ratios, exit 1 when a target is missed.

What follows the first ``--`` word goes to the one measurement that is named (`worlds` takes some).
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from importlib import import_module

MEASUREMENTS = {
    "first_paint": "first_paint",
    "imports": "imports",
    "typing": "typing",
    "search": "record_search",
    "papers": "papers",
    "memory": "memory",
    "bookings": "window_bookings",
    "capture": "capture",
    "playtime": "playtime",
    "durability": "durability",
    "keys": "keys",
    "turnaround": "promised_days",
    "flat_price": "flat_boxes",
    "queue": "queued_boxes",
    "change": "changing_customers",
    "likely_price": "likely_bills",
    "dates": "behaving_dates",
    "recalibration": "recalibrated_years",
    "worlds": "stated_worlds",
}
"""Each with the module that takes it: no two files of the tree share a name."""


def main(words: Sequence[str]) -> int:
    """Run the named measurements, all of them when none is named."""
    begin = next((place for place, word in enumerate(words) if word.startswith("--")), len(words))
    names, options = words[:begin], words[begin:]
    if options and len(names) != 1:
        print("Options go with one measurement: name it first.")
        return 2
    unknown = [name for name in names if name not in MEASUREMENTS]
    if unknown:
        print(f"No such measurement: {', '.join(unknown)}. There are: {', '.join(MEASUREMENTS)}.")
        return 2
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    os.environ.setdefault("QT_LOGGING_RULES", "*.warning=false")  # the offscreen platform grumbles
    missed = 0
    for name in names or MEASUREMENTS:
        print(f"== {name}", flush=True)
        measure = import_module(f"tests.bench.{MEASUREMENTS[name]}").measure
        for ratio in measure(options) if options else measure():
            print(f"   {ratio.words}", flush=True)
            missed += not ratio.is_met
    print(f"{missed} targets missed" if missed else "every target kept")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
