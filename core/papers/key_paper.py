"""The key of the backups on paper, once: whoever finds it can read them, and without it nobody can."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from core.model.own_shop.settings_records import ShopFront
from core.papers import printed_codes
from core.papers.binding import Cover, bound, story
from core.papers.page import Pen
from core.papers.paper_tokens import STRONG, TITLE, UNIT
from core.papers.voice import voice

_CODE = 120.0
"""Points: a square code of this length is read from a screen's distance."""


@dataclass(frozen=True, slots=True)
class KeyCode:
    """The key as a QR code."""

    key: str
    height: float = _CODE

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_qr(pen, x, y, self.height, self.key)


def render(key: str, public_key: str, made_on: date, front: ShopFront, *, paper: str | None = None) -> bytes:
    """One page as a PDF on ``a4`` or ``letter``."""
    speaker = voice(front)
    told = story(speaker, paper)
    told.say(speaker.say("key-title"), TITLE, before=3 * UNIT)
    told.say(speaker.say("key-made", day=speaker.full_day(made_on)))
    told.say(speaker.say("key-keep"), before=2 * UNIT)
    told.say(speaker.say("key-lost"))
    told.add((KeyCode(key),), before=2 * UNIT)
    for line in _pieces(key):
        told.say(line, STRONG, before=0)
    told.say(speaker.say("key-use"), before=2 * UNIT)
    told.say(speaker.say("key-public", key=public_key), before=2 * UNIT)
    return bound(told, Cover(speaker.say("key-title")), speaker, paper)


def _pieces(key: str) -> list[str]:
    """The key in lines that are typed without losing one's place; spaces do not count."""
    groups = [key[at : at + 6] for at in range(0, len(key), 6)]
    return [" ".join(groups[at : at + 5]) for at in range(0, len(groups), 5)]
