"""Texts that readers stumble over, and ways to spoil a good one."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

TEXTS = (
    *("", " ", "\t", "\n", "\r\n", "\x00", "a\x00b", "\x1b[2J\x1b[31m", "\x7f", "\x85", "\x9b31m"),
    *("\ud800", "a\udcffb", "\udcff\udcfe", "\ufeff", "\ufeff5", "\u202eabc", "\u2066x\u2069", "\u200b"),
    *(
        "\u2028",
        "\u2029",
        "\xad",
        "e\u0301\u0301",
        "\u0130",
        "ß",
        "ſ",
        "ﬁ",
        "日本",
        "🙂",
        "👩‍👩‍👧",
        "\U000e0041",
    ),
    *(
        "٣",
        "१२",
        "５",
        "²",
        "½",
        "Ⅷ",
        "1_000",
        "1,000",
        "1.000,5",
        "+1",
        "-1",
        "-0",
        "--1",
        "0x1f",
        "0b1",
        "0o7",
    ),
    *("1e5", "1E999", "-1e999", "1e-999", "1e999999999", "1e-999999999", "9" * 30, "9" * 400, "9" * 5000),
    *("0." + "9" * 400, "nan", "NaN", "sNaN", "inf", "-Infinity", "1.", ".5", "1..2", "0" * 60 + "1"),
    *(
        "true",
        "null",
        "None",
        "[]",
        "{}",
        "[[]]",
        '""',
        "'",
        '"',
        "\\",
        "\\u0000",
        "%s%n",
        "{0}",
        "{ $n }",
        "{",
    ),
    *("$(x)", "`x`", "; x", "|", "&", "*", "?", "!", "#", "@", "=", "-", "--", "---", "-x", "--x", "--json"),
    *("<b>x</b>", "<img src=x>", "' OR 1=1 --", "=1+1", "+x", "@x", "a" * 39, "a" * 41, "a" * 200, "a" * 501),
    *(
        "a" * 10_000,
        "é" * 300,
        "🙂" * 130,
        "\u0301" * 300,
        "a\nb",
        "a\rb",
        "a\r\nb",
        "a\tb",
        " a ",
        "\u00a0a",
    ),
    *("2026-03-02", "2026-02-30", "2026-13-01", "0000-00-00", "0001-01-01", "9999-12-31", "10000-01-01"),
    *("2026-W10-1", "20260302", "2026-3-2", "2026-03-02T25:00", "2026-03-02T10:00:60", "24:00", "25:61"),
    *("2026-03-02T10:00:00+99:00", "2026-03-02T10:00:00Z", "2026-03-02 10:00", "0001-01-01T00:00:00+14:00"),
    *("2200-12-31T23:59:59.999999-23:59", "T10", "10", "9-5", "9am-5pm", "25-26", "9-12, 11-13", "9–", "-"),
    *("+1 303 555 0142", "(303) 555-0142", "+", "++1", "tel:+13035550142;ext=9", "303555014" * 9, "ext. 5"),
    *("000018", "18", "000000", "999999", "0000180014", "000018 001 4", "0000000000", "9" * 10, "000018001"),
    *(
        "vhs",
        "VHS",
        "8mm-unknown",
        "hi8",
        "T-120",
        "T120",
        "T-0",
        "T-" + "9" * 20,
        "P6-120",
        "E-180",
        "DVM60",
    ),
    *(
        "usb",
        "own-drive",
        "DVDs",
        "3 x DVDs",
        "999 × DVDs",
        "0 x DVDs",
        ",,,",
        ", ",
        "a, a, a",
        "dvd, bluray",
    ),
)
_LETTERS = "\x00\x1b\x7f\x9b\u202e\u2028\ufeff\ud800\n\r\t \"'\\/{}[]<>$%&,;:=+-_.0129eE×–🙂é"
HARMLESS_PATHS = ("/dev/null", "/dev/full", "/proc/self/mem", "~nobody-of-that-name/x", "/dev/null/x", ".")


def any_text(dice: Random) -> str:
    """One of `TEXTS`, now and then several of them joined."""
    text = dice.choice(TEXTS)
    while dice.random() < 0.15 and len(text) < 20_000:
        text += dice.choice(("", " ", ",", "\n")) + dice.choice(TEXTS)
    return text


def mutated(text: str, dice: Random) -> str:
    """``text`` with one to three faults."""
    for _ in range(dice.choice((1, 1, 2, 3))):
        text = dice.choice(_WAYS)(text, dice)
    return text


def harmless(word: str, known: tuple[str, ...]) -> str:
    """``word``, unless it names a place outside the folder of the test: then without its slashes."""
    if word in known or word in HARMLESS_PATHS:
        return word
    return as_a_word(word.replace("/", "_").replace("~", "_").replace("..", "__"))


def as_a_word(text: str) -> str:
    """``text`` as a program gets it from a shell: no NUL, and what is no UTF-8 byte by byte (PEP 383)."""
    return text.replace("\x00", "").encode("utf-8", "surrogatepass").decode("utf-8", "surrogateescape")


def _letter(text: str, dice: Random) -> str:
    place = dice.randint(0, len(text))
    return text[:place] + dice.choice(_LETTERS) + text[place:]


def _without(text: str, dice: Random) -> str:
    place = dice.randint(0, len(text))
    return text[:place] + text[place + dice.randint(1, 3) :]


def _cut(text: str, dice: Random) -> str:
    return text[: dice.randint(0, len(text))]


def _repeated(text: str, dice: Random) -> str:
    return text * dice.choice((2, 2, 3, 60))


def _changed_letter(text: str, dice: Random) -> str:
    if not text:
        return dice.choice(_LETTERS)
    place = dice.randrange(len(text))
    return (
        text[:place] + chr((ord(text[place]) + dice.choice((-1, 1, 32, 256))) % 0x110000) + text[place + 1 :]
    )


def _with_text(text: str, dice: Random) -> str:
    return dice.choice((f"{text}{dice.choice(TEXTS)}", f"{dice.choice(TEXTS)}{text}"))


def _replaced(_: str, dice: Random) -> str:
    return any_text(dice)


def _other_case(text: str, dice: Random) -> str:
    return dice.choice((text.upper(), text.swapcase(), text.title()))


_WAYS: tuple[Callable[[str, Random], str], ...] = (
    *(_letter, _letter, _without, _cut, _repeated),
    *(_changed_letter, _with_text, _replaced, _replaced, _other_case),
)
