"""The sentences a customer must hear about a quote, and how they stand on the screen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from html import escape

from core.catalogue import formats
from core.model.quote_records import Quote, QuotedTape
from core.wording.locale_figures import listed
from gui.toolkit.text import say


def must_tell(tapes: Sequence[QuotedTape]) -> tuple[tuple[str, str], ...]:
    """Which tapes, and all that must be said about them: ``2 × VHS, 1 × Hi8`` and sentences.

    Rows of one format are counted together.
    """
    about: dict[str, Counter[str]] = {}
    for tape in tapes:
        if tape.n == 1 and tape.verdict.told:
            name = formats.catalogue().format(tape.draft.format).words
            for sentence in tape.verdict.told:
                about.setdefault(sentence, Counter())[name] += tape.draft.count
    together: dict[str, list[str]] = {}
    for sentence, counted in about.items():
        named = [say("counter", "tell_row", count=count, words=name) for name, count in counted.items()]
        together.setdefault(listed(named, "unit"), []).append(sentence)
    return tuple((which, " ".join(sentences)) for which, sentences in together.items())


def paragraphs(told: Sequence[tuple[str, str]], below: int) -> str:
    """The sentences as rich text, what they are about in bold; ``below`` is the gap in pixels."""
    style = f"margin: 0 0 {below}px 0"
    return "".join(
        f"<p style='{style}'>{f'<b>{escape(which)}</b> ' if which else ''}{escape(sentences)}</p>"
        for which, sentences in told
    )


def besides(quote: Quote) -> list[str]:
    """The warnings of a quote that none of its tapes says already."""
    told = [sentence for tape in quote.tapes for sentence in tape.verdict.told]
    return [warning for warning in quote.warnings if not any(warning.endswith(each) for each in told)]
