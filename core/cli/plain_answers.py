"""Records as the few lines that the command line prints for a person."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from core.catalogue import bench_cards
from core.catalogue.formats import catalogue
from core.model import box_standing
from core.model.job_records import CallerMatch, Job, Pickup
from core.model.money import MoneyRange
from core.model.price_ways import FlatRisk
from core.model.promise_records import Promise
from core.model.quote_records import Question, Quote
from core.model.ranges import Range
from core.model.spoken_names import spoken
from core.model.tape_records import JournalEntry, TapeRecord
from core.playtime import doubted_systems, habit_words, pack_reading, tape_doubts
from core.playtime.beliefs import Belief
from core.playtime.cuts import Cut
from core.playtime.one_pack import Pack
from core.playtime.pack_reading import PackMeasurement
from core.promise import chances
from core.promise.backlogs import Backlog
from core.wording import shop_clock
from core.wording.messages import say

if TYPE_CHECKING:
    from core.playtime.evidence import Evidence
    from core.playtime.habits import NoticedChange
    from core.promise.reliability import Group, Judged, Reliability
    from core.scheduling.worktime.work_evidence import WorkEvidence
    from core.services.donors import DonorPlace
    from core.services.promises import Kept


def playtime(belief: Belief, *, is_counted: bool = False) -> str:
    """Minutes first, then what they rest on; what is counted has no metres (`Format.is_counted`)."""
    sources = [f"  {source}" for source in belief.sources]
    if is_counted:
        return _lines(say("cli", "minutes_on_machine", span=_span(belief.range)), *sources)
    return _lines(
        say("cli", "minutes_recorded", span=_span(belief.range)),
        say(
            "cli",
            "minutes_end_end_m",
            figure=_figure(belief.full),
            figure_2=_figure(belief.metres),
            figure_3=_figure(belief.speed_mm_s, 2),
        ),
        *sources,
    )


def cut(lost: Cut) -> str:
    """Seconds gone and seconds disturbed."""
    return _lines(
        say(
            "cli",
            "seconds_removed_seconds_disturbed" if lost.is_disturbed_known else "seconds_removed_only",
            seconds_removed=f"{lost.seconds_removed:.2f}",
            seconds_disturbed=f"{lost.seconds_disturbed:.2f}",
        ),
        *(f"  {source}" for source in lost.sources),
    )


def pack(reel: Pack) -> str:
    """Metres and minutes on the reel."""
    return _lines(
        say("cli", "m_minutes_reel", metres=f"{reel.metres:.1f}", figure=_figure(reel.minutes)),
        *(f"  {source}" for source in reel.sources),
    )


def both_packs(found: PackMeasurement) -> str:
    """What both packs tell together."""
    return _lines(
        say(
            "cli",
            "tape_run_minutes_minutes",
            span=_span(found.share_run.times(100)),
            span_2=_span(found.run.minutes),
            span_3=_span(found.to_come.minutes),
        ),
        pack_reading.fit_words(found),
    )


def quote(quoted: Quote) -> str:
    """Tapes, price and date on a few lines."""
    price = quoted.price
    return _lines(
        say("cli", "tapes_hours_capture", count=len(quoted.tapes), span=_span(quoted.capture_hours)),
        *(f"  {charge.text}: {_money(charge.amount.rising, price.currency)}" for charge in price.charges),
        say(
            "cli",
            "altogether_never_above_without",
            money=_money(price.due, price.currency),
            tax_words=price.tax_words or "none",
            spelled=_amount(price.ceiling_minor, price.currency),
        ),
        *([say("cli", "own_tapes", tapes=quoted.own_tapes or 0)] if quoted.tells_own_tapes else []),
        *_ways(quoted),
        promise(quoted.promise),
        *(f"! {warning}" for warning in quoted.warnings),
        *careful(caution for each in quoted.tapes for caution in each.verdict.cautions),
        *(said for question in quoted.questions for said in _question(question, quoted)),
    )


def _question(question: Question, quoted: Quote) -> Iterator[str]:
    """A question; where marking and box tell two TV systems, with what each answer means."""
    yield f"? {question.text}"
    if doubted_systems.asks(question, quoted.inventory):
        yield from (f"    {answer.words}: {answer.means}" for answer in question.answers)


def _ways(quoted: Quote) -> Iterator[str]:
    """The ways to agree on the price, where there is a choice; the risk of a flat sum is the owner's."""
    ways, currency = quoted.ways, quoted.price.currency
    if ways is None or len(ways.offered) < 2:
        return
    yield say("cli", "ways", way=spoken(quoted.way))
    spelled = _money(ways.by_play, currency)
    yield say("cli", "way_by_play", money=spelled, ceiling=_amount(ways.ceiling_minor, currency))
    if ways.flat is not None:
        yield say("cli", "way_flat", money=_amount(ways.flat.minor, currency))
        if ways.flat.risk is not None:
            yield _risk(ways.flat.risk, currency)
    if ways.look_first is not None:
        money = _amount(ways.look_first.fee_minor, currency)
        yield say("cli", "way_play_first", money=money, most=_amount(ways.look_first.due.high, currency))


