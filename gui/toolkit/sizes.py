"""The grid and the type sizes that everything on the screen is laid out by."""

from __future__ import annotations

UNIT = 8
"""The grid: every gap and height is a multiple of it, in device-independent pixels."""

ROW = 4 * UNIT
"""Height of a table row: a target of at least 24 px (WCAG 2.2, 2.5.8)."""

SMALL, BODY, LEAD, GREAT = 10.5, 12.0, 16.0, 24.0
"""The four type sizes, in points."""
