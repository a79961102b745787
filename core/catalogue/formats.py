"""The catalogue of cassette formats, read once from ``resources/catalogue/formats``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from core.catalogue import format_folder
from core.catalogue.cassettes import Footprint, Format, Marking, Shell, Sourced, TapeSpeed, bare
from core.model import resource_files
from core.model.errors import WrongInput
from core.model.names import FormatName
from core.model.shaped_toml import one_of

__all__ = [
    "Catalogue",
    "Footprint",
    "Format",
    "Marking",
    "Shell",
    "Sourced",
    "TapeSpeed",
    "catalogue",
]


@dataclass(frozen=True)
class Catalogue:
    """Every format the shop knows, in the order of the counter."""

    formats: tuple[Format, ...]

    @property
    def names(self) -> tuple[FormatName, ...]:
        return tuple(entry.name for entry in self.formats)

    def format(self, name: str) -> Format:
        """The format called ``name``; WrongInput, naming all of them, when there is none."""
        for entry in self.formats:
            if entry.name == name:
                return entry
        raise WrongInput("format", name, one_of(self.names))

    def guess(self, marking: str) -> tuple[FormatName, ...]:
        """The formats sold with this marking; none when nobody sells it."""
        wanted = bare(marking)
        sold: list[FormatName] = []
        for entry in self.formats:
            for known in entry.markings:
                if wanted in (bare(name) for name in (known.name, *known.aliases)):
                    sold += known.sold_as
        return tuple(name for name in self.names if name in sold)


@cache
def catalogue() -> Catalogue:
    """The catalogue that comes with the program; read at the first call."""
    return Catalogue(format_folder.load(resource_files.path("catalogue", "formats")))
