"""The shops that the tests of the store stand in."""

from __future__ import annotations

from tests.support.booked import (
    begun_file,
    begun_server,
    desk,
    empty_file,
    empty_server,
    file_desk,
    server_shop,
)
from tests.support.demonstration import demonstration, made, pseudo_demonstration
from tests.support.typed import box, codes, typed, typed_first

__all__ = [
    "begun_file",
    "begun_server",
    "box",
    "codes",
    "demonstration",
    "desk",
    "empty_file",
    "empty_server",
    "file_desk",
    "made",
    "pseudo_demonstration",
    "server_shop",
    "typed",
    "typed_first",
]
