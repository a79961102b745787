"""What is kept of customers, why and for how long, on one page to be shown or hung up."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from core.model.own_shop.settings_records import ShopFront
from core.papers.typesetting.binding import Cover, bound, story
from core.papers.typesetting.paper_tokens import QUIET, STRONG, TITLE, UNIT
from core.papers.voice import voice
from core.wording.locale_figures import full_day
from core.wording.messages import say

Line = tuple[str, str, str]
"""What, why, how long."""


def render(lines: Sequence[Line], front: ShopFront, day: date, *, paper: str | None = None) -> bytes:
    """The page as a PDF on ``a4`` or ``letter``, as of ``day``."""
    speaker = voice(front)
    told = story(speaker, paper)
    told.say(say("privacy", "title"), TITLE, before=2 * UNIT)
    told.say(say("privacy", "made-on", day=full_day(day)), QUIET, before=0)
    told.say(say("privacy", "about", name=front.name), before=UNIT)
    for what, why, how_long in lines:
        told.say(what, STRONG, before=UNIT, with_next=True)
        told.say(f"{why} {how_long}", before=0)
    told.say(say("privacy", "rights"), QUIET, before=UNIT)
    return bound(told, Cover(say("privacy", "title"), front.name), speaker, paper)
