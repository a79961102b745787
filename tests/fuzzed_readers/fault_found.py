"""One thing that must not happen, and what is said of it."""

from __future__ import annotations

import traceback
from pathlib import Path

ROOT = Path(__file__).parents[2]


class FaultFound(Exception):
    """``kind`` is the same for one fault however often it shows; ``told`` is what is seen of it."""

    def __init__(self, kind: str, told: str) -> None:
        super().__init__(f"{kind}: {told}")
        self.kind = kind
        self.told = told


def of_exception(error: BaseException, fed: object) -> FaultFound:
    """An exception that is none of the program's own failures."""
    frames = traceback.extract_tb(error.__traceback__)
    own = [each for each in frames if _is_ours(each.filename)]
    place = (
        f"{Path(own[-1].filename).relative_to(ROOT)}:{own[-1].lineno} {own[-1].name}" if own else "elsewhere"
    )
    return FaultFound(f"{type(error).__name__} at {place}", f"{str(error)[:200]} <- {repr(fed)[:600]}")


def _is_ours(file: str) -> bool:
    return file.startswith((f"{ROOT}/core", f"{ROOT}/gui"))
