"""What papers call a tape, and what they say is done with it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from core.model.inventory import TapeLine
from core.model.names import Outcome
from core.model.repair_records import Elsewhere, Verdict
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.papers.voice import Voice
from core.wording.locale_figures import tape_code

_SUFFIXES = frozenset({"jr", "sr", "ii", "iii", "iv", "phd", "md", "dds", "esq"})
"""What may follow a surname in American names."""


def draft_name(draft: TapeLine, voice: Voice) -> str:
    """``Hi8 P6-120, recorded as Digital8, LP``."""
    parts = [" ".join(filter(None, (voice.capital(voice.format(draft.format)), draft.marking)))]
    if draft.recorded_as and draft.recorded_as != draft.format:
        parts.append(voice.say("tape-recorded_as", format=voice.format(draft.recorded_as)))
    if draft.speed:
        parts.append(draft.speed.words)
    return ", ".join(parts)


def record_name(tape: TapeRecord) -> str:
    """``VHS-C TC-30``."""
    return " ".join(filter(None, (tape.format_words, tape.marking)))


def full_name(tape: TapeRecord) -> str:
    """The cassette and what its owner wrote on it: ``VHS-C TC-30 · the cabin``."""
    return " · ".join(filter(None, (record_name(tape), tape.label)))


def short_code(tape: TapeRecord) -> str:
    """The code in groups that can be read aloud: ``000013 001 7``."""
    return tape_code(tape.code)


def surname(name: str) -> str:
    """What a box is looked for by: what stands before a comma, else the last word that is no title.

    A name without spaces, as in Chinese or Japanese, is told whole; whose family name comes first, is found
    by the given one (common practice, no source).
    """
    before, comma, _ = name.partition(",")
    if comma and before.strip() and before.strip().casefold().strip(".") not in _SUFFIXES:
        name = before if len(before.split()) == 1 else name.replace(",", " ")
    words = name.split()
    while len(words) > 1 and words[-1].casefold().strip(".") in _SUFFIXES:
        words.pop()
    return words[-1] if words else ""


def expected(draft: TapeLine, verdict: Verdict, voice: Voice) -> str:
    """In short sentences: what was found, what is done, what comes of it."""
    outcome = voice.say(f"outcome-{verdict.set_aside or verdict.outcome.value}")
    found = ", ".join(voice.finding(finding) for finding in draft.findings)
    repairs = ", ".join(repair.words for repair in verdict.repairs)
    return " ".join(voice.sentence(part) for part in (found, repairs, outcome) if part)


def apart(tapes: Iterable[tuple[str, Elsewhere]], voice: Voice) -> tuple[str, ...]:
    """What no deck of the shop plays, by who may copy it: ``2 U-matic · The Reel House, about 10 days``."""
    found: dict[Elsewhere, list[str]] = {}
    for name, elsewhere in tapes:
        found.setdefault(replace(elsewhere, why=""), []).append(name)
    lines = []
    for elsewhere, names in found.items():
        counted = tally(names, voice)
        key = "apart-partner" if elsewhere.partner else "apart-nobody"
        told = {"partner": elsewhere.partner, "days": voice.count("apart-days", elsewhere.days)}
        lines.append(voice.say(key, tapes=counted, **told))
    return tuple(lines)


def became(tape: TapeRecord, voice: Voice) -> str:
    """What became of a tape that goes home, or was lost."""
    disposition = tape.disposition
    if disposition is None:
        return _became_before(tape, voice)
    if disposition.is_copied and tape.played_minutes is not None:
        return voice.say(f"became-{disposition.value}-for", length=voice.play_time(tape.played_minutes))
    return voice.say(f"became-{disposition.value}")


def _became_before(tape: TapeRecord, voice: Voice) -> str:
    """What was said on receipts before dispositions were kept."""
    if tape.played_minutes is not None:
        return voice.say("tape-copied", length=voice.play_time(tape.played_minutes))
    if tape.station is Station.KEPT_APART or tape.station is Station.CANNOT_BE_PLAYED:
        return voice.say(f"station-{tape.station.value}")
    if tape.verdict.elsewhere:
        return voice.say("tape-not-here")
    if tape.verdict.outcome is Outcome.CANNOT:
        return voice.say("station-cannot-be-played")
    return voice.say("tape-not_copied")


def standing(tape: TapeRecord, voice: Voice) -> str:
    """Where a tape is that stays with the shop."""
    if tape.is_to_talk_about:
        return voice.say("standing-talk_about")
    return voice.say(f"station-{tape.station.value}")


def tally(formats: Iterable[str], voice: Voice) -> str:
    """``6 VHS, 3 Hi8``, the first seen first."""
    seen: dict[str, int] = {}
    for name in formats:
        seen[name] = seen.get(name, 0) + 1
    return ", ".join(f"{voice.number(count)} {name}" for name, count in seen.items())


def spliced(tapes: Sequence[TapeRecord]) -> tuple[TapeRecord, ...]:
    """The tapes that must never be used again."""
    return tuple(tape for tape in tapes if tape.not_for_reuse)
