"""The language ``xx``: English accented, some 40 % longer, each sentence in ⟦ ⟧.

What a screen shows outside the brackets is a literal left in code; what is clipped is a layout to mend.
"""

from __future__ import annotations

import re

TAG = "xx"

_ACCENTS = str.maketrans(
    "AEIOUYCDGLNRSTZaeiouycdglnrstz",
    "ÀÉÎÖÛÝÇĐĞŁÑŘŠŦŽàéîöûýçđğłñřšŧž",
)
_KEPT = r"&.|\b(?:Ctrl|Alt|Shift)\+\w+|\bF\d+\b|\b(?:Esc|Return|Space|Backspace|Up|Down)\b|\\n"
"""Mnemonics and names of keys, which stay what one presses; `re` compiles it when the language is spoken."""
_VOWEL = r"[ÀÉÎÖÛÝàéîöûý]"


def accented(text: str) -> str:
    """``Hand back   Ctrl+Return`` as ``Ħàànđ…   Ctrl+Return``: vowels doubled, names of keys untouched."""
    said: list[str] = []
    begun = 0
    for kept in re.finditer(_KEPT, text):
        said += (_longer(text[begun : kept.start()]), kept[0])
        begun = kept.end()
    return "".join((*said, _longer(text[begun:])))


def bracketed(sentence: str) -> str:
    """The sentence in the brackets that say it came from a wording file."""
    return f"⟦{sentence}⟧"


def _longer(text: str) -> str:
    return re.sub(_VOWEL, lambda vowel: vowel[0] + vowel[0].lower(), text.translate(_ACCENTS))
