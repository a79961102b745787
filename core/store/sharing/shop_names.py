"""The name of a shop among those that share a database, as its address gives it: ``…/chain?shop=north``."""

from __future__ import annotations

import hashlib
import re
import zlib

from sqlalchemy import URL

from core.model.errors import WrongInput
from core.store.sharing.shop_default import LONGEST, MAIN
from core.wording.messages import say

_PARAMETER = "shop"
_THIS_COMPUTER = ("localhost", "127.0.0.1", "::1", "")
_USUAL_PORT = 5432
_ODD = re.compile(r"[^A-Za-z0-9 ._-]")
"""What some file system does not take in a name."""
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


def folder_name(url: URL, name: str) -> str:
    """What a folder for the files of one shop is called: ``chain north on db.example.org 4f1a2b``.

    The digits (of the SHA-256 of server, port, database and shop) tell apart what would be written alike. Who
    asks, and with which password, makes no other folder; nor does how this computer is called.
    """
    host = str(url.host or url.query.get("host", "")).casefold()
    host = _THIS_COMPUTER[0] if host in _THIS_COMPUTER or host.startswith("/") else host
    port = url.port or url.query.get("port") or _USUAL_PORT
    database = (url.database or "").rpartition("/")[2]
    known = hashlib.sha256(f"{host} {port} {database} {name}".encode()).hexdigest()[:6]
    return _ODD.sub("-", f"{database}{'' if name == MAIN else f' {name}'} on {host} {known}").strip(" .")


def lock_key(word: int, name: str) -> int:
    """The key of an advisory lock (64 bits, signed): ``word`` for the main shop, for others one of their own.

    Two names with one CRC-32 share a lock, and wait for each other; nothing else comes of it.
    """
    high = 0 if name == MAIN else zlib.crc32(name.encode())
    key = high << 32 | word
    return key - (1 << 64) if key >= 1 << 63 else key
