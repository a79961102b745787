"""The shop's own words are entered by key, refused where they do not fit, reprinted as they were."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model import serialization
from core.model.errors import WrongInput
from core.papers.booking import claim_slip, quote_paper
from core.services.own_shop import settings_versions, shop_document, shop_settings
from core.store import current_settings
from core.wording import messages
from core.wording.messages import say
from tests.support.booked import Desk
from tests.support.pdf import text_boxes, words

BRING = "words.paper/slip-bring"
OWN = "Bring this slip and a smile."


def _set(desk: Desk, *typed: tuple[str, str | None]) -> None:
    desk.clock.go_on(minutes=1)
    desk.shop.run(shop_document.set_texts, list(typed))


def test_a_sentence_is_set_by_key_comes_back_from_a_file_and_is_taken_out(desk: Desk) -> None:
    _set(desk, (BRING, OWN), ("words.paper/slip-title", "2026"))
    settings = desk.shop.ask(current_settings.read)
    assert settings.front.words == (("paper/slip-bring", OWN), ("paper/slip-title", "2026"))
    assert shop_settings.loads(shop_settings.dump(settings)).front.words == settings.front.words
    assert "words" in settings.confirmed
    _set(desk, (BRING, None))
    assert desk.shop.ask(current_settings.read).front.words == (("paper/slip-title", "2026"),)


@pytest.mark.parametrize(
    ("place", "text", "accepted"),
    [
        ("paper/law", "None.", "own-words-closed"),
        ("findings/mould", "Breathe deeply.", "own-words-closed"),
        ("paper/nothing", "x", "own-words-unknown"),
        ("nothing", "x", "own-words-unknown"),
        ("paper/slip-ask", "Ring us.", "own-words-blanks"),
        ("paper/slip-ask", "Ring { $phone", "own-words-unreadable"),
    ],
)
def test_what_does_not_fit_is_refused_and_named(desk: Desk, place: str, text: str, accepted: str) -> None:
    before = desk.shop.ask(shop_document.read)
    with pytest.raises(WrongInput) as told:
        _set(desk, (f"words.{place}", text))
    assert place in told.value.sentence
    assert say("files", accepted, blanks="{ $phone }") in told.value.sentence
    assert desk.shop.ask(shop_document.read) == before


def test_an_old_record_with_a_sentence_that_no_longer_fits_can_still_be_changed(desk: Desk) -> None:
    old = desk.shop.ask(current_settings.read)
    old = replace(old, front=replace(old.front, words=(("paper/gone", "x"), ("paper/law", "None."))))
    desk.clock.go_on(minutes=1)
    desk.shop.run(settings_versions._append, old, "written by an older program", None)
    _set(desk, ("front.phone", "(303) 555-0199"))
    front = desk.shop.ask(current_settings.read).front
    assert front.phone == "(303) 555-0199"
    job = desk.book()
    assert str(messages.built_in("paper", "en")["law"])[:40] in words(quote_paper.render(job.quote, front))


def test_own_words_stand_on_the_slip_and_an_old_one_is_reprinted_byte_for_byte(desk: Desk) -> None:
    job = desk.book()
    made_at = desk.clock()
    printed = claim_slip.render(job, desk.shop.ask(current_settings.read).front)
    _set(desk, (BRING, OWN), ("front.extra_cautions", '["Tapes left for a year are given away."]'))
    now = words(claim_slip.render(job, desk.shop.ask(current_settings.read).front))
    assert OWN in now
    assert "Tapes left for a year are given away." in now
    then = desk.shop.ask(current_settings.as_of, made_at).front
    assert claim_slip.render(job, then) == printed


def test_extra_cautions_come_after_the_built_in_ones_on_the_quote(desk: Desk) -> None:
    _set(desk, ("front.extra_cautions", '["Please do not smoke near the tapes."]'))
    job = desk.book()
    said = words(quote_paper.render(job.quote, desk.shop.ask(current_settings.read).front))
    assert said.index(say("paper", "quote-told")) < said.index("Please do not smoke near the tapes.")
    assert said.index("Please do not smoke near the tapes.") < said.index(say("paper", "quote-terms"))


@pytest.mark.parametrize(
    "typed", ['["a","b","c","d"]', f'["{"x" * 101}"]', '[" "]', "one", '["bell\\u0007"]']
)
def test_extra_cautions_that_cannot_be_are_refused(desk: Desk, typed: str) -> None:
    with pytest.raises(WrongInput, match="extra_cautions"):
        _set(desk, ("front.extra_cautions", typed))


def test_three_long_cautions_stay_above_the_stub(desk: Desk) -> None:
    _set(desk, ("front.extra_cautions", str([("Please mind this. " * 6)[:98] + "!"] * 3).replace("'", '"')))
    job = desk.book(name="Ada Fenwick " * 6)
    front = desk.shop.ask(current_settings.read).front
    for paper in ("a4", "letter"):
        printed = claim_slip.render(job, front, paper=paper)
        assert words(printed).count("!") == 3, "all of the third one, too"
        assert min(box[1] for _, said, box in text_boxes(printed) if "mind this" in said) > claim_slip.STUB


def test_a_record_of_before_reads_without_words() -> None:
    front = shop_settings.new_shop().front
    old = serialization.dumps(front)
    assert serialization.loads(type(front), old) == front
    assert (front.words, front.extra_cautions) == ((), ())
