"""The shape of ``resources/catalogue/formats/NAME.toml``; a key without a default is needed."""

from enum import Enum

# Annotations are not put off here: msgspec would have to evaluate each text of them at the first start.
from typing import Annotated, Literal, TypeAlias

from msgspec import Meta, Struct

from core.catalogue.shell_anatomy import Anatomy, Silhouette
from core.model.names import Container, Speed, TvSystem

Mark: TypeAlias = Literal[
    "standard",
    "standard-2nd-hand",
    "handbook",
    "manufacturer",
    "manufacturer-2nd-hand",
    "trade",
    "common-practice",
    "from-memory",
    "derived",
    "invented",
    "shop",
]
"""How much a value can be trusted, from the clause of a standard down to an assumption of this shop."""

Words: TypeAlias = Annotated[str, Meta(min_length=1, description="not-empty")]
Positive: TypeAlias = Annotated[float, Meta(gt=0, description="above-0")]
Share: TypeAlias = Annotated[float, Meta(ge=0, le=1, description="share")]
WholeNumber: TypeAlias = Annotated[int, Meta(ge=1, description="rule-numbers")]
RuleName: TypeAlias = Annotated[str, Meta(pattern=r"^[^{}]*\{n\}[^{}]*$", description="rule-names")]
NotNegative: TypeAlias = Annotated[float, Meta(ge=0, description="not-below-0")]
Texts: TypeAlias = Annotated[tuple[Words, ...], Meta(description="texts")]
Weights: TypeAlias = dict[str, NotNegative]
ByTv: TypeAlias = Annotated[dict[str, Weights], Meta(min_length=1, description="by-tv")]


ANY = "any"
"""The key of what holds in every TV system."""


class Hazard(Enum):
    """A standing caution; its sentence is in ``findings.ftl``, under its value."""

    BLADES = "blades"
    SPRINGS = "springs"
    MOULD = "mould"
    FOIL = "foil"
    SMALL = "small"
    SOLVENT = "solvent"
    GLUE = "glue"
    OXIDE = "oxide"
    MAINS = "mains"
    CHARGE = "charge"
    MOVING = "moving"


class Figure(Struct, frozen=True, forbid_unknown_fields=True):
    """One figure with where it comes from."""

    value: Positive
    source: Words
    mark: Mark


class ShellSize(Struct, frozen=True, forbid_unknown_fields=True):
    """One size of shell: width, depth and height in mm. The first one is the usual one."""

    mm: Annotated[tuple[Positive, Positive, Positive], Meta(description="size")]
    source: Words
    mark: Mark


class SpeedEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """One tape speed: in mm/s, or as a fraction ``[2, 3]`` of the SP of the same TV system."""

    speed: Speed
    source: Words
    mark: Mark
    tv: TvSystem | None = None
    mm_s: Positive | None = None
    of_sp: tuple[int, int] | None = None


class TrackEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """How far one track reaches along the tape."""

    mm: NotNegative
    source: Words
    mark: Mark
    tv: TvSystem | None = None


class CameraHabit(Struct, frozen=True, forbid_unknown_fields=True):
    """How many tapes a camcorder made, and the speeds of those; asked at the counter where it matters."""

    share: NotNegative
    speeds: Weights


class StartingHabits(Struct, frozen=True, forbid_unknown_fields=True):
    """What a new shop believes of the format; the weights are invented."""

    fill: Literal["home", "camera", "studio", "whole"]
    """How full such tapes are: a profile of ``habits.toml``."""
    speeds: ByTv
    usual: ByTv
    """The cassettes a customer usually brings, by marking."""
    camera: CameraHabit | None = None
    counted_with: str | None = None
    """The format under whose name its tapes are counted, because it is used alike."""


