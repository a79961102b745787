"""Where a failure came from, for whoever mends it, and nothing of the records it happened on.

The message of an exception often quotes what it was given, and that may be a customer's name or phone number.
So neither it nor any value goes into the log: only the kinds, the places and the lines of our own source.
"""

from __future__ import annotations

import traceback

_BETWEEN = "---"


def trace(error: BaseException) -> str:
    """The traceback without a word of any message; the first failure first."""
    parts: list[str] = []
    seen: set[int] = set()
    _collect(error, parts, seen)
    return f"\n{_BETWEEN}\n".join(reversed(parts))


def _collect(error: BaseException | None, parts: list[str], seen: set[int]) -> None:
    while error is not None and id(error) not in seen:
        seen.add(id(error))
        frames = traceback.extract_tb(error.__traceback__)
        lines = [f"  {each.filename}:{each.lineno} {each.name}\n    {each.line}\n" for each in frames]
        parts.append("".join([f"{type(error).__module__}.{type(error).__qualname__}\n", *lines]))
        error = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
