"""What the catalogue knows about one cassette format: shells, speeds, markings, each with its source."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from core.catalogue import format_words
from core.catalogue.format_file import FormatFile, StartingHabits
from core.catalogue.markings import Marking, Sourced, TapeSpeed, bare
from core.catalogue.shell_anatomy import Anatomy, Silhouette
from core.model.errors import WrongInput
from core.model.names import Container, FormatName, Speed, TvSystem
from core.wording.messages import say

if TYPE_CHECKING:
    from core.catalogue.marking_rules import MarkingRules


@dataclass(frozen=True, slots=True)
class Shell:
    """One size of shell. ``size`` is width, depth and height in mm."""

    size: Sourced[tuple[float, float, float]]


@dataclass(frozen=True, slots=True)
class Footprint:
    """How far one track reaches along the tape, in mm; None where no figure is known."""

    tv: TvSystem | None
    mm: Sourced[float]


@dataclass(frozen=True, slots=True)
class Format:
    """One cassette format of the catalogue."""

    name: FormatName
    sides: int
    """2 where both directions share the tape."""
    systems: tuple[FormatName, ...]
    """Recordings that fit the shell, its own first."""
    shells: tuple[Shell, ...]
    tape_width_mm: Sourced[float] | None
    """None where it is no tape."""
    tape_speeds: tuple[TapeSpeed, ...]
    footprints: tuple[Footprint, ...]
    markings: tuple[Marking, ...]
    record: FormatFile = field(compare=False, repr=False)
    """The whole entry: what only the bench, the habits or a drawing asks for."""
    word_names: tuple[str, ...] = field(compare=False, repr=False)
    """The names under which its sentences stand: its own, then those of the formats it is like."""
    rules: MarkingRules = field(compare=False, repr=False)
    """How markings are read that it does not list."""

    def sentences(self, key: str) -> tuple[str, ...]:
        """What is said of it, e.g. ``opening`` or ``look-lid``; none where nothing is known."""
        return format_words.sentences(self.word_names, key, self.record)

    @property
    def habits(self) -> StartingHabits:
        return self.record.habits

    @property
    def words(self) -> str:
        """``VHS-C``."""
        return self.sentences("name")[0]

    @property
    def counted_in(self) -> Container:
        """What its things are: tapes, reels of film, boxes of pictures, discs."""
        return self.record.counted_in

    @property
    def is_counted(self) -> bool:
        """Pictures are counted one by one; nothing of them is measured in metres."""
        return self.record.amount is not None and self.record.amount.unit == "pieces"

    @property
    def anatomy(self) -> Anatomy:
        return self.record.drawing

    @property
    def silhouette(self) -> Silhouette:
        return self.record.silhouette

    @property
    def asks_for(self) -> FormatName | None:
        """The recording that the counter asks about because the shell does not tell; None: nothing to ask."""
        asked = self.record.asks_for
        return FormatName(asked) if asked and asked != self.name else None

    @property
    def reel_radius_mm(self) -> Sourced[float] | None:
        """How far a pack can reach at most; None where the pack geometry is not known."""
        pack = self.record.pack
        return (
            Sourced(pack.reel_radius.value, pack.reel_radius.source, pack.reel_radius.mark) if pack else None
        )

    @property
    def usual_pack(self) -> str | None:
        """The marking whose hub and thickness are taken when none is named."""
        return self.record.pack.usual if self.record.pack else None

    @property
    def shell(self) -> Sourced[tuple[float, float, float]]:
        """Width, depth and height in mm of the usual shell."""
        return self.shells[0].size

    @property
    def has_own_system(self) -> bool:
        """False for a shell nobody can name yet."""
        return self.name in self.systems

    @property
    def speeds(self) -> tuple[Speed, ...]:
        """Every recording speed in any TV system, fastest first."""
        return self.speeds_in(None)

    def speeds_in(self, tv: TvSystem | None) -> tuple[Speed, ...]:
        """The recording speeds in one TV system (None: in any)."""
        return tuple(dict.fromkeys(entry.speed for entry in self.tape_speeds if entry.suits(None, tv)))

    def speed_choices(self, speed: Speed | None, tv: TvSystem | None) -> tuple[TapeSpeed, ...]:
        """The tape speeds possible under what is known; WrongInput when the format has none such."""
        found = tuple(entry for entry in self.tape_speeds if entry.suits(speed, tv))
        if not found:
            known = ", ".join(entry.value for entry in self.speeds_in(tv))
            told = {"format": self.words, "speeds": known, "tv": tv.value.upper() if tv else ""}
            accepted = say("playtime", "has-speeds-in" if tv else "has-speeds", **told)
            raise WrongInput("speed", speed.value if speed else None, accepted)
        return found

    def marking(self, text: str | None, tv: TvSystem | None = None) -> Marking | None:
        """The marking meant by ``text``, whatever its case, dashes and spaces; None stays None.

        What is not listed is read by the rules of the format; minutes that were told count in ``tv``.
        WrongInput, naming every marking and rule of the format, when nothing fits.
        """
        if text is None:
            return None
        found = self._listed(text) or self.rules.read(text, tv, self.name)
        if found is None:
            raise WrongInput("marking", text, self.markings_accepted)
        return self._listed(found.name) or found

    def sold_for(self, text: str | None) -> TvSystem | None:
        """The TV system that a printed marking tells; None where the markings of the format tell none."""
        marking = self.marking(text) if self.record.markings_tell_tv else None
        return marking.nominal_tv if marking else None

    def _listed(self, text: str) -> Marking | None:
        wanted = bare(text)
        for marking in self.markings:
            if wanted in (bare(name) for name in (marking.name, *marking.aliases)):
                return marking
        return None

    @property
    def markings_accepted(self) -> str:
        """What is accepted as a marking, as a sentence."""
        known = ", ".join(marking.name for marking in self.markings)
        rules = self.rules.words
        key = "sold-as-or-read" if rules else "sold-as"
        return say("playtime", key, format=self.words, names=known, rules=rules)

    def footprint(self, tv: TvSystem | None) -> Sourced[float] | None:
        """Length of one track along the tape in mm; the longest when the TV system is not known."""
        found = [entry.mm for entry in self.footprints if None in (tv, entry.tv) or entry.tv is tv]
        return max(found, key=lambda entry: entry.value, default=None)
