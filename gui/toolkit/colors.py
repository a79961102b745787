"""The colors of the program by what they are for, in three looks, and the contrast each pair must have."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtGui import QColor


class Tokens(NamedTuple):
    """Colors by what they are for, never by what they look like."""

    ground: str
    """The counter top."""
    slip: str
    """Paper the customer will hold."""
    tray: str
    """Where the tapes lie."""
    ink: str
    muted: str
    line: str
    """Rules and field edges."""
    edge: str
    """Edge of a control, 3:1 against what it stands on."""
    oxide: str
    """The brand color."""
    on_oxide: str
    time: str
    attention: str
    lit: str
    """Ground of the row or control that has the focus."""
    shell: str
    """The plastic of a cassette in the drawings."""
    shell_glass: str
    """The window in it."""
    band_dark: str
    band_light: str
    """The not-for-reuse band. Nothing else may use these two together."""


LIGHT = Tokens(
    ground="#F3ECDF",
    slip="#FFFDF8",
    tray="#FAF5EB",
    ink="#1F1B16",
    muted="#5F574D",
    line="#DCD1BE",
    edge="#8B7F6E",
    oxide="#8C3B1F",
    on_oxide="#FFF9F2",
    time="#1F5A6B",
    attention="#7A4D00",
    lit="#F4DFC9",
    shell="#2E2721",
    shell_glass="#7C6F60",
    band_dark="#1F1B16",
    band_light="#F2C14E",
)

DIM_BENCH = Tokens(
    ground="#1C1916",
    slip="#2A2622",
    tray="#231F1B",
    ink="#EFE6D8",
    muted="#B3A797",
    line="#463F37",
    edge="#8F8475",
    oxide="#E69169",
    on_oxide="#1C1410",
    time="#82C0D2",
    attention="#E5B45A",
    lit="#4A3324",
    shell="#9C8F80",
    shell_glass="#5A5147",
    band_dark="#14110E",
    band_light="#F2C14E",
)

HIGH_CONTRAST = Tokens(
    ground="#FFFFFF",
    slip="#FFFFFF",
    tray="#FFFFFF",
    ink="#000000",
    muted="#262626",
    line="#000000",
    edge="#000000",
    oxide="#6B1F00",
    on_oxide="#FFFFFF",
    time="#003C4D",
    attention="#593300",
    lit="#FFE9A8",
    shell="#000000",
    shell_glass="#6B6B6B",
    band_dark="#000000",
    band_light="#FFD84D",
)

LOOKS = {"counter light": LIGHT, "dim bench": DIM_BENCH, "high contrast": HIGH_CONTRAST}

TEXT_PAIRS = tuple(
    (ink, ground)
    for ink in ("ink", "muted", "oxide", "time", "attention")
    for ground in ("ground", "slip", "tray", "lit")
) + (("on_oxide", "oxide"), ("band_dark", "band_light"))
"""Pairs that carry text: at least 4.5:1 (WCAG 2.2, 1.4.3)."""

TEXT_CONTRAST = 4.5
"""WCAG 2.2, 1.4.3, level AA."""

SIGN_PAIRS = tuple(
    (sign, ground) for sign in ("edge", "shell", "time", "oxide") for ground in ("ground", "slip", "tray")
) + (("shell", "lit"),)
"""Pairs that carry a sign or the edge of a control: at least 3:1 (WCAG 2.2, 1.4.11)."""


def accent(tokens: Tokens, name: str) -> str:
    """The shop's color as it can be read on paper of these tokens; the brand color where it has none."""
    from core.model import accents  # no shop is open at the first paint

    chosen = accents.of(name)
    wanted = chosen.light if luminance(tokens.slip) > 0.5 else chosen.dark
    return wanted if name and contrast(wanted, tokens.slip) >= TEXT_CONTRAST else tokens.oxide


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colors, 1 to 21. Formula: WCAG 2.2, relative luminance."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance of a color, 0 to 1. Formula: WCAG 2.2, relative luminance."""
    paint = QColor(colour)
    red, green, blue = (_linear(channel) for channel in (paint.redF(), paint.greenF(), paint.blueF()))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