class FormatWords(Struct, frozen=True, forbid_unknown_fields=True):
    """The English of a format that the wording files do not have; see `core.catalogue.format_words`."""

    name: str = ""
    sizes: Texts = ()
    opening: Texts = ()
    """How the shell is opened; none where nothing is known."""
    protect: str = ""
    """Where the record-protect is; empty where nothing is known."""
    plays: Texts = ()
    """Which machine plays which recording."""
    lid: Texts = ()
    """How the lid is opened in the look-over."""
    reels: Texts = ()
    """How the reels are freed in the look-over."""
    shell: Texts = ()
    """How the shell is looked at, where that is not done as on every other."""


class StepPart(Struct, frozen=True, forbid_unknown_fields=True):
    """The part that one step of the look-over points at on this shell."""

    part: str


class Looks(Struct, frozen=True, forbid_unknown_fields=True):
    """The steps that point at another part than usual."""

    lid: StepPart | None = None
    reels: StepPart | None = None

    def part(self, key: str) -> str | None:
        """The part that this shell has for one step; None where it is the usual one."""
        found: StepPart | None = getattr(self, key) if key in self.__struct_fields__ else None
        return found.part if found else None


class ReelsDrawn(Struct, frozen=True, forbid_unknown_fields=True):
    """Middle to middle of the two reels, and from the back edge to that line, in mm; for drawings only."""

    apart: Positive
    from_back: Positive
    source: Words
    mark: Mark


class ThicknessSpan(Struct, frozen=True, forbid_unknown_fields=True):
    """Between these the thickness of the tape may be, in µm."""

    thin: Positive
    thick: Positive
    source: Words
    mark: Mark


class Thickness(Struct, frozen=True, forbid_unknown_fields=True):
    """One grade of tape: its nominal thickness in µm, where one is known, and what it may really be."""

    span: ThicknessSpan
    nominal: Figure | None = None


class PackGeometry(Struct, frozen=True, forbid_unknown_fields=True):
    """What turns a radius seen through the window into metres; left out where it is not known."""

    usual: Words
    """The marking whose hub and thickness count when none is named."""
    reel_radius: Figure
    reels_drawn: ReelsDrawn
    hubs: dict[str, Figure]
    thicknesses: dict[str, Thickness]


class LengthRule(Struct, frozen=True, forbid_unknown_fields=True):
    """Metres = ``per_minute`` × minutes + ``per_number`` × number + ``plus``."""

    per_minute: NotNegative
    plus: float
    source: Words
    mark: Mark
    per_number: NotNegative = 0.0


class Nominal(Struct, frozen=True, forbid_unknown_fields=True):
    """The recording in which a marking counts its minutes."""

    system: str
    speed: Speed
    tv: TvSystem | None = None


class CassetteEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """One marking; its length is published (``metres``), follows a rule, or is the shortest that fits."""

    name: Words
    minutes: Positive
    aliases: tuple[Words, ...] = ()
    metres: Positive | None = None
    number: NotNegative = 0.0
    hub: str | None = None
    thickness: str | None = None
    longest: Figure | None = None
    """The longest that is printed or measured of it, in metres; beyond the lot's own margin."""


class Lot(Struct, frozen=True, forbid_unknown_fields=True):
    """Markings that are sold and count alike."""

    sold_as: Annotated[tuple[str, ...], Meta(min_length=1, description="some-formats")]
    nominal: Nominal
    cassettes: Annotated[tuple[CassetteEntry, ...], Meta(min_length=1, description="some-cassettes")]
    length: str | None = None
    """The one of ``lengths`` that gives the metres where none are published."""
    source: Words | None = None
    """Of the published metres."""
    mark: Mark | None = None
    over: Figure | None = None
    """Metres by which its cassettes may be longer, as printed."""
    over_share: Figure | None = None
    """The same as a share of the length, as printed of another cassette; the larger of both counts."""


class AmountEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """``[amount]``: how much one container holds and what that takes, in place of speeds, lots and rules.

    `core.catalogue.amounts` writes those from it, so that film, pictures and discs go the way of a tape.
    """

    unit: Literal["feet", "pieces", "minutes"]
    """Film is measured, pictures are counted; minutes are those on the machine, or of sound."""
    usual: Annotated[dict[str, NotNegative], Meta(min_length=1, description="amounts")]
    """Amounts a customer usually brings, in whole units, with their weights."""
    frames_per_foot: Figure | None = None
    """Needed with feet."""
    rates: Annotated[dict[str, NotNegative], Meta(description="rates")] = {}
    """Frame rates of film with their weights; needed with feet."""
    seconds_a_piece: Figure | None = None
    """What one picture takes on the machine; needed with pieces."""
    mm_s: Figure | None = None
    """The speed of a tape whose lengths are given in minutes."""
    written: Annotated[tuple[RuleName, ...], Meta(description="rule-names")] = ()
    """How an amount is written; the first one is how the shop writes it."""
    most: WholeNumber = 5000
    """The largest amount of one container."""
    pace: Figure | None = None
    """Minutes on the machine for one minute of the recording; 1 where it runs in real time."""


class RuleEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """One way to read a marking that no lot lists: a number between letters, counted in minutes.

    Nominal minutes = ``minutes`` × number; metres follow ``length``, else the speed of ``nominal``.
    """

    names: Annotated[tuple[RuleName, ...], Meta(min_length=1, description="rule-names")]
    """How it is printed; the first one is how the shop writes it."""
    nominal: Nominal
    numbers: Annotated[tuple[WholeNumber, WholeNumber], Meta(description="rule-numbers")]
    """The smallest and the largest number that is read."""
    tolerance: Share
    """How far the listed markings of these names lie from the rule at most, as a share of their metres."""
    source: Words
    mark: Mark
    minutes: Positive = 1.0
    length: str | None = None
    told: bool = False
    """Minutes that somebody tells of a cassette, not what a maker prints on it: they name no TV system."""


class FormatFile(Struct, frozen=True, forbid_unknown_fields=True):
    """All that is known of one format."""

    counter_place: int
    """Where it stands in the lists of the counter, lowest first."""
    systems: Annotated[Weights, Meta(min_length=1, description="recordings")]
    """The recordings that fit the shell, its own first, each with its weight; 0: fits, is not expected."""
    sides: Literal[1, 2]
    """2 where both directions share the tape."""
    bench_times: Literal["usual", "small"]
    """Whether its repairs take the times of small shells."""
    hazards: tuple[Hazard, ...]
    """What this shell adds to a repair."""
    shells: Annotated[tuple[ShellSize, ...], Meta(min_length=1, description="some-shells")]
    speeds: tuple[SpeedEntry, ...]
    """None where it borrows those of the systems that fit."""
    footprints: tuple[TrackEntry, ...]
    """None where no figure is known."""
    habits: StartingHabits
    silhouette: Silhouette
    drawing: Anatomy
    lots: Annotated[tuple[Lot, ...], Meta(min_length=1, description="some-lots")]
    tape_width: Figure | None = None
    """Needed of tape."""
    counted_in: Container = Container.TAPE
    amount: AmountEntry | None = None
    words: FormatWords | None = None
    look: Looks = Looks()
    asks_for: str | None = None
    """The recording that the counter asks about, because the shell does not tell and it plays otherwise."""
    priced_like: str | None = None
    """The format whose price counts where the price book has none for this one."""
    pack: PackGeometry | None = None
    lengths: dict[str, LengthRule] = {}
    rules: tuple[RuleEntry, ...] = ()
    """How markings are read that no lot lists."""
    markings_tell_tv: bool = False
    """Whether a printed marking tells for which TV system the cassette was sold (T- and E-, P6- and P5-)."""
    picture: Literal["sd", "hd", "none"] = "sd"
    """What a copy is held against: the sizes of Rec. ITU-R BT.601, those of HDV, or sound alone."""
