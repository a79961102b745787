"""Speeds and lengths of cassettes, written down again so that nothing of the program is asked."""

from __future__ import annotations

SPEEDS = {
    ("vhs", "ntsc"): {"sp": 33.35, "lp": 16.67, "ep": 11.12},
    ("vhs", "pal"): {"sp": 23.39, "lp": 11.70},
    ("vhs-c", "ntsc"): {"sp": 33.35, "ep": 11.12},
    ("hi8", "ntsc"): {"sp": 14.345, "lp": 7.1725},
    ("digital8", "ntsc"): {"sp": 28.7, "lp": 19.13},
    ("hi8", "pal"): {"sp": 20.051, "lp": 10.0255},
    ("digital8", "pal"): {"sp": 28.7, "lp": 19.13},
    ("minidv", "any"): {"sp": 18.812, "lp": 12.541},
}
"""mm/s. JVC VTG82063, Sony patent speeds (2nd-hand), LP of Digital8 and DV from memory."""

LENGTHS = {"T-120": 246.0, "T-160": 327.0, "E-180": 257.6, "E-240": 342.8, "TC-30": 62.6}
"""Metres. SMPTE 32M table 1 and the length rules of JVC VTG82063; a maker may add up to 3 m."""
NOMINAL = {
    "P6-120": 120 * 60 * 14.345 / 1000,
    "P5-90": 90 * 60 * 20.051 / 1000,
    "DVM60": 60 * 60 * 18.812 / 1000,
}
"""Metres that just fit the marking; real cassettes run over it."""
