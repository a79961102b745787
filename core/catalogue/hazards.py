"""Standing cautions about what can hurt somebody, a machine or the tape."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Literal

from msgspec import Struct

from core.model import resource_files
from core.model.errors import WrongInput
from core.model.shaped_toml import read, shaped
from core.wording.messages import knows, say


class Hazard(Struct, frozen=True, forbid_unknown_fields=True):
    """One caution, and with which repair it comes on a shell that names it."""

    comes_with: Literal["any-repair", "splice", "finding"]


def names() -> tuple[str, ...]:
    return tuple(_all())


def of(name: str) -> Hazard:
    return _all()[name]


def caution(name: str) -> str:
    """The caution in words."""
    return say("hazards", name)


@cache
def _all() -> Mapping[str, Hazard]:
    path = resource_files.path("catalogue", "hazards.toml")
    found = shaped(read(path), dict[str, Hazard], path.name)
    for name in found:
        if not knows("hazards", name, "en"):
            raise WrongInput("hazards.ftl", "nothing", say("files", "sentence-needed", key=name))
    return found
