"""What may be typed in each cell of the tray: the words offered, and how a word is read."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from core.catalogue import condition, formats
from core.catalogue.cassettes import Format
from core.catalogue.markings import Marking
from core.model.errors import WrongInput
from core.model.inventory import LONGEST_EXEMPTION, MOST_TAPES
from core.model.names import AnyFinding, FormatName, Speed, TvSystem, finding_of
from core.wording.locale_figures import listed
from core.wording.messages import worded_cache
from gui.tables import choices
from gui.tables.choices import CellChoice
from gui.toolkit.text import say
from gui.widgets.cassette_drawing import paint_cassette

LONGEST_LABEL = 200
_UNKNOWN = ("", "?", "unknown")

# --- offers ------------------------------------------------------------------------------


@worded_cache(maxsize=8)
def formats_offered() -> tuple[CellChoice, ...]:
    """Everything the shop takes in, by its words and its name, with its size and its shell."""
    return tuple(
        CellChoice(known.words, (known.name,), _size(*known.shell.value), _drawing(known.name))
        for known in formats.catalogue().offered
    )


def _drawing(name: FormatName) -> Callable[[QPainter, QRectF], None]:
    return partial(paint_cassette, format_name=name)


@worded_cache(maxsize=256)
def markings_offered(shell_words: str) -> tuple[CellChoice, ...]:
    """The markings a shell is sold with, then those read by rule, and how long each runs at its own speed."""
    shell = shell_called(shell_words)
    known = dict.fromkeys((*shell.markings, *_read_by_rule(shell))) if shell else ()
    offered = tuple(
        CellChoice(marking.name, marking.aliases, _runs(marking.minutes, marking.nominal_speed.words))
        for marking in known
    )
    return (*offered, *_amounts(shell)) if shell and shell.record.amount else offered


def _amounts(shell: Format) -> Iterator[CellChoice]:
    """Every amount by its number, so that 8 is not taken for the beginning of 80."""
    rule, *_ = shell.rules
    low, high = rule.entry.numbers
    listed = {number for number, _ in rule.listed}
    yield from (CellChoice(rule.written(n), (f"{n}",)) for n in range(low, high + 1) if n not in listed)


def _read_by_rule(shell: Format) -> Iterator[Marking]:
    """So that a shorter one, typed in full, is not taken for the beginning of a listed one."""
    listed = {marking.name for marking in shell.markings}
    for rule in () if shell.record.amount else shell.rules:
        if not rule.entry.told:
            yield from (marking for marking in rule.every if marking.name not in listed)


@worded_cache(maxsize=256)
def recordings_offered(shell_words: str) -> tuple[CellChoice, ...]:
    """The recordings that fit a shell."""
    shell = shell_called(shell_words)
    known = [formats.catalogue().format(name) for name in (shell.systems if shell else ())]
    return tuple(CellChoice(system.words, (system.name,)) for system in known)


@worded_cache(maxsize=256)
def speeds_offered(shell_words: str, recorded_words: str) -> tuple[CellChoice, ...]:
    """The speeds of a recording; of the shell's own when nobody says which."""
    system = shell_called(recorded_words) or shell_called(shell_words)
    return tuple(CellChoice(speed.words, (speed.value,)) for speed in (system.speeds if system else ()))


def _size(width: float, height: float, depth: float) -> str:
    return say("counter", "size", width=f"{width:g}", height=f"{height:g}", depth=f"{depth:g}")


def _runs(minutes: float, speed: str) -> str:
    return say("counter", "runs", minutes=f"{minutes:g}", speed=speed)


def tv_offered() -> tuple[CellChoice, ...]:
    """The TV systems, and where each was used."""
    return (
        CellChoice("NTSC", ("ntsc",), say("counter", "ntsc_where")),
        CellChoice("PAL", ("pal",), say("counter", "pal_where")),
    )


@worded_cache(maxsize=8)
def findings_offered() -> tuple[CellChoice, ...]:
    """What may be wrong with a tape, and how that is seen."""
    return tuple(
        CellChoice(words, (finding.value,), how_seen) for finding, words, how_seen in condition.choices()
    )


@worded_cache(maxsize=256)
def findings_on(shell_words: str) -> tuple[CellChoice, ...]:
    """Those of them that may be found on such a thing; all while nobody knows what it is."""
    shell = shell_called(shell_words)
    if shell is None:
        return findings_offered()
    possible = {finding.value for finding in condition.possible(shell.name)}
    return tuple(choice for choice in findings_offered() if choice.aliases[0] in possible)


