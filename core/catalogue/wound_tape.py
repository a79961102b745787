"""Tape on a hub: metres and radius by the plain geometry of a spiral."""

from __future__ import annotations

import math


def wound_metres(radius_mm: float, hub_mm: float, thickness_um: float) -> float:
    """L = π(R² − r²)/t; square millimetres over micrometres are metres."""
    return math.pi * (radius_mm**2 - hub_mm**2) / thickness_um


def wound_radius(metres: float, hub_mm: float, thickness_um: float) -> float:
    """R = √(r² + L·t/π), in mm."""
    return math.sqrt(hub_mm**2 + metres * thickness_um / math.pi)


def thickest_that_fits(metres: float, hub_mm: float, radius_mm: float) -> float:
    """t = π(R² − r²)/L, in µm."""
    return math.pi * (radius_mm**2 - hub_mm**2) / metres
