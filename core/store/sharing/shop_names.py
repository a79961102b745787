"""The name of a shop among those that share a database, as its address gives it: ``…/chain?shop=north``."""

from __future__ import annotations

import re
import zlib

from sqlalchemy import URL

from core.model.errors import WrongInput
from core.store.sharing.shop_default import LONGEST, MAIN
from core.wording.messages import say

_PARAMETER = "shop"
_NAME = re.compile(rf"[a-z][a-z0-9-]{{0,{LONGEST - 1}}}")


def taken_from(url: URL) -> tuple[URL, str]:
    """An address without the name of its shop, and the name; WrongInput for what is no name."""
    given = url.query.get(_PARAMETER, MAIN)
    if not isinstance(given, str) or not _NAME.fullmatch(given):
        found = given if isinstance(given, str) else ", ".join(given)
        raise WrongInput(say("records", "shop_name"), found, say("records", "shop_name_accepted", n=LONGEST))
    return url.difference_update_query([_PARAMETER]), given


def added_to(url: URL, name: str) -> URL:
    """An address with the name of its shop; of the main shop it stays as it is."""
    return url if name == MAIN else url.update_query_dict({_PARAMETER: name})


def in_file_name(name: str) -> str:
    """What names of files tell of the shop: ``-north``, nothing of the main shop."""
    return "" if name == MAIN else f"-{name}"


def lock_key(word: int, name: str) -> int:
    """The key of an advisory lock (64 bits, signed): ``word`` for the main shop, for others one of their own.

    Two names with one CRC-32 share a lock, and wait for each other; nothing else comes of it.
    """
    high = 0 if name == MAIN else zlib.crc32(name.encode())
    key = high << 32 | word
    return key - (1 << 64) if key >= 1 << 63 else key