def _risk(risk: FlatRisk, currency: str) -> str:
    return say(
        "cli",
        "flat_risk",
        expected=_amount(round(risk.expected_minor), currency),
        deviation=_amount(round(risk.deviation_minor), currency),
        dearer=chances.often(risk.dearer),
        worst=_amount(risk.worst_gain_minor, currency),
        best=_amount(risk.best_gain_minor, currency),
    )


def book(job: Job, papers: Sequence[Path]) -> str:
    """The number, the tape codes, the quote and the papers."""
    return _lines(
        say("cli", "order_for", number=str(job.number), name=job.customer.name),
        *(f"  {tape.code}  {tape.format_words} {tape.marking or ''}".rstrip() for tape in job.tapes),
        quote(job.quote),
        *(str(paper) for paper in papers),
    )


def promise(made: Promise) -> str:
    """The date in words of chance."""
    if made.day is None:
        return say("cli", "date_can_promised", held_by="; ".join(made.held_by))
    held = say("cli", "held", held_by="; ".join(made.held_by)) if made.held_by else ""
    return say("cli", "promised", day=_day(made.day), words=chances.words(made.stated), held=held)


def promises(kept: Sequence[Kept], backlog: Backlog | None = None) -> str:
    """One line for each open job, the most endangered first; before them that the line keeps growing."""
    told = [] if backlog is None else [say("cli", "backlog", backlog=backlog.sentence)]
    return _lines(*told, *(map(_kept, kept) if kept else [say("cli", "open_jobs")]))


def _kept(one: Kept) -> str:
    said = _said(one)
    chance = "" if one.chance is None else say("cli", "chance_now", chance=chances.words(one.chance))
    held = say("cli", "held", held_by="; ".join(one.held_by)) if one.held_by else ""
    line = f"{one.job.number} {one.job.customer.name}: {said}{chance}{held}"
    return say("cli", "call_first", line=line) if one.is_at_risk else line


def _said(one: Kept) -> str:
    if one.is_done:
        return say("cli", "ready_to_go" if box_standing.may_be_collected(one.job) else "waits_for_owner")
    day = one.promise.day
    return say("cli", "date") if day is None else say("cli", "promised_2", day=_day(day))


def kept(found: Reliability, learned: str) -> str:
    """How many promises were kept, beside what luck alone would do; what was learned; then the late ones."""
    if found.whole is None:
        return say("cli", "promise_over_yet")
    return _lines(
        *(_group(group) for group in found.groups),
        learned,
        *(_late(each) for each in found.late),
    )


def _group(group: Group) -> str:
    luck = say("cli", "would_luck", least=group.least, most=group.most)
    low, high = f"{group.low:.0%}", f"{group.high:.0%}"
    return say("cli", "kept_of", n=group.count, low=low, high=high, kept=group.kept, luck=luck)


def _late(judged: Judged) -> str:
    late = say("cli", "days_late" if judged.ready_on else "days_late_so_far", n=judged.days_late)
    why = f": {'; '.join(judged.reasons)}" if judged.reasons else ""
    return f"  {judged.number} {judged.customer}: {late}{why}"


def status(found: Sequence[CallerMatch]) -> str:
    """What to say to the caller."""
    if not found:
        return say("cli", "job_matches")
    return _lines(*(f"{one.job.number} {one.job.customer.name}: {one.spoken}" for one in found))


def tape(record: TapeRecord) -> str:
    """Where one tape is now, and what to be careful of with it."""
    return _lines(_where(record), *careful(bench_cards.cautions_of(record)))


def careful(cautions: Iterable[str]) -> Iterator[str]:
    """Cautions, each on a line of its own."""
    return (say("cli", "careful", caution=each) for each in dict.fromkeys(cautions))


