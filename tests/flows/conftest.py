"""Screens are tested on real shop files."""

from __future__ import annotations

from tests.support.booked import begun_file, empty_file, file_desk
from tests.support.demonstration import demonstration, made
from tests.support.screens import place

__all__ = ["begun_file", "demonstration", "empty_file", "file_desk", "made", "place"]
