"""The quote: what it costs and when it is ready first, the ways to agree, the tapes, and a line to sign."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from core.model.names import FormatName
from core.model.own_shop.settings_records import ShopFront
from core.model.quote_records import Quote, QuotedTape
from core.model.signatures import Signature
from core.papers.booking import agreed_way, quote_detail, ways_told
from core.papers.booking.fee_terms import fee_sentences
from core.papers.tape_words import draft_name, expected
from core.papers.typesetting import date_dots
from core.papers.typesetting.binding import Cover, bound, fitted, story
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.paper_tokens import BODY, LEAD, QUIET, STRONG, TITLE, UNIT
from core.papers.typesetting.signature_box import Signed
from core.papers.typesetting.story import Cell, Gap, PaperTable, Story, TableColumn, text_cell
from core.papers.voice import Voice, voice

_PAD = 6 * UNIT


def render(quote: Quote, front: ShopFront, *, paper: str | None = None, detail: bool = False) -> bytes:
    """The quote as a PDF on ``a4`` or ``letter`` (the usual one of the shop's currency by default).

    On one page where the box is an ordinary one; ``detail`` adds how the price adds up on another.
    """
    speaker = voice(front)
    told = fitted(lambda margin: _told(quote, speaker, paper, margin, detail=detail), 1, speaker, paper)
    if detail:
        quote_detail.tell(told, quote, speaker)
    cover = Cover(speaker.say("quote-title"), speaker.full_day(speaker.local(quote.made_at).date()))
    return bound(told, cover, speaker, paper)


def _told(quote: Quote, speaker: Voice, paper: str | None, margin: float, *, detail: bool) -> Story:
    told = story(speaker, paper, short=True, margin=margin)
    _tell_title(told, quote, speaker)
    _tell_price_and_date(told, quote, speaker)
    has_ways = ways_told.tell(told, quote, speaker)
    _tell_tapes(told, quote, speaker)
    _tell_copies(told, quote, speaker)
    _tell_cautions(told, quote, speaker)
    _tell_agreed(told, quote, speaker, has_ways=has_ways, detail=detail)
    return told


def _tell_title(told: Story, quote: Quote, speaker: Voice) -> None:
    customer = quote.inventory.customer
    title = speaker.say("quote-for", name=customer.name) if customer else speaker.say("quote-title")
    told.say(title, LEAD, before=1.5 * UNIT)
    told.say(
        speaker.things("quote-made", _formats(quote), n=len(quote.tapes), day=speaker.day_of(quote.made_at)),
        QUIET,
        before=0,
    )


def _tell_price_and_date(told: Story, quote: Quote, speaker: Voice) -> None:
    """What it will most likely cost, what it never costs without a word, and when it is ready."""
    shares = (5, 6) if quote.flat_minor is not None else (4, 4, 5)
    *money, when = told.panel_widths(*shares)
    cells = [_price_cell(quote, speaker, money[0])]
    if len(money) > 1:
        cells.append(_ceiling_cell(quote, speaker, money[1]))
    told.panel((*cells, _date_cell(quote, speaker, when)), (*money, when), before=UNIT, air=UNIT)


def _price_cell(quote: Quote, speaker: Voice, width: float) -> Cell:
    price = quote.price
    lines = [(speaker.say("quote-cost"), QUIET), (speaker.money(price.due.likely, price.currency), TITLE)]
    if not price.due.is_one_figure:
        lines.append(
            (speaker.say("quote-most_likely", between=speaker.money_range(price.due, price.currency)), BODY)
        )
    if quote.flat_minor is not None:
        lines.append((agreed_way.in_short(quote, speaker), STRONG))
    if quote.tells_own_tapes:
        lines.append((speaker.say("quote-own_tapes", tapes=quote.own_tapes or 0), QUIET))
    cell = tuple(line for text, style in lines for line in text_cell(text, width, style))
    return cell + (
        text_cell(speaker.say("quote-example_prices"), width, STRONG) if quote.example_prices else ()
    )


def _ceiling_cell(quote: Quote, speaker: Voice, width: float) -> Cell:
    price = quote.price
    cell = text_cell(speaker.say("quote-never_over"), width, QUIET)
    cell += text_cell(speaker.money(price.ceiling_minor, price.currency), width, TITLE)
    return cell + text_cell(speaker.say("quote-never_over_says"), width)


def _date_cell(quote: Quote, speaker: Voice, width: float) -> Cell:
    promise = quote.promise
    lines = [(speaker.say("quote-ready"), QUIET), (speaker.promised(promise), LEAD)]
    if promise.day:
        lines.append((speaker.chance(promise), BODY))
    cell: Cell = tuple(line for text, style in lines for line in text_cell(text, width, style))
    if not promise.day:
        for held in promise.held_by:
            cell += text_cell(held, width)
    drawn = date_dots.days(promise, speaker, width)
    return cell + (Gap(UNIT / 2), drawn) if drawn else cell


def _formats(quote: Quote) -> list[FormatName]:
    return [tape.draft.format for tape in quote.tapes]


def _tell_tapes(told: Story, quote: Quote, speaker: Voice) -> None:
    told.head(speaker.things("quote-tapes", _formats(quote)))
    columns = (
        TableColumn(speaker.things("quote-count", _formats(quote)), 36, "right"),
        TableColumn(speaker.say("quote-tape")),
        TableColumn(speaker.say("quote-minutes"), 72, "right"),
        TableColumn(speaker.say("quote-expected"), 186),
    )
    table = PaperTable(columns, told.width)
    here = [alike for alike in _alike(quote) if not alike[0].verdict.elsewhere]
    apart = [alike for alike in _alike(quote) if alike[0].verdict.elsewhere]
    if here:
        told.table(table, [_tape_row(table, alike, speaker) for alike in here])
    if apart:
        told.head(speaker.say("quote-apart"))
        told.say(speaker.say("quote-apart_says"), before=UNIT / 2, with_next=True)
        told.table(table, [_tape_row(table, alike, speaker) for alike in apart])


def _tell_copies(told: Story, quote: Quote, speaker: Voice) -> None:
    copies = [
        speaker.say("quote-copy", count=speaker.length_range(copy.count), words=copy.words)
        for copy in quote.storage.copies
    ]
    if copies:
        told.say(speaker.say("quote-with_copies", copies=", ".join(copies)), before=UNIT / 2)


def _alike(quote: Quote) -> list[tuple[QuotedTape, ...]]:
    """Tapes of one line that the shop believes the same of."""
    return [
        tuple(tapes)
        for _, tapes in groupby(quote.tapes, key=lambda tape: (tape.line, tape.minutes, tape.verdict))
    ]


def _tape_row(table: PaperTable, alike: tuple[QuotedTape, ...], speaker: Voice) -> tuple[Cell, ...]:
    first = alike[0]
    last = table.cell(3, expected(first.draft, first.verdict, speaker))
    if first.verdict.not_for_reuse:
        last += (Gap(UNIT / 4), band(speaker.say("band-short"), table.widths[3]))
    return (
        table.cell(0, speaker.number(len(alike))),
        table.cell(1, " · ".join(filter(None, (draft_name(first.draft, speaker), first.draft.label)))),
        table.cell(2, "" if first.verdict.elsewhere else speaker.length_range(first.minutes)),
        last,
    )


def _tell_cautions(told: Story, quote: Quote, speaker: Voice) -> None:
    """What the customer must hear before money is taken, and what the shop could not know."""
    sentences = _sentences(quote, speaker)
    # The quote's warnings repeat what is told of the tapes, and the notes on the copies, line by line.
    warnings = [warning for warning in quote.warnings if not warning.endswith(tuple(sentences))]
    warnings += [note for note in quote.storage.notes if note not in warnings]
    own = speaker.front.extra_cautions
    if not sentences and not warnings and not own:
        return
    told.head(speaker.say("quote-told"))
    for names, alike in groupby(sentences, key=sentences.__getitem__):
        widths = told.beside_widths(27, 73)
        cells = (text_cell(" · ".join(names), widths[0], STRONG), text_cell(" ".join(alike), widths[1]))
        told.beside(cells, widths, before=UNIT / 2)
    for warning in warnings:
        told.say(speaker.sentence(warning))
    for caution in own:
        told.say(caution)


def _sentences(quote: Quote, speaker: Voice) -> dict[str, tuple[str, ...]]:
    """Each sentence once, with the names of the tapes it is about."""
    sentences: dict[str, tuple[str, ...]] = {}
    for tape in quote.tapes:
        name = draft_name(tape.draft, speaker)
        for sentence in tape.verdict.told:
            names = sentences.get(sentence, ())
            sentences[sentence] = names if name in names else (*names, name)
    return sentences


def _tell_agreed(told: Story, quote: Quote, speaker: Voice, *, has_ways: bool, detail: bool) -> None:
    """The terms at the left, the line to sign at the right, on the page with the tapes."""
    widths = told.beside_widths(58, 42)
    terms = text_cell(speaker.say("quote-terms"), widths[0], LEAD)
    said = [*_terms(quote, speaker, has_ways=has_ways)]
    said += [] if detail else [speaker.say("quote-ask_detail")]
    terms += text_cell(" ".join(said), widths[0])
    terms += text_cell(speaker.say("law"), widths[0], QUIET)
    customer = quote.inventory.customer
    key = "quote-sign_way" if has_ways else "quote-sign"
    sign = text_cell(speaker.say("quote-sign_head"), widths[1], LEAD)
    sign += (*text_cell(speaker.say(key), widths[1]), Gap(UNIT / 2))
    sign += (Signed(Signature("", ()), widths[1], _PAD),)
    line = speaker.say("agreement-sign", name=customer.name) if customer else speaker.say("quote-sign_line")
    sign += text_cell(line, widths[1], QUIET)
    told.keep_last()
    told.beside((terms, sign), widths, before=2 * UNIT)


def _terms(quote: Quote, speaker: Voice, *, has_ways: bool) -> Iterator[str]:
    price = quote.price
    if price.deposit_minor:
        yield speaker.say("quote-deposit", money=speaker.money(price.deposit_minor, price.currency))
    own, *others = agreed_way.terms(quote, speaker)
    yield own
    # The others stand among the ways to tick.
    yield from () if has_ways else others
    yield speaker.say("quote-valid", day=speaker.full_day(quote.valid_until))
    yield from fee_sentences(price, speaker)