@worded_cache(maxsize=512)
def shell_called(words: str) -> Format | None:
    """The format of these words, or None."""
    found = choices.meant(formats_offered(), words)
    return formats.catalogue().format(found.aliases[0]) if found else None


_LONGEST_COUNT = 12
"""Digits; Python turns no text of thousands of them into a number."""

# --- reading: each raises WrongInput with what is accepted -------------------------------


def read_count(text: str) -> int:
    """Tapes alike; an empty cell counts as one."""
    if not text.strip():
        return 1
    typed = text.strip()
    if typed.isdecimal() and len(typed) <= _LONGEST_COUNT and 1 <= int(typed) <= MOST_TAPES:
        return int(typed)
    raise WrongInput(_place("count"), text, say("counter", "accepted_count", most=MOST_TAPES))


def read_shell(text: str) -> Format:
    """The format of the shell."""
    found = shell_called(text)
    if found is None:
        known = _listed(formats_offered())
        raise WrongInput(_place("format"), text, say("counter", "accepted_one", known=known))
    return found


def read_marking(text: str, of: Format) -> str | None:
    """The marking as the catalogue writes it."""
    if text.strip() in _UNKNOWN:
        return None
    try:
        found = of.marking(text)
    except WrongInput as failure:
        raise WrongInput(_place("marking"), text, failure.accepted) from failure
    return found.name if found else None


def read_recorded_as(text: str, of: Format) -> FormatName | None:
    """Another recording in the same shell."""
    if text.strip() in _UNKNOWN:
        return None
    found = choices.meant(recordings_offered(of.words), text)
    if found is None:
        known = _listed(recordings_offered(of.words))
        raise WrongInput(
            _place("recorded_as"), text, say("counter", "accepted_recorded", format=of.words, known=known)
        )
    return FormatName(found.aliases[0])


def read_speed(text: str, system: Format, tv: TvSystem | None) -> Speed | None:
    """The recording speed, one that the system has in this TV system."""
    if text.strip() in _UNKNOWN:
        return None
    possible = system.speeds_in(tv)
    offered = [CellChoice(known.words, (known.value,)) for known in possible]
    found = choices.meant(offered, text)
    if found is None:
        raise WrongInput(_place("speed"), text, _accepted_speeds(system, tv, _listed(offered)))
    return Speed(found.aliases[0])


def read_tv(text: str) -> TvSystem | None:
    """The TV system."""
    if text.strip() in _UNKNOWN:
        return None
    found = choices.meant(tv_offered(), text)
    if found is None:
        raise WrongInput(_place("tv"), text, say("counter", "accepted_tv"))
    return TvSystem(found.aliases[0])


def read_findings(text: str) -> tuple[AnyFinding, ...]:
    """What is wrong with the tapes, with commas between."""
    found: list[AnyFinding] = []
    for part in choices.parts(text):
        choice = choices.meant(findings_offered(), part)
        if choice is None:
            known = _listed(findings_offered())
            raise WrongInput(_place("findings"), part, say("counter", "accepted_many", known=known))
        finding = finding_of(choice.aliases[0])
        if finding not in found:
            found.append(finding)
    return tuple(found)


def read_label(text: str) -> str:
    """What the owner wrote on the cassette."""
    if len(text) > LONGEST_LABEL:
        found = say("counter", "label_letters", count=len(text))
        raise WrongInput(_place("label"), found, say("counter", "accepted_label", most=LONGEST_LABEL))
    return text


def _place(column: str) -> str:
    return say("counter", f"column-{column}")


def _listed(offered: Iterable[CellChoice]) -> str:
    return listed([choice.words for choice in offered], "unit")


def _accepted_speeds(system: Format, tv: TvSystem | None, known: str) -> str:
    if tv is None:
        return say("counter", "accepted_speed", system=system.words, known=known)
    return say("counter", "accepted_speed_tv", system=system.words, tv=tv.value.upper(), known=known)


def read_exemption(text: str | None) -> str:
    """Why no tax is charged; nothing where it is. WrongInput when it was ticked and no reason typed."""
    if text is None:
        return ""
    said = text.strip()
    if not said or len(said) > LONGEST_EXEMPTION or not said.isprintable():
        place = say("counter", "tax_exempt_why")
        raise WrongInput(place, said, say("counter", "tax_exempt_accepted"))
    return said
