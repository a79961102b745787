"""What may be typed in each cell of the tray: the words offered, and how a word is read."""

from __future__ import annotations

from functools import lru_cache

from core.catalogue import condition, formats
from core.catalogue.cassettes import Format
from core.model.errors import WrongInput
from core.model.inventory import MOST_TAPES
from core.model.names import Finding, FormatName, Speed, TvSystem
from gui.tables import choices
from gui.tables.choices import CellChoice

LONGEST_LABEL = 200
_UNKNOWN = ("", "?", "unknown")

# --- offers ------------------------------------------------------------------------------


@lru_cache(maxsize=1)
def formats_offered() -> tuple[CellChoice, ...]:
    """Every shell of the catalogue, by its words and its name, with its size."""
    return tuple(
        CellChoice(known.words, (known.name,), "{:g} × {:g} × {:g} mm".format(*known.shell.value))
        for known in formats.catalogue().formats
    )


@lru_cache(maxsize=256)
def markings_offered(shell_words: str) -> tuple[CellChoice, ...]:
    """The markings a shell is sold with, and how long each runs at its own speed."""
    shell = shell_called(shell_words)
    return tuple(
        CellChoice(marking.name, marking.aliases, f"{marking.minutes:g} min at {marking.nominal_speed.words}")
        for marking in (shell.markings if shell else ())
    )


@lru_cache(maxsize=256)
def recordings_offered(shell_words: str) -> tuple[CellChoice, ...]:
    """The recordings that fit a shell."""
    shell = shell_called(shell_words)
    known = [formats.catalogue().format(name) for name in (shell.systems if shell else ())]
    return tuple(CellChoice(system.words, (system.name,)) for system in known)


@lru_cache(maxsize=256)
def speeds_offered(shell_words: str, recorded_words: str) -> tuple[CellChoice, ...]:
    """The speeds of a recording; of the shell's own when nobody says which."""
    system = shell_called(recorded_words) or shell_called(shell_words)
    return tuple(CellChoice(speed.words, (speed.value,)) for speed in (system.speeds if system else ()))


TV_OFFERED = (
    CellChoice("NTSC", ("ntsc",), "the Americas, Japan, Korea"),
    CellChoice("PAL", ("pal",), "most of Europe, Australia, China"),
)
FINDINGS_OFFERED = tuple(
    CellChoice(words, (finding.value,), how_seen) for finding, words, how_seen in condition.CHOICES
)


@lru_cache(maxsize=512)
def shell_called(words: str) -> Format | None:
    """The format of these words, or None."""
    found = choices.meant(formats_offered(), words)
    return formats.catalogue().format(found.aliases[0]) if found else None


# --- reading: each raises WrongInput with what is accepted -------------------------------


def count(text: str) -> int:
    """Tapes alike; an empty cell counts as one."""
    if not text.strip():
        return 1
    if text.strip().isdecimal() and 1 <= int(text) <= MOST_TAPES:
        return int(text)
    raise WrongInput("Count", text, f"accepted is a whole number from 1 to {MOST_TAPES}")


def shell(text: str) -> Format:
    """The format of the shell."""
    found = shell_called(text)
    if found is None:
        known = ", ".join(choice.words for choice in formats_offered())
        raise WrongInput("Format", text, f"accepted are {known}")
    return found


def marking(text: str, of: Format) -> str | None:
    """The marking as the catalogue writes it."""
    if text.strip() in _UNKNOWN:
        return None
    try:
        found = of.marking(text)
    except WrongInput as failure:
        raise WrongInput("Marking", text, failure.accepted) from failure
    return found.name if found else None


def recorded_as(text: str, of: Format) -> FormatName | None:
    """Another recording in the same shell."""
    if text.strip() in _UNKNOWN:
        return None
    found = choices.meant(recordings_offered(of.words), text)
    if found is None:
        known = ", ".join(choice.words for choice in recordings_offered(of.words))
        raise WrongInput("Recorded as", text, f"a {of.words} shell takes {known}")
    return FormatName(found.aliases[0])


def speed(text: str, system: Format, tv: TvSystem | None) -> Speed | None:
    """The recording speed, one that the system has in this TV system."""
    if text.strip() in _UNKNOWN:
        return None
    possible = system.speeds_in(tv)
    offered = [CellChoice(known.words, (known.value,)) for known in possible]
    found = choices.meant(offered, text)
    if found is None:
        where = f" in {tv.value.upper()}" if tv else ""
        known = ", ".join(choice.words for choice in offered)
        raise WrongInput("Speed", text, f"{system.words}{where} has {known}, or leave it empty")
    return Speed(found.aliases[0])


def tv(text: str) -> TvSystem | None:
    """The TV system."""
    if text.strip() in _UNKNOWN:
        return None
    found = choices.meant(TV_OFFERED, text)
    if found is None:
        raise WrongInput("TV", text, "accepted are NTSC and PAL, or leave it empty")
    return TvSystem(found.aliases[0])


def findings(text: str) -> tuple[Finding, ...]:
    """What is wrong with the tapes, with commas between."""
    found: list[Finding] = []
    for part in choices.parts(text):
        choice = choices.meant(FINDINGS_OFFERED, part)
        if choice is None:
            known = ", ".join(offered.words for offered in FINDINGS_OFFERED)
            raise WrongInput("Findings", part, f"accepted, with commas between, are {known}")
        finding = Finding(choice.aliases[0])
        if finding not in found:
            found.append(finding)
    return tuple(found)


def label(text: str) -> str:
    """What the owner wrote on the cassette."""
    if len(text) > LONGEST_LABEL:
        raise WrongInput("Label", f"{len(text)} letters", f"accepted are up to {LONGEST_LABEL}")
    return text
