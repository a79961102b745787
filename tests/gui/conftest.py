"""Screens are tested on real shop files."""

from __future__ import annotations

from tests.support.bare_work import work
from tests.support.booked import begun_file, empty_file, empty_server, file_desk, server_shop
from tests.support.demonstration import demonstration, pseudo_demonstration
from tests.support.screens import place

__all__ = [
    "begun_file",
    "demonstration",
    "empty_file",
    "empty_server",
    "file_desk",
    "place",
    "pseudo_demonstration",
    "server_shop",
    "work",
]