def _where(record: TapeRecord) -> str:
    due = say("cli", "looked_over_after_repair") if record.look_due else ""
    here = spoken(record.station)
    if record.disposition is not None and spoken(record.disposition) != here:
        here = say("cli", "station_and_disposition", station=here, disposition=spoken(record.disposition))
    one = f"{record.code} {record.format_words}: {here}{_reuse(record)}{due}"
    return _lines(one, *(f"! {doubt}" for doubt in tape_doubts.of_tape(record)))


def donors(places: Sequence[DonorPlace]) -> str:
    """One line for each kind of part on the shelf."""
    if not places:
        return say("cli", "donor_parts_shelf")
    return _lines(*(_place(place) for place in places))


def _place(place: DonorPlace) -> str:
    one = place.donor
    format = catalogue().format(one.format).words
    whence = say("cli", "came_from", source=one.came_from) if one.came_from else ""
    used = say("cli", "used", used=", ".join(each.tape for each in place.used)) if place.used else ""
    return f"{one.count} × {format} {spoken(one.part)}{whence}{used}"


def history(happenings: Iterable[JournalEntry]) -> str:
    """One line for each thing that happened."""
    return _lines(*(f"{at(one.at)}  {one.by}: {one.words}" for one in happenings))


def at(moment: datetime) -> str:
    """A moment by the shop's own clock: ``Mar 12, 2026, 2:05 PM``."""
    from core.wording import locale_figures  # brings Babel

    return locale_figures.dated_moment(shop_clock.local(moment))


def habits(found: Sequence[Evidence], change: NoticedChange | None = None) -> str:
    """Whether customers changed; one sentence for each habit, and the shares before and since."""
    if not found:
        return say("cli", "tape_finished_playing_yet")
    told = () if change is None else (f"! {habit_words.changed(change)}",)
    return _lines(*told, *(f"{one.sentence}\n  {one.about}: {_shares(one)}" for one in found))


def work(found: Sequence[WorkEvidence]) -> str:
    """What the history has shown of the shop's work."""
    return _lines(*(f"{one.about}\n  {' '.join(one.lines)}" for one in found))


def _shares(one: Evidence) -> str:
    now = dict(one.now)
    return ", ".join(
        say("cli", "first_now", words=words, share=f"{share:.0%}", now=f"{now[words]:.0%}")
        for words, share in one.at_first
    )


def pickup(handed: Pickup, receipt: Path | None) -> str:
    """What went back and what stays."""
    return _lines(
        say(
            "cli",
            "job_tapes_handed_back",
            number=handed.job.number,
            count=len(handed.returned),
            name=handed.signature.name,
        ),
        *(f"  {_where(record)}" for record in handed.handed_back),
        *(say("cli", "still_here", tape=_where(record)) for record in handed.still_here),
        say(
            "cli",
            "paid_still_due",
            spelled=_amount(handed.paid_minor, handed.final.currency),
            spelled_2=_amount(handed.due_minor, handed.final.currency),
        ),
        *([] if receipt is None else [str(receipt)]),
    )


def _reuse(record: TapeRecord) -> str:
    if record.label_astray:
        return say("cli", "take_reuse_label_off")
    if not record.not_for_reuse:
        return ""
    return say("cli", "not_for_reuse_labelled" if record.marked_at else "not_for_reuse_bare")


def _lines(*lines: str) -> str:
    return "\n".join(lines)


def _span(belief: Range, digits: int = 1) -> str:
    if belief.low == belief.high:
        return f"{belief.likely:.{digits}f}"
    low, high, likely = (f"{each:.{digits}f}" for each in (belief.low, belief.high, belief.likely))
    return say("cli", "span", low=low, high=high, likely=likely)


def _figure(value: float | Range, digits: int = 1) -> str:
    return _span(value, digits) if isinstance(value, Range) else f"{value:.{digits}f}"


def _day(day: date) -> str:
    from core.wording import locale_figures

    return locale_figures.full_day(day)


def _amount(minor: int, currency: str) -> str:
    from core.wording import locale_figures  # brings Babel, which the answers in JSON do without

    return locale_figures.money(minor, currency)


def _money(amount: MoneyRange, currency: str) -> str:
    if amount.is_one_figure:
        return _amount(amount.likely, currency)
    low, likely, high = (_amount(minor, currency) for minor in (amount.low, amount.likely, amount.high))
    return say("cli", "span", low=low, high=high, likely=likely)
