"""The key of the backups on paper, once: whoever finds it can read them, and without it nobody can."""

from __future__ import annotations

from datetime import date

from core.model.own_shop.settings_records import ShopFront
from core.papers import secret_page
from core.papers.secret_page import SecretPaper
from core.papers.voice import voice


def render(key: str, public_key: str, made_on: date, front: ShopFront, *, paper: str | None = None) -> bytes:
    """Half a page as a PDF on ``a4`` or ``letter``."""
    speaker = voice(front)
    said = SecretPaper(
        title=speaker.say("key-title"),
        lead=speaker.say("key-made", day=speaker.full_day(made_on)),
        secret=key,
        keep=(speaker.say("key-keep"),),
        use=(speaker.say("key-use"), speaker.say("key-restore")),
        lost=speaker.say("key-lost"),
        public=speaker.say("key-public", key=public_key),
    )
    return secret_page.render(said, front, paper)
