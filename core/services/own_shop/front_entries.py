"""The shop's own page and its papers in the settings file: read with a sentence for what does not fit."""

from __future__ import annotations

import base64
import binascii
import io
from functools import lru_cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import msgspec

from core.model import accents
from core.model.errors import WrongInput, at, one_of
from core.model.own_shop.settings_file import FrontEntry, PapersEntry
from core.model.own_shop.settings_records import Printing, ShopFront
from core.papers.stickers import label_stock
from core.services.own_shop.entry_checks import check_printable
from core.wording import typed_amounts
from core.wording.messages import say

PICTURES = (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff")
"""How a PNG (ISO/IEC 15948) and a JPEG (ISO/IEC 10918) file begin."""

LARGEST_PICTURE = 4000
"""Pixels of the longer side of a logo; the window makes it smaller by itself."""


def of_entry(entry: FrontEntry, papers: PapersEntry, where: str) -> ShopFront:
    """The front of the shop; WrongInput names the key."""
    place = at(where, "front")
    try:
        ZoneInfo(entry.timezone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        accepted = say("readers", "iana_timezone_accepted_like")
        raise WrongInput(at(place, "timezone"), entry.timezone, accepted) from None
    if not typed_amounts.is_currency(entry.currency):
        raise WrongInput(at(place, "currency"), entry.currency, say("files", "currency"))
    if entry.accent not in accents.NAMES:
        raise WrongInput(at(place, "accent"), entry.accent, one_of(filter(None, accents.NAMES)))
    _check_logo(entry.logo, at(place, "logo"))
    fields = msgspec.structs.asdict(entry)
    for key, value in fields.items():
        for line in value if isinstance(value, tuple) else (value,):
            check_printable(line, at(place, key))
    front = ShopFront(**fields, printing=Printing(**msgspec.structs.asdict(papers)))
    label_stock.check(front, at(where, "papers"))
    return front


def _check_logo(text: str, place: str) -> None:
    if text and not _is_logo(text):
        raise WrongInput(place, f"{text[:20]}…", say("files", "logo"))


@lru_cache(maxsize=4)
def _is_logo(text: str) -> bool:
    """Whether a text is a picture in base64; remembered, for it is asked at every pause in the typing."""
    try:
        content = base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        return False
    return content.startswith(PICTURES) and _is_picture(content)


def _is_picture(content: bytes) -> bool:
    """Whether the picture can be drawn, and is no larger than the door lets in."""
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(io.BytesIO(content), formats=("PNG", "JPEG")) as picture:
            if max(picture.size) > LARGEST_PICTURE:
                return False
            picture.load()
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        return False
    return True
