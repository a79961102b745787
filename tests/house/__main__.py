"""Print the figures of the house beside the bounds of the house rules; exit 1 where one is broken."""

from __future__ import annotations

import sys
from pathlib import Path

from tests.house import ratchet
from tests.house.survey import figures


def main() -> int:
    """Print every figure and tell by the exit code whether all bounds are kept."""
    found = figures(Path(__file__).parents[2])
    print("\n".join(figure.line() for figure in found))
    for line in ratchet.slack(found):
        print(line)
    broken = [figure.words for figure in found if not figure.is_kept]
    if broken:
        print(f"\n{len(broken)} of {len(found)} are over their bound: {'; '.join(broken)}.")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
