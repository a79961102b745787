"""What the customer wishes besides: on what the copies come, and by when."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date, timedelta

from core.model.errors import WrongInput
from core.model.inventory import MOST_SETS, Delivery
from core.model.own_shop import shop_additions
from core.pricing import copy_sizes
from core.wording.messages import worded_cache
from gui.tables import choices
from gui.tables.choices import CellChoice
from gui.toolkit import text

DAYS_OFFERED = 180
LATEST_DAYS = 3 * 366
"""A wish further away than three years is a slip of the pen."""

_DISCS = ("dvd", "bluray")
_SEVERAL = re.compile(r"(?P<sets>\d{1,3})\s*[x×*]\s*(?P<order>\S.*)", re.IGNORECASE)


@worded_cache(maxsize=8)
def _known() -> dict[str, tuple[CellChoice, Delivery]]:
    """Every order the shop takes, the usual ones first."""
    carriers = copy_sizes.carriers()
    orders = [Delivery("files", "h264", carrier) for carrier in carriers]
    orders[1:1] = [Delivery(kind) for kind in ("dvd", "bluray")]
    by_size = [each for each in carriers if not _is_by_minutes(each)]
    orders += [Delivery("files", codec, on) for codec in copy_sizes.CODECS[1:] for on in by_size]
    named = [(_words(order), order) for order in orders]
    return {words: (CellChoice(words, _aliases(order), _note(order)), order) for words, order in named}


def copies_offered() -> tuple[CellChoice, ...]:
    """The orders as they are offered."""
    return tuple(choice for choice, _ in _known().values())


def deliveries(typed: str) -> tuple[Delivery, ...]:
    """The orders in a list with commas, ``3 × DVDs`` for as many sets; WrongInput names the one that is not
    known."""
    found: list[Delivery] = []
    for part in choices.parts(typed):
        sets, wanted = _sets(part)
        choice = choices.meant(copies_offered(), wanted)
        if choice is None or not 1 <= sets <= MOST_SETS:
            few = "; ".join(known.words for known in copies_offered()[:4])
            raise WrongInput(
                text.say("counter", "copies_place"), part, text.say("counter", "accepted_copies", few=few)
            )
        order = _known()[choice.words][1]
        found += [order] * (sets - found.count(order))
    return tuple(found)


def copies_words(orders: tuple[Delivery, ...]) -> str:
    """The list that `deliveries` reads back."""
    return ", ".join(
        text.say("counter", "sets", n=count, copy=_words(order)) for order, count in Counter(orders).items()
    )


def days_offered(today: date) -> tuple[CellChoice, ...]:
    """The coming days."""
    days = (today + timedelta(days=n) for n in range(DAYS_OFFERED))
    return tuple(_day_choice(day) for day in days)


def day(typed: str, today: date, place: str = "") -> date | None:
    """A day that was typed, e.g. by which a box is needed: one of the coming days, or ISO 8601.

    WrongInput at ``place``, or at the field of the Counter, for anything else.
    """
    place = place or text.say("counter", "needed_by_place")
    written = typed.strip()
    if not written:
        return None
    found = choices.meant(days_offered(today), written)
    try:
        wish = date.fromisoformat(found.aliases[0] if found else written)
    except ValueError:
        accepted = text.say("counter", "accepted_day", day=text.short_day(today), iso=today.isoformat())
        raise WrongInput(place, typed, accepted) from None
    if not 0 <= (wish - today).days <= LATEST_DAYS:
        raise WrongInput(
            place or text.say("counter", "needed_by_place"), typed, text.say("counter", "accepted_day_range")
        )
    return wish


def _sets(part: str) -> tuple[int, str]:
    """How many sets of one order, and which: ``3 × DVDs`` or ``3 x dvd``."""
    typed = _SEVERAL.fullmatch(part)
    return (int(typed["sets"]), typed["order"]) if typed else (1, part)


@worded_cache(maxsize=4096)
def _day_choice(day: date) -> CellChoice:
    month = text.short_month(day)
    return CellChoice(
        text.short_day(day), (day.isoformat(), f"{day.day} {month}", f"{month} {day.day}"), str(day.year)
    )


def _words(order: Delivery) -> str:
    if order.kind in _DISCS:
        return text.say("counter", f"disc-{order.kind}")
    own = shop_additions.medium(order.carrier or "")
    if own is not None and order.codec in (None, "h264"):
        return text.say("counter", "on-own-minutes" if own.minutes else "on-own", medium=own.words)
    if order.codec in (None, "h264"):
        return text.say("counter", f"on-{order.carrier or 'usb'}")
    return _codec_files(order, copy_sizes.codec_words(order.codec or "h264").replace(",", ""))


def _is_by_minutes(carrier: str) -> bool:
    """Whether it is a medium of the shop's own that holds so many minutes, whatever the kind of file."""
    own = shop_additions.medium(carrier)
    return own is not None and bool(own.minutes)


def _codec_files(order: Delivery, codec: str) -> str:
    if own := shop_additions.medium(order.carrier or ""):
        return text.say("counter", "codec-own", codec=codec, medium=own.words)
    return text.say("counter", f"codec-{order.carrier or 'usb'}", codec=codec)


def _aliases(order: Delivery) -> tuple[str, ...]:
    if order.kind in _DISCS:
        return (order.kind, text.say("counter", f"disc_typed-{order.kind}"))
    if order.codec == "h264":
        return (f"{order.carrier}", f"h264 {order.carrier}", _codec_files(order, "H.264"))
    return (f"{order.codec} {order.carrier}",)


def _note(order: Delivery) -> str:
    if order.kind in _DISCS:
        return text.say("counter", "dvd_note") if order.kind == "dvd" else ""
    if _is_by_minutes(order.carrier or ""):
        return ""
    return copy_sizes.codec_words(order.codec or "h264") if order.codec == "h264" else ""
