"""A recording that no deck of the shop can play: said, unpriced, undated, with a partner who may do it."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from core.catalogue import condition
from core.model import serialization
from core.model.errors import WrongInput
from core.model.inventory import Inventory, TapeLine
from core.model.names import Finding, FormatName, Outcome, Speed, TvSystem
from core.model.own_shop.settings_records import Partner, ShopSettings
from core.model.quote_records import Quote
from core.model.ranges import ZERO
from core.model.repair_records import Hold, Verdict
from core.papers.booking import claim_slip, quote_paper
from core.pricing import price_book
from core.promise import turnaround
from core.scheduling import deck_choice, partner_choice
from core.services import quoting
from core.services.own_shop.shop_settings import dump, loads
from core.services.quoting import ShopSnapshot
from core.wording.messages import say
from tests.support import invented_job as records
from tests.support import pdf
from tests.support.shops import TUESDAY, deck, fittings
from tests.support.typed import Typist

VHS, U_MATIC, HI8 = FormatName("vhs"), FormatName("u-matic"), FormatName("hi8")
SHOP = fittings(deck("VHS 1", "vhs"))
HOUSE = Partner("The Reel House", frozenset({U_MATIC}), "$45 a tape", 10)
BOOK = price_book.in_force(TUESDAY.date())


def quote(*lines: TapeLine, shop: ShopSettings = SHOP) -> Quote:
    load = turnaround.load(shop, [], TUESDAY)
    return quoting.quote(Inventory(lines, tv=TvSystem.NTSC), ShopSnapshot(shop, BOOK, load, TUESDAY))


@pytest.mark.parametrize(
    ("line", "why"),
    [
        (TapeLine(1, U_MATIC, "KCA-60"), say("dates", "not_here_plays", what="U-matic")),
        (TapeLine(1, VHS, tv=TvSystem.PAL), say("dates", "not_here_plays_tv", what="VHS", tv="PAL")),
        (TapeLine(1, VHS, speed=Speed.LP), say("dates", "not_here_plays_speed", what="VHS", speed="LP")),
    ],
)
def test_what_no_deck_plays_is_not_here_and_neither_priced_nor_in_the_date(line: TapeLine, why: str) -> None:
    shop = fittings(deck("VHS 1", "vhs", speeds="sp ep"))
    alone, mixed = quote(line, shop=shop), quote(TapeLine(1, VHS, "T-120"), line, shop=shop)
    (tape,) = alone.tapes

    assert tape.verdict.outcome is Outcome.CANNOT
    assert tape.verdict.elsewhere is not None
    assert (tape.verdict.elsewhere.why, tape.minutes) == (why, ZERO)
    assert alone.price.charges == ()
    assert alone.price.gross.high == 0
    assert alone.promise.day is None
    assert alone.promise.held_by == (why.rstrip("."),)
    only = quote(TapeLine(1, VHS, "T-120"), shop=shop)
    assert mixed.price == only.price
    assert mixed.capture_hours == only.capture_hours
    assert mixed.promise.day == only.promise.day
    assert any(why in warning for warning in mixed.warnings)


def test_a_deck_out_of_service_is_still_here_and_a_retired_one_is_not() -> None:
    out = fittings(deck("VHS 1", "vhs"), deck("U 1", "u-matic", in_service=False))
    gone = replace(out, decks=(out.decks[0], replace(out.decks[1], retired=True)))

    assert quote(TapeLine(1, U_MATIC), shop=out).tapes[0].verdict.elsewhere is None
    assert quote(TapeLine(1, U_MATIC), shop=gone).tapes[0].verdict.elsewhere is not None


def test_a_shop_that_has_no_deck_yet_turns_nothing_away() -> None:
    assert deck_choice.not_here((), U_MATIC, None, None, None) is None


def test_the_first_partner_that_takes_the_format_is_named_with_days_and_price() -> None:
    other = replace(HOUSE, name="Far Away", formats=frozenset({HI8}))
    found = partner_choice.elsewhere(SHOP.decks, (other, HOUSE), TapeLine(1, U_MATIC))
    assert found is not None
    assert (found.partner, found.price, found.days) == ("The Reel House", "$45 a tape", 10)

    told = condition.verdict((), U_MATIC, found).told
    assert told == (
        found.why,
        say("dates", "partner_takes_priced", partner="The Reel House", days=10, price="$45 a tape"),
    )


def test_a_partners_price_is_in_no_figure_of_the_quote() -> None:
    shop = replace(SHOP, partners=(HOUSE,))
    line, copied = TapeLine(2, U_MATIC), TapeLine(1, VHS, "T-120")
    assert quote(line, copied, shop=shop).price == quote(copied, shop=shop).price


def test_a_crushed_tape_stays_crushed_and_is_sent_to_nobody() -> None:
    shop = replace(SHOP, partners=(HOUSE,))
    (tape,) = quote(TapeLine(1, U_MATIC, findings=(Finding.CRUSHED,)), shop=shop).tapes
    assert tape.verdict.hold is Hold.LOOK
    assert tape.verdict.elsewhere is None


def test_a_verdict_kept_before_is_read_and_a_new_one_comes_back_from_the_records() -> None:
    (tape,) = quote(TapeLine(1, U_MATIC), shop=replace(SHOP, partners=(HOUSE,))).tapes
    assert serialization.loads(Verdict, serialization.dumps(tape.verdict)) == tape.verdict
    older = serialization.plain(tape.verdict)
    del older["elsewhere"]
    assert serialization.record_of(Verdict, older).elsewhere is None


# --- papers ------------------------------------------------------------------------------


def test_the_quote_shows_them_apart_with_the_partner_and_without_minutes() -> None:
    made = quote(TapeLine(2, U_MATIC), TapeLine(1, VHS, "T-120"), shop=replace(SHOP, partners=(HOUSE,)))
    said = pdf.words(quote_paper.render(made, records.FRONT))

    assert said.index("VHS T-120") < said.index("Not copied here") < said.index("2 U-matic")
    assert "The Reel House can copy it, in about 10 days, at their own price: $45 a tape." in said


def test_the_claim_slip_names_the_partner_and_the_days() -> None:
    job = records.job()
    (away,) = quote(TapeLine(1, U_MATIC), shop=replace(SHOP, partners=(HOUSE,))).tapes
    first = replace(job.tapes[0], format_words="U-matic", verdict=away.verdict)
    said = pdf.words(claim_slip.render(replace(job, tapes=(first, *job.tapes[1:])), records.FRONT))

    assert "Not copied here" in said
    assert "1 U-matic · The Reel House, about 10 days" in said
    assert "Not copied here" not in pdf.words(claim_slip.render(job, records.FRONT))


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_longest_names_and_a_partner_stay_above_the_tear_line(size: str) -> None:
    job, partner = records.job(), replace(HOUSE, name="The Reel House and Sons " * 8)
    (away,) = quote(TapeLine(1, U_MATIC), shop=replace(SHOP, partners=(partner,))).tapes
    odd = replace(job.customer, name="Wolfeschlegelsteinhausen " * 60)
    tapes = tuple(
        replace(tape, format_words=f"Kind {tape.code} " * 9, verdict=away.verdict) for tape in job.tapes
    )
    front = replace(records.FRONT, name="Long Name " * 40, address=("Lane " * 60,))
    paper = claim_slip.render(replace(job, customer=odd, tapes=tapes, rush=True), front, paper=size)
    boxes = {text: box for _, text, box in pdf.text_boxes(paper)}
    (tear,) = [box for text, box in boxes.items() if text.startswith("tear")]
    (last,) = [box for text, box in boxes.items() if text.startswith("If we find")]
    assert last[1] > tear[3]


# --- settings and command line -----------------------------------------------------------


def test_partners_come_back_from_their_own_text() -> None:
    shop = replace(SHOP, partners=(HOUSE, Partner("Two", frozenset({VHS, HI8}), "", 3)))
    assert loads(dump(shop)) == shop


@pytest.mark.parametrize(
    ("entry", "sentence"),
    [
        ('name = "A"\nformats = ["vinyl"]', "partner 1, formats: found 'vinyl'"),
        ('name = "A"\nformats = []', "partner 1, formats: found []; a list of at least one format"),
        ('name = " "\nformats = ["vhs"]', "partner 1, name"),
        ('name = "A"\nformats = ["vhs"]\ndays = 0', "partner 1, days: found 0; a whole number from 1 to 365"),
        ('name = "A"\nformats = ["vhs"]\nprice = 45', "partner 1, price: found 45"),
        (
            'name = "A"\nformats = ["vhs"]\n[[partner]]\nname = "A"\nformats = ["hi8"]',
            "partner 2, name: found 'A'; every partner has a name of its own",
        ),
    ],
)
def test_a_partner_that_cannot_be_is_refused_by_place(entry: str, sentence: str) -> None:
    with pytest.raises(WrongInput) as refused:
        loads(dump(SHOP).replace("partner = []", "") + f"\n[[partner]]\n{entry}\n", "mine.toml")
    assert sentence in refused.value.sentence


def test_a_partner_is_set_and_told_on_the_command_line(typed: Typist, tmp_path: Path) -> None:
    entry = '{ formats = ["u-matic"], price = "$45 a tape", days = 10 }'
    assert typed("shop", "set", "partner.The Reel House", entry).code == 0
    assert typed("shop", "set", "partner.The Reel House.days", "12").code == 0
    box = tmp_path / "u-matic.json"
    box.write_text(json.dumps({"tv": "ntsc", "tapes": [{"count": 1, "format": "u-matic"}]}), "utf-8")
    (tape,) = typed("quote", box).document["tapes"]

    assert tape["outcome"] == "cannot"  # the contract's closed list: plays, repair, partly, cannot
    assert tape["not_here"] == {
        "why": say("dates", "not_here_plays", what="U-matic"),
        "partner": "The Reel House",
        "price": "$45 a tape",
        "days": 12,
    }
    assert typed("shop", "remove", "partner.The Reel House").code == 0
    assert typed("quote", box).document["tapes"][0]["not_here"]["partner"] is None
