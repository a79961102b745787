"""The pseudo-language: longer, accented, in brackets; blanks, keys and mnemonics as they are."""

from __future__ import annotations

import re

import pytest

from core.wording import message_files, messages
from core.wording.messages import say


def test_every_sentence_is_bracketed_once() -> None:
    messages.use("xx")
    assert say("slip", "price") == "⟦Ŧööŧààł⟧"
    assert re.fullmatch(r"⟦[^⟦⟧]*Ada[^⟦⟧]*⟧", say("pickup", "tell_leader", title="Ada"))
    assert re.fullmatch(r"⟦[^⟦⟧]*3[^⟦⟧]*⟧", say("figures", "since_days", n=3))


@pytest.mark.parametrize(("key", "kept"), [("name", "&N"), ("book_key", "Ctrl+Return")])
def test_keys_and_mnemonics_stay_what_one_presses(key: str, kept: str) -> None:
    assert kept in say("counter", key, "xx")


def test_the_sentences_of_a_room_grow_by_some_forty_percent() -> None:
    texts = [
        source
        for _, source in message_files.entries(
            (message_files.FOLDER / "en" / "screens" / "shop.ftl").read_text()
        )
    ]
    plain = [text for text in texts if "{" not in text and len(text) > 20]
    grown = sum(len(messages.pseudo_language.accented(text)) for text in plain) / sum(map(len, plain))
    assert 1.25 <= grown <= 1.5
