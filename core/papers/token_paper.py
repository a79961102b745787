"""A token of a person on paper, once: whoever finds it can work as that person at the command line."""

from __future__ import annotations

from datetime import date

from core.model.own_shop.settings_records import ShopFront
from core.papers import secret_page
from core.papers.secret_page import SecretPaper
from core.papers.voice import voice


def render(
    token: str, words: str, person: str, until: date, front: ShopFront, *, paper: str | None = None
) -> bytes:
    """Half a page as a PDF on ``a4`` or ``letter``; ``words`` say what the token is for.

    Letters of a token count as they are written, so none are set apart.
    """
    speaker = voice(front)
    said = SecretPaper(
        title=speaker.say("token-title", person=person),
        lead=speaker.say("token-for", words=words, day=speaker.full_day(until)),
        secret=token,
        keep=(speaker.say("token-keep", person=person),),
        use=(speaker.say("token-use"), speaker.say("token-ends")),
        lost=speaker.say("token-lost"),
        grouped=False,
    )
    return secret_page.render(said, front, paper)
