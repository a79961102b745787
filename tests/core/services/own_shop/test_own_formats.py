"""Formats of the shop's own in its settings: both ways through the file, refused by place, and retired."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from core.catalogue import formats
from core.catalogue.formats import catalogue
from core.model.errors import Refused, WrongInput
from core.model.inventory import TapeLine
from core.model.names import FormatName
from core.model.own_shop.settings_records import own_format
from core.papers.voice import voice
from core.playtime import tape_minutes
from core.services import jobs
from core.services.own_shop import (
    format_drafts,
    own_formats,
    settings_changes,
    settings_versions,
    shop_document,
    shop_settings,
)
from core.services.own_shop.format_drafts import FormatDraft
from core.store import current_settings
from tests.support.booked import Desk

NEGATIVES: dict[str, Any] = {
    "name": "negatives",
    "like": "slides",
    "words": {"name": "Negative strips"},
    "amount": {
        "seconds_a_piece": {"value": 12, "source": "tried with a stopwatch", "mark": "shop"},
        "usual": {"24": 1, "36": 2},
        "written": ["{n} negatives", "{n}"],
    },
}
DICTATION: dict[str, Any] = {
    "name": "dictation",
    "like": "audio-cassette",
    "words": {"name": "Dictation tape"},
    "amount": {
        "unit": "minutes",
        "mm_s": {"value": 23.8, "source": "printed on the recorder", "mark": "shop"},
        "usual": {"30": 1, "60": 1},
    },
}
ROLL: dict[str, Any] = {"name": "own-roll", "like": "super-8", "words": {"name": "Our roll"}}


def document(*own: dict[str, Any]) -> dict[str, Any]:
    return {**shop_settings.document(shop_settings.new_shop()), "format": list(own)}


def take_in(desk: Desk, *own: dict[str, Any]) -> None:
    """Put these formats in force, one deck for all of them."""
    content = {**shop_settings.document(desk.shop.ask(current_settings.read)), "format": list(own)}
    content["deck"][0]["plays"] += [form["name"] for form in own]
    desk.shop.run(settings_versions.change, shop_settings.of_document(content, "settings"))


def test_export_import_export_is_the_same_file(desk: Desk) -> None:
    take_in(desk, NEGATIVES, DICTATION, ROLL)
    written = desk.shop.ask(shop_document.export)
    desk.shop.run(shop_document.set_texts, [("format.negatives", None), ("deck.VHS 1.plays", '["vhs"]')])
    assert "negatives" not in catalogue().names

    desk.shop.run(shop_document.take_over, written, "shop.toml")

    assert desk.shop.ask(shop_document.export) == written
    assert "negatives" in catalogue().names


def test_a_key_of_a_format_is_set_by_its_path(desk: Desk) -> None:
    take_in(desk, NEGATIVES)
    desk.shop.run(shop_document.set_texts, [("format.negatives.amount.seconds_a_piece.value", "30")])

    marking = catalogue().format("negatives").marking("24")
    assert marking is not None
    assert marking.minutes == pytest.approx(12)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (
            {"name": "Neg Strips"},
            "settings, format 1, name: found 'Neg Strips'; a short name of small letters",
        ),
        ({"name": "vhs"}, "settings, format 1, name: found 'vhs'; a name that no other format has"),
        (
            {"words": {"name": "VHS"}},
            "format 1, words, name: found 'VHS'; a name that no other format is called",
        ),
        ({"words": {}}, "format 1, words, name: nothing was entered; a name of at most 40 characters"),
        (
            {"words": {"name": "a\nb"}},
            "format 1, words, name: found 'a / b'; a name of at most 40 characters",
        ),
        ({"words": 3}, "format 1, words, name: nothing was entered"),
        ({"like": "wax"}, "format 1, like: found 'wax'; accepted are"),
        ({"retired": "yes"}, "format 1, retired: found 'yes'; true or false is accepted"),
        ({"colour": 1}, "format 1: found 'colour'; the keys accepted here are"),
        ({"counted_in": "bucket"}, "format 1, counted_in: found 'bucket'; accepted are 'tape', 'reel'"),
        ({"habits": 3}, "format 1, habits: found 3; a table is accepted"),
        ({"amount": 3}, "format 1, amount: found 3; a table is accepted"),
        ({"amount": {"unit": "yards"}}, "format 1, amount, unit: found 'yards'; accepted are 'feet'"),
        (
            {"amount": {"usual": {"some": 1}}},
            "format 1, amount, usual: found 'some'; whole amounts from 1 to",
        ),
        ({"amount": {"usual": {"24": 0}}}, "format 1, amount, usual: found {'24': 0.0, "),
        ({"amount": {"unit": "feet"}}, "format 1, amount: found nothing; the key frames_per_foot is needed"),
        (
            {"amount": {"seconds_a_piece": {"value": -1, "source": "x", "mark": "shop"}}},
            "format 1, amount, seconds_a_piece, value: found -1; a number above 0 is accepted",
        ),
    ],
)
def test_what_does_not_fit_is_refused_by_its_place_in_the_settings(
    change: dict[str, Any], sentence: str
) -> None:
    entry = {key: value for key, value in NEGATIVES.items() if key != "amount"} | change
    if (
        change.get("amount", {})
        and isinstance(change["amount"], dict)
        and "24" in change["amount"].get("usual", {})
    ):
        entry["amount"] = {"usual": dict.fromkeys(("24", "36", "50", "80", "100"), 0)}
    with pytest.raises(WrongInput) as refused:
        shop_settings.of_document(document(entry), "settings")
    assert sentence in str(refused.value)


def test_two_formats_of_one_name_are_refused() -> None:
    with pytest.raises(WrongInput, match="format 2, name: found 'negatives'; a name that no other"):
        shop_settings.of_document(document(NEGATIVES, NEGATIVES), "settings")


def test_a_deck_may_play_a_format_of_the_same_file_only() -> None:
    content = document(NEGATIVES)
    content["deck"][0]["plays"] = ["negatives"]
    assert shop_settings.of_document(content, "settings").decks[0].plays == {"negatives"}
    content["format"] = []
    with pytest.raises(WrongInput, match="deck 1, plays: found 'negatives'"):
        shop_settings.of_document(content, "settings")


def test_what_was_booked_can_be_retired_and_not_removed(desk: Desk) -> None:
    take_in(desk, ROLL)
    job = desk.book(TapeLine(1, FormatName("own-roll"), "50 ft"))
    gone = [("format.own-roll", None), ("deck.VHS 1.plays", '["vhs"]')]
    with pytest.raises(Refused, match=r"Things were booked under .Our roll"):
        desk.shop.run(shop_document.set_texts, gone)

    desk.shop.run(shop_document.set_texts, [("format.own-roll.retired", "true")])

    assert "own-roll" not in [form.name for form in catalogue().offered]
    assert desk.shop.ask(jobs.get, job.number).tapes[0].format_words == "Our roll"


def test_a_reprint_calls_a_format_as_it_was_called_then(desk: Desk) -> None:
    take_in(desk, ROLL)
    before = desk.shop.ask(current_settings.read).front
    desk.shop.run(shop_document.set_texts, [("format.own-roll.words.name", "Their roll")])
    now = desk.shop.ask(current_settings.read).front

    assert voice(before).format(FormatName("own-roll")) == "Our roll"
    assert voice(now).format(FormatName("own-roll")) == "Their roll"


def test_minutes_follow_a_changed_figure_at_once(desk: Desk) -> None:
    """What was worked out under the catalogue before is not given under the one after."""
    take_in(desk, NEGATIVES)
    box = TapeLine(1, FormatName("negatives"), "24")
    first = tape_minutes.belief(box, None).range
    desk.shop.run(shop_document.set_texts, [("format.negatives.amount.seconds_a_piece.value", "24")])
    desk.shop.ask(current_settings.read)

    assert tape_minutes.belief(box, None).range.likely == pytest.approx(2 * first.likely)


def test_a_format_that_a_newer_program_does_not_take_leaves_the_others_in_force() -> None:
    taken = own_format("vhs", {"like": "minidv", "words": {"name": "Taken meanwhile"}})
    formats.put_in_force((taken, own_format("own-roll", {"like": "super-8", "words": {"name": "Our roll"}})))

    assert "own-roll" in catalogue().names
    assert catalogue().format("vhs").words == "VHS"


@pytest.mark.parametrize("like", [form.name for form in formats.shipped().formats if form.has_own_system])
def test_one_like_any_format_is_accepted_as_it_is_begun(like: str) -> None:
    draft = replace(format_drafts.begun(like), words="Something new")
    form = format_drafts.kept(draft, "something-new")

    made = formats.of_own((form,)).format("something-new")
    assert made.words == "Something new"
    assert format_drafts.of(form) == draft
    assert tape_minutes.belief(TapeLine(1, FormatName(like)), None).range.likely > 0


@pytest.mark.parametrize("like", ["vhs", "hi8", "super-8", "slides"])
@pytest.mark.parametrize(
    "counted",
    [
        FormatDraft("New", "", "reel", "feet", 40.0, 4.0, ("100", "400")),
        FormatDraft("New", "", "box", "pieces", 10.0, None, ("20",)),
        FormatDraft("New", "", "tape", "minutes", 9.5, None, ("60", "90")),
    ],
)
def test_any_format_may_be_counted_by_any_unit(like: str, counted: FormatDraft) -> None:
    draft = replace(counted, like=like)
    form = format_drafts.kept(draft, "new")
    formats.put_in_force((form,))
    made = catalogue().format("new")

    assert format_drafts.of(form) == draft
    assert [marking.name.split()[0] for marking in made.markings] == list(draft.usual)
    assert tape_minutes.belief(TapeLine(1, FormatName("new")), None).range.likely > 0


def test_what_a_file_says_more_is_kept_by_the_page() -> None:
    form = own_format("negatives", {key: value for key, value in NEGATIVES.items() if key != "name"})
    again = format_drafts.kept(replace(format_drafts.of(form), words="Strips"), "negatives", form)

    assert again.tables["amount"]["usual"] == NEGATIVES["amount"]["usual"]
    assert again.tables["amount"]["written"] == NEGATIVES["amount"]["written"]
    assert format_drafts.kept(format_drafts.of(form), "negatives", form) == form


def test_keys_are_made_of_words() -> None:
    assert own_formats.free_key("Super 8, with sound!", []) == "super-8-with-sound"
    assert own_formats.free_key("Dia", ["dia", "dia-2"]) == "dia-3"
    assert own_formats.free_key("幻灯片", []) == "own"


def test_a_change_is_told_by_what_the_format_is_called(desk: Desk) -> None:
    before = desk.shop.ask(current_settings.read)
    take_in(desk, ROLL)
    after = desk.shop.ask(current_settings.read)
    assert "New under “What people bring”: Our roll, like Super 8 film" in settings_changes.lines(
        before, after
    )

    desk.shop.run(shop_document.set_texts, [("format.own-roll.retired", "true")])
    now = desk.shop.ask(current_settings.read)
    assert "Our roll, retired: nothing → yes" in settings_changes.lines(after, now)
