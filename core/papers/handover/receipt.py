"""The receipt: what to do with the tapes first, then what became of them, what it cost, who signed.

As short as it may be: the same parts are set ever tighter until they fit the pages so many tapes deserve.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from core.model.job_records import Pickup
from core.model.own_shop.settings_records import ShopFront
from core.papers.handover import copies_told, home_cautions, receipt_end, receipt_tapes
from core.papers.tape_words import spliced
from core.papers.typesetting.binding import Cover, bound, fitted, page_count, story
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.paper_tokens import LEAD, MARGIN, QUIET, STRONG, UNIT
from core.papers.typesetting.story import Gap, Story, even_cell, text_cell
from core.papers.voice import Voice, voice

ON_ONE_PAGE, ON_TWO_PAGES = 8, 30
"""Tapes that a receipt of one page, and of two, has to hold."""
_FEW_PIECES = 6


def render(pickup: Pickup, front: ShopFront, *, paper: str | None = None) -> bytes:
    """The receipt as a PDF on ``a4`` or ``letter`` (the usual one of the shop's currency by default)."""
    speaker = voice(front)
    told = _fitted(pickup, speaker, paper)
    return bound(told, Cover(speaker.say("receipt-title"), pickup.job.number), speaker, paper)


def _fitted(pickup: Pickup, speaker: Voice, paper: str | None) -> Story:
    """With the reasons of the charges and much air where it fits; else without them, then ever tighter."""
    tapes = len(pickup.handed_back)
    if tapes > ON_TWO_PAGES:
        return _told(pickup, speaker, paper, with_reasons=False)
    wanted = 1 if tapes <= ON_ONE_PAGE else 2
    told = _told(pickup, speaker, paper, with_reasons=True)
    if page_count(told, speaker, paper) <= wanted:
        return told

    def tell(margin: float) -> Story:
        return _told(pickup, speaker, paper, with_reasons=False, margin=margin)

    return fitted(tell, wanted, speaker, paper)


def _told(
    pickup: Pickup, speaker: Voice, paper: str | None, *, with_reasons: bool, margin: float = MARGIN
) -> Story:
    told = story(speaker, paper, short=True, margin=margin)
    _tell_title(told, pickup, speaker)
    _tell_what_to_do(told, pickup, speaker)
    receipt_tapes.tell(told, pickup, speaker)
    last_tape = len(told.pieces) - 1
    _tell_copies(told, pickup, speaker)
    _tell_consents(told, pickup, speaker)
    receipt_end.tell(told, pickup, speaker, with_reasons=with_reasons)
    # Nobody signs a page without tapes: what comes between is kept with the last of them.
    told.keep_from(last_tape if len(told.pieces) - last_tape <= _FEW_PIECES else len(told.pieces) - 2)
    return told


def _tell_title(told: Story, pickup: Pickup, speaker: Voice) -> None:
    head = speaker.say("receipt-head", number=pickup.job.number, name=pickup.job.customer.name)
    when = {"day": speaker.day_of(pickup.at), "time": speaker.clock(pickup.at)}
    told.say(head, LEAD, before=1.5 * UNIT)
    told.say(speaker.say("receipt-handed", by=pickup.by, **when), QUIET, before=0)


def _tell_what_to_do(told: Story, pickup: Pickup, speaker: Voice) -> None:
    """The one thing that matters first, on a ground of its own; nothing when no tape goes home."""
    if not pickup.returned and pickup.not_returned:
        return
    (width,) = told.panel_widths(1)
    marked = spliced(pickup.returned)
    if marked:
        cell = even_cell(speaker.count("receipt-do_spliced", len(marked)), width, LEAD)
        cell += (Gap(UNIT / 2), band(speaker.count("band-full", len(marked)), width), Gap(UNIT / 2))
        cell += text_cell(speaker.say("splice-why"), width)
    else:
        things = receipt_tapes.formats(pickup.returned)
        cell = even_cell(speaker.things("receipt-do_plain", things), width, LEAD)
    keep = [speaker.say("receipt-store" if marked else "receipt-do_plain_more")]
    if pickup.copies or any(tape.is_copied for tape in pickup.returned):
        keep.append(speaker.say("receipt-two_places"))
    cell += (Gap(UNIT / 2), *text_cell(" ".join(keep), width))
    cell += home_cautions.hazards_cell(pickup.returned, width, speaker)
    told.panel((cell,), (width,), before=1.5 * UNIT, air=UNIT)


def _tell_copies(told: Story, pickup: Pickup, speaker: Voice) -> None:
    older = Counter(copy.words for copy in pickup.copies if not copy.is_followed)
    counted = [
        speaker.say("quote-copy", count=speaker.number(count), words=words) for words, count in older.items()
    ]
    checked = Counter(tape.signed_off_by for tape in pickup.returned if tape.is_copied and tape.signed_off_by)
    by = [speaker.count("became-all-checked", count, name=name) for name, count in checked.items()]
    if counted or by:
        words = [speaker.sentence(", ".join(counted))] if counted else []
        _tell_fact(told, speaker.say("receipt-copies"), (" ".join((*words, *by)),))
    if followed := [copy for copy in pickup.copies if copy.is_followed]:
        if not counted and not by:
            told.head(speaker.say("receipt-copies"))
        copies_told.tell(told, pickup.job, followed, speaker)


def _tell_consents(told: Story, pickup: Pickup, speaker: Voice) -> None:
    """What was agreed after booking, when, by whom and to whom."""
    agreed = [
        speaker.say(
            "receipt-agreed_line",
            day=speaker.short_day(speaker.local(each.at).date()),
            who=each.who_agreed or pickup.job.customer.name,
            by=each.by,
            words=each.words,
        )
        for each in pickup.job.agreements
        if each.words
    ]
    if agreed:
        _tell_fact(told, speaker.say("receipt-agreed"), agreed)


def _tell_fact(told: Story, what: str, said: Sequence[str]) -> None:
    """What it is at the left, what is said of it beside it."""
    widths = told.beside_widths(2, 8)
    cell = tuple(line for words in said for line in text_cell(words, widths[1]))
    told.beside((text_cell(what, widths[0], STRONG), cell), widths)
