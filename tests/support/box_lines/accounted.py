"""Whether a line was read to the last character: taken or told, nothing twice and nothing lost."""

from __future__ import annotations

from core.catalogue.box_line.line_records import LineReading


def unaccounted(reading: LineReading) -> str:
    """The characters, spaces aside, that are in no stretch or in two."""
    seen = [0] * len(reading.text)
    for each in reading.stretches:
        for place in range(each.start, each.end):
            seen[place] += 1
    counted = zip(reading.text, seen, strict=True)
    return "".join(sign for sign, often in counted if often > 1 or (often == 0 and not sign.isspace()))


def untold(reading: LineReading) -> list[str]:
    """The unread words that no row holds."""
    held = " ".join(word for row in reading.rows for word in row.unread)
    return [reading.words(each) for each in reading.unread if reading.words(each) not in held]
