"""What the findings of a tape mean together: repairs, cautions, what the customer is told, and the outcome.

One finding can overrule the others, so that the verdict never contradicts itself: what cannot be played
here comes before what is copied only with the right to it, that before what is looked at first, that before
all that is repaired or copied as it is (common practice, no source). What is overruled is told as a fact,
without what would be done about it. Wording and bench times are in ``resources/catalogue/repairs.toml``; the
times are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from core.catalogue import findings, hazards
from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.model.errors import WrongInput, one_of
from core.model.names import AnyFinding, Container, Finding, FormatName, Outcome
from core.model.own_shop import shop_additions
from core.model.ranges import ZERO, Range
from core.model.repair_records import Elsewhere, Hold, Repair, Verdict
from core.model.spoken_names import spoken
from core.wording.messages import say, worded_cache

REPAIRS = tuple(findings.page().repairs)
"""Codes of the program's actions at the bench; the price book has one price for each."""
JOINING = tuple(code for code, entry in findings.page().repairs.items() if entry.joins)
"""Those in which two ends may have to be put together."""
SPLICE, RE_ANCHOR = "splice", "re-anchor"

_WORST_LAST = tuple(Outcome)


def verdict(found: Iterable[AnyFinding], name: FormatName, elsewhere: Elsewhere | None = None) -> Verdict:
    """What these findings mean on a cassette of format ``name``.

    A tape that cannot be played here, or waits for an answer, is not repaired either: it keeps its cautions
    and no repairs. Nor is one that no deck of the shop plays (``elsewhere``): its customer hears why, and who
    may copy it. WrongInput when the format is not known.
    """
    seen = frozenset(found)
    judged = _verdict(seen, name)
    if elsewhere is None or judged.set_aside:
        return judged
    told = (elsewhere.why, *_partner_words(elsewhere), *_told(findings.in_order(seen), (), ()))
    cautions = _cautions(findings.in_order(seen), (), (), catalogue().format(name))
    return Verdict(Outcome.CANNOT, (), tuple(dict.fromkeys(cautions)), told, False, elsewhere)


def leading(found: Iterable[AnyFinding]) -> tuple[AnyFinding, ...]:
    """The findings that decide what is done; the others are known and wait."""
    seen = findings.in_order(found)
    stops = tuple(each for each in seen if findings.of(each).outcome is Outcome.CANNOT)
    held = (tuple(each for each in seen if findings.of(each).hold is hold) for hold in Hold)
    return next(filter(None, (stops, *held)), seen)


def _partner_words(elsewhere: Elsewhere) -> Iterator[str]:
    if elsewhere.partner:
        key = "partner_takes_priced" if elsewhere.price else "partner_takes"
        told = {"partner": elsewhere.partner, "price": elsewhere.price}
        yield say("dates", key, days=elsewhere.days, **told)


def must_be_spliced(found: Iterable[AnyFinding]) -> bool:
    """Whether a splice has to be on record before the tape meets a machine."""
    return any(findings.of(finding).needs_splice for finding in found)


def splice_ends_reuse(name: FormatName) -> bool:
    """Whether a thing that was spliced must never be played again: tape; film is made to be spliced."""
    return catalogue().format(name).counted_in is Container.TAPE


def offered() -> tuple[AnyFinding, ...]:
    """What may be found now on anything: all but what the shop has retired."""
    own = shop_additions.offered(shop_additions.in_force().findings)
    return (*Finding, *(each.key for each in own))


def named(value: str, place: str) -> AnyFinding:
    """The finding of a typed name; WrongInput at ``place``, with all names, when nothing is called so."""
    known = {finding.value: finding for finding in offered()}
    if value not in known:
        raise WrongInput(place, value, one_of(known))
    return known[value]


def possible(name: FormatName) -> frozenset[AnyFinding]:
    """What may be found on a thing of this format."""
    thing = catalogue().format(name).counted_in
    return frozenset(finding for finding in findings.every() if thing in findings.of(finding).things)


def repair(code: str, name: FormatName) -> Repair:
    """One action at the bench with its bench minutes on this format."""
    own = shop_additions.repair(code)
    entry = findings.page().repairs.get(code)
    if own is not None or entry is None:
        return Repair(code, findings.repair_words(code), own.minutes if own else ZERO)
    times = catalogue().format(name).record.bench_times
    return Repair(code, say("repairs", code), Range(*(entry.small if times == "small" else entry.usual)))


def repairs_offered() -> tuple[str, ...]:
    """Codes of the actions that may be done now, those of the shop's own last."""
    own = shop_additions.offered(shop_additions.in_force().repairs)
    return (*REPAIRS, *(each.name for each in own))


def repairs_of(finding: AnyFinding) -> tuple[str, ...]:
    """Codes of the actions that deal with one finding; none where nothing can be done."""
    return findings.of(finding).repairs


def codes_of(found: Iterable[AnyFinding]) -> tuple[str, ...]:
    """Codes of the actions that deal with these findings, each once, those of the shop's own last."""
    wanted = {code for finding in found for code in repairs_of(finding)}
    known = dict.fromkeys((*findings.repair_codes(), *sorted(wanted)))
    return tuple(code for code in known if code in wanted and findings.covered_by(code) not in wanted)


def how_seen(finding: AnyFinding) -> str:
    """What to look for: ``a loose end, or both ends showing under the lid``."""
    return " ".join(findings.sentences("seen", finding))


@worded_cache(maxsize=8)
def choices() -> tuple[tuple[AnyFinding, str, str], ...]:
    """For screens: every finding, its short words, and how it is seen."""
    return tuple((finding, spoken(finding), how_seen(finding)) for finding in offered())


@worded_cache(maxsize=2048)
def _verdict(found: frozenset[AnyFinding], name: FormatName) -> Verdict:
    seen, first = findings.in_order(found), leading(found)
    outcomes = (findings.of(finding).outcome for finding in seen)
    outcome = max(outcomes, key=_WORST_LAST.index, default=Outcome.PLAYS)
    hold = findings.of(first[0]).hold if first else None
    codes = codes_of(seen) if outcome is not Outcome.CANNOT and hold is None else ()
    return Verdict(
        outcome=outcome,
        repairs=tuple(repair(code, name) for code in codes),
        cautions=tuple(dict.fromkeys(_cautions(seen, first, codes, catalogue().format(name)))),
        told=tuple(_told(seen, first, codes)),
        not_for_reuse=SPLICE in codes and must_be_spliced(seen),
        hold=hold,
    )


def _told(seen: Sequence[AnyFinding], first: Sequence[AnyFinding], codes: Sequence[str]) -> Iterator[str]:
    """What decides comes first and in full; the rest is told as a fact."""
    for finding in first:
        covered = codes and repairs_of(finding) and not set(codes).intersection(repairs_of(finding))
        yield from findings.sentences("covered" if covered else "told", finding)
    for finding in seen:
        if finding not in first:
            yield from findings.sentences("also", finding)


def _cautions(
    seen: Sequence[AnyFinding], first: Sequence[AnyFinding], codes: Sequence[str], shell: Format
) -> Iterator[str]:
    """How to deal with what decides, and what can hurt somebody or something in all that was found."""
    for finding in seen:
        if finding in first or findings.of(finding).always_careful:
            yield from findings.sentences("caution", finding)
    for finding in seen:
        yield from map(hazards.caution, findings.of(finding).hazards)
    for hazard in shell.record.hazards:
        spliced = SPLICE in codes and hazard in hazards.WITH_A_SPLICE
        if spliced or (codes and hazard in hazards.WITH_ANY_REPAIR):
            yield hazards.caution(hazard)
