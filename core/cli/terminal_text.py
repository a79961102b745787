"""What reaches the terminal: never a sign that moves the cursor, erases, or turns the writing around.

A name can hold such signs, and a terminal obeys them: they are shown as what they are, ``\\u202e``.
"""

from __future__ import annotations

from typing import TextIO

from core.model.errors import WrongInput
from core.wording.messages import say

_KEPT = frozenset("\n\t\u200c\u200d")
"""Line and column; the joiners that Persian, Hindi and emoji are written with (Unicode 16, chapter 23.2)."""
_SILENT = frozenset(("Cc", "Cf", "Cs", "Co", "Zl", "Zp"))
"""General categories (Unicode Standard Annex 44): control, format (what turns writing around is among them),
surrogate, private use, line and paragraph separator."""


def shown(text: str, out: TextIO) -> str:
    """``text`` as ``out`` can show it: signs without a shape by their number, a question mark for others."""
    encoding = getattr(out, "encoding", None) or "utf-8"
    return visible(text).encode(encoding, "replace").decode(encoding)


def visible(text: str) -> str:
    """``text`` with each sign that has no shape written as its number; a line may end as RFC 4180 ends it."""
    return "\r\n".join(map(_visible_line, text.split("\r\n")))


def ask_secret(question: str) -> str:
    """What is typed unseen after ``question``; WrongInput where nothing can be, as by a program."""
    import warnings
    from getpass import GetPassWarning, getpass  # not before the first paint, nor the next import

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", GetPassWarning)
        try:
            return getpass(visible(question))
        except (EOFError, UnicodeError) as error:
            raise WrongInput(question.strip(" :"), "", say("entered", "few_words")) from error


def _visible_line(line: str) -> str:
    return "".join(each if _has_shape(each) else _numbered(each) for each in line)


def _has_shape(sign: str) -> bool:
    import unicodedata

    return sign in _KEPT or unicodedata.category(sign) not in _SILENT


def _numbered(sign: str) -> str:
    code = ord(sign)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
