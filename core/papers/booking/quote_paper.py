"""The quote: what it costs and when it is ready first, then tape by tape and charge by charge."""

from __future__ import annotations

from itertools import groupby

from core.model.names import FormatName
from core.model.own_shop.settings_records import ShopFront
from core.model.quote_records import Quote, QuotedTape
from core.papers import price_table
from core.papers.booking import agreed_way
from core.papers.booking.fee_terms import fee_sentences
from core.papers.tape_words import draft_name, expected
from core.papers.typesetting import date_dots
from core.papers.typesetting.binding import Cover, bound, story
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.paper_tokens import BODY, QUIET, STRONG, TITLE, UNIT
from core.papers.typesetting.story import Cell, Gap, PaperTable, Story, TableColumn, gap, text_cell
from core.papers.voice import Voice, voice


def render(quote: Quote, front: ShopFront, *, paper: str | None = None) -> bytes:
    """The quote as a PDF on ``a4`` or ``letter`` (the usual one of the shop's currency by default)."""
    speaker = voice(front)
    told = story(speaker, paper)
    _tell_title(told, quote, speaker)
    _tell_price_and_date(told, quote, speaker)
    _tell_tapes(told, quote, speaker)
    _tell_cautions(told, quote, speaker)
    told.head(speaker.say("quote-charges"))
    price_table.tell(told, quote.price, speaker)
    _tell_copies(told, quote, speaker)
    _tell_terms(told, quote, speaker)
    cover = Cover(speaker.say("quote-title"), speaker.full_day(speaker.local(quote.made_at).date()))
    return bound(told, cover, speaker, paper)


def _tell_title(told: Story, quote: Quote, speaker: Voice) -> None:
    customer = quote.inventory.customer
    title = speaker.say("quote-for", name=customer.name) if customer else speaker.say("quote-title")
    told.say(title, TITLE, before=3 * UNIT)
    told.say(
        speaker.things("quote-made", _formats(quote), n=len(quote.tapes), day=speaker.day_of(quote.made_at)),
        QUIET,
        before=0,
    )


def _tell_price_and_date(told: Story, quote: Quote, speaker: Voice) -> None:
    widths = told.panel_widths(1, 1)
    told.panel((_price_cell(quote, speaker, widths[0]), _date_cell(quote, speaker, widths[1])), widths)


def _price_cell(quote: Quote, speaker: Voice, width: float) -> Cell:
    price = quote.price
    lines = [(speaker.say("quote-cost"), QUIET), (speaker.money(price.due.likely, price.currency), TITLE)]
    if not price.due.is_one_figure:
        lines.append(
            (speaker.say("quote-most_likely", between=speaker.money_range(price.due, price.currency)), BODY)
        )
    if quote.tells_own_tapes:
        lines.append((speaker.say("quote-own_tapes", tapes=quote.own_tapes or 0), QUIET))
    ceiling = agreed_way.in_short(quote, speaker)
    cell = tuple(line for text, style in lines for line in text_cell(text, width, style))
    if quote.example_prices:
        cell += text_cell(speaker.say("quote-example_prices"), width, STRONG)
    return cell + gap(UNIT / 2) + text_cell(ceiling, width, STRONG)


def _date_cell(quote: Quote, speaker: Voice, width: float) -> Cell:
    promise = quote.promise
    lines = [(speaker.say("quote-ready"), QUIET), (speaker.promised(promise), TITLE)]
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
        TableColumn(speaker.say("quote-minutes"), 60, "right"),
        TableColumn(speaker.say("quote-expected"), 190),
    )
    table = PaperTable(columns, told.width)
    here = [alike for alike in _alike(quote) if not alike[0].verdict.elsewhere]
    apart = [alike for alike in _alike(quote) if alike[0].verdict.elsewhere]
    if here:
        told.table(table, [_tape_row(table, alike, speaker) for alike in here])
        _tell_hours(told, quote, speaker)
    if apart:
        told.head(speaker.say("quote-apart"))
        told.say(speaker.say("quote-apart_says"), before=UNIT / 2, with_next=True)
        told.table(table, [_tape_row(table, alike, speaker) for alike in apart])


def _tell_hours(told: Story, quote: Quote, speaker: Voice) -> None:
    hours = quote.capture_hours
    told.say(
        speaker.things(
            "quote-hours",
            _formats(quote),
            low=speaker.number(hours.low, 1),
            likely=speaker.number(hours.likely, 1),
            high=speaker.number(hours.high, 1),
        ),
        QUIET,
    )


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
        table.cell(1, draft_name(first.draft, speaker), (first.draft.label, QUIET)),
        table.cell(2, "" if first.verdict.elsewhere else speaker.length_range(first.minutes)),
        last,
    )


def _tell_cautions(told: Story, quote: Quote, speaker: Voice) -> None:
    """What the customer must hear before money is taken, and what the shop could not know."""
    sentences = _told(quote, speaker)
    # The quote's warnings repeat what is told of the tapes, and the notes on the copies, line by line.
    said = (*sentences, *quote.storage.notes)
    warnings = [warning for warning in quote.warnings if not warning.endswith(said)]
    own = speaker.front.extra_cautions
    if not sentences and not warnings and not own:
        return
    told.head(speaker.say("quote-told"))
    for names, alike in groupby(sentences, key=sentences.__getitem__):
        told.say(" · ".join(names), STRONG, before=UNIT, with_next=True)
        told.say(" ".join(alike), before=0)
    for warning in warnings:
        told.say(speaker.sentence(warning), before=UNIT)
    for caution in own:
        told.say(caution, before=UNIT)


def _told(quote: Quote, speaker: Voice) -> dict[str, tuple[str, ...]]:
    """Each sentence once, with the names of the tapes it is about."""
    sentences: dict[str, tuple[str, ...]] = {}
    for tape in quote.tapes:
        name = draft_name(tape.draft, speaker)
        for sentence in tape.verdict.told:
            names = sentences.get(sentence, ())
            sentences[sentence] = names if name in names else (*names, name)
    return sentences


def _tell_copies(told: Story, quote: Quote, speaker: Voice) -> None:
    storage = quote.storage
    if not storage.copies:
        return
    told.head(speaker.say("quote-copies"))
    for copy in storage.copies:
        pieces = speaker.length_range(copy.count)
        told.say(speaker.say("quote-copy", count=pieces, words=copy.words))
    size = storage.gigabytes
    told.say(speaker.say("quote-size", low=speaker.number(size.low), high=speaker.number(size.high)), QUIET)
    for note in storage.notes:
        told.say(speaker.sentence(note), QUIET)


def _tell_terms(told: Story, quote: Quote, speaker: Voice) -> None:
    price = quote.price
    told.head(speaker.say("quote-terms"))
    if price.deposit_minor:
        deposit = speaker.money(price.deposit_minor, price.currency)
        told.say(speaker.say("quote-deposit", money=deposit), with_next=True)
    for sentence in agreed_way.terms(quote, speaker):
        told.say(sentence, with_next=True)
    told.say(speaker.say("quote-valid", day=speaker.full_day(quote.valid_until)), with_next=True)
    for sentence in fee_sentences(price, speaker):
        told.say(sentence, with_next=True)
    told.say(speaker.say("law"))
