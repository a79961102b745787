"""Addresses of shops on a server: read, shown without a password, named as a folder."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from core.model.errors import WrongInput
from core.store.sharing import shop_names
from core.store.sharing.shop_default import MAIN
from core.wording.messages import say

_UNREADABLE = "unreadable"


def read(address: str) -> tuple[URL, str]:
    """An address without the name of its shop, and the name; WrongInput for what is no such address."""
    return shop_names.taken_from(_url(address))


def shown(where: str | Path) -> str:
    """A file, or an address with user, server, database and shop only: passwords hide in the query too."""
    if "://" not in str(where):
        return str(where)
    try:
        return shown_parts(*read(str(where)))
    except WrongInput:
        return say("records", "address_is_unreadable")


def shown_parts(url: URL, shop: str) -> str:
    """The same of an address that was read."""
    host = url.host or url.query.get("host", "")
    user = url.username or url.query.get("user")
    named = URL.create("postgresql", None if user is None else str(user), host=str(host), port=url.port)
    return shop_names.added_to(named.set(database=url.database), shop).render_as_string()


def shop_at(address: str) -> str:
    """The name of the shop at an address of a server; where it cannot be read, whoever opens it is told."""
    try:
        return read(address)[1]
    except WrongInput:
        return MAIN


def folder_name(address: str) -> str:
    """What a folder for the files of a shop on a server is called (see `shop_names.folder_name`)."""
    try:
        return shop_names.folder_name(*read(address))
    except WrongInput:
        return _UNREADABLE


def _url(address: str) -> URL:
    accepted = say("records", "shop_address_accepted")
    try:
        url = make_url(address)
    except (ArgumentError, ValueError):
        # The address itself is not repeated: there may be a password in it.
        raise WrongInput(say("records", "shop"), say("records", "address_is_unreadable"), accepted) from None
    if url.get_backend_name() not in ("postgresql", "postgres"):
        raise WrongInput(say("records", "shop"), url.drivername, accepted)
    if any(sign in (url.host or "") for sign in "@?#"):  # what follows an @ of the password
        raise WrongInput(say("records", "shop"), say("records", "address_is_unreadable"), accepted)
    return url.set(drivername="postgresql+psycopg")
