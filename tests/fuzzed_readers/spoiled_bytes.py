"""Ways to spoil the bytes of a good file, whatever is in it."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from tests.fuzzed_readers import hostile_texts

_ODD = (
    *(b"\x00", b"\xff", b"\xfe\xff", b"\xff\xfe", b"\xef\xbb\xbf", b"\x80", b"\xc0\xaf", b"\xed\xa0\x80"),
    *(b"\xf8\x88\x80\x80\x80", b"\x1b[2J", b"\x7f", b"\xc2\x9b", b"\r", b"\r\n", b"\n", b"\x1a", b"\t"),
    *(
        b"NaN",
        b"-Infinity",
        b"1e999",
        b"9" * 5000,
        b"-" + b"9" * 300,
        b"0.1e-99999",
        b"[" * 5000,
        b"{" * 2000,
    ),
    *(
        b'{"a":' * 3000,
        b'"',
        b"\\",
        b"\\ud800",
        b"\\u0000",
        b"//",
        b"#",
        b"=",
        b",",
        b",,",
        b"[[",
        b"]]",
        b"'''",
    ),
)
LONG = 200_000
"""Letters of a line nobody typed."""


def spoiled(data: bytes, dice: Random) -> bytes:
    """``data`` with one to three faults."""
    for _ in range(dice.choice((1, 1, 1, 2, 3))):
        data = dice.choice(_WAYS)(data, dice)
    return data


def _place(data: bytes, dice: Random) -> int:
    return dice.randint(0, len(data))


def _flipped(data: bytes, dice: Random) -> bytes:
    if not data:
        return b"\x01"
    place = dice.randrange(len(data))
    return data[:place] + bytes([data[place] ^ (1 << dice.randrange(8))]) + data[place + 1 :]


def _cut(data: bytes, dice: Random) -> bytes:
    return data[: _place(data, dice)]


def _without(data: bytes, dice: Random) -> bytes:
    place = _place(data, dice)
    return data[:place] + data[place + dice.choice((1, 1, 4, 40, 400)) :]


def _inserted(data: bytes, dice: Random) -> bytes:
    place = _place(data, dice)
    return data[:place] + dice.choice(_ODD) + data[place:]


def _written_over(data: bytes, dice: Random) -> bytes:
    place, odd = _place(data, dice), dice.choice(_ODD)
    return data[:place] + odd + data[place + len(odd) :]


def _swapped(data: bytes, dice: Random) -> bytes:
    one, other = sorted((_place(data, dice), _place(data, dice)))
    return data[:one] + data[other:] + data[one:other]


def _repeated(data: bytes, dice: Random) -> bytes:
    one, other = sorted((_place(data, dice), _place(data, dice)))
    return data[:other] + data[one:other] * dice.choice((1, 2, 30)) + data[other:]


def _in_another_encoding(data: bytes, dice: Random) -> bytes:
    text = data.decode("utf-8", "replace")
    return text.encode(dice.choice(("utf-16", "utf-32", "utf-16-be", "utf-7", "cp1252")), "replace")


def _lines_ended_otherwise(data: bytes, dice: Random) -> bytes:
    return data.replace(b"\n", dice.choice((b"\r\n", b"\r", b"\n\r", b"\n\x00", b"\x0c", b"\xe2\x80\xa8")))


def _long_line(data: bytes, dice: Random) -> bytes:
    place = _place(data, dice)
    return data[:place] + dice.choice((b"a", b" ", b"9", b"\xc3\xa9")) * LONG + data[place:]


def _texts(data: bytes, dice: Random) -> bytes:
    place, text = _place(data, dice), hostile_texts.any_text(dice)
    return data[:place] + text.encode("utf-8", "surrogatepass") + data[place:]


def _other(data: bytes, dice: Random) -> bytes:
    return dice.choice((b"", b"\n", b"\xef\xbb\xbf", b"null", b"0", b'""', b"[]", b"{}", dice.randbytes(300)))


_WAYS: tuple[Callable[[bytes, Random], bytes], ...] = (
    *(_flipped, _flipped, _cut, _without, _inserted, _inserted, _written_over, _swapped, _repeated),
    *(_in_another_encoding, _lines_ended_otherwise, _texts, _other),
    _long_line,
)
