"""The shops that the tests of the store stand in."""

from __future__ import annotations

from tests.support.booked import desk, empty_file, file_desk

__all__ = ["desk", "empty_file", "file_desk"]
