"""The question that takes off most hours comes first; what would take off nothing is not asked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model import common_random_numbers
from core.model.inventory import TapeLine
from core.model.names import FillKnown, FormatName, Origin, Speed, TvSystem
from core.model.quote_records import Question
from core.playtime import box_habits, possibilities, questions, tape_minutes
from core.playtime.box_habits import Box
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import facts
from core.playtime.questions import BoxLine

BOX = Box(5, 7, 1000)
NTSC = TvSystem.NTSC


def asked(position: int, line: TapeLine, tv: TvSystem | None = NTSC) -> BoxLine:
    return BoxLine(
        position, line, tv, tuple(common_random_numbers.key(position, n) for n in range(line.count))
    )


def line(name: str, marking: str | None = None, count: int = 1, **known: object) -> TapeLine:
    return replace(TapeLine(count, FormatName(name), marking), **known)  # type: ignore[arg-type]


def about(found: tuple[Question, ...], words: str) -> Question:
    return next(question for question in found if words in question.text)


def test_the_question_that_takes_off_most_comes_first() -> None:
    found = questions.questions([asked(1, line("minidv", "DVM60")), asked(2, line("vhs", "T-120", 10))], BOX)

    hours = [question.hours_off for question in found]
    assert hours == sorted(hours, reverse=True)
    assert (found[0].line, hours[0] > 3) == (2, True)
    assert "speed" in found[0].text


def test_hours_off_is_what_the_answers_take_off_the_range_on_average() -> None:
    box = [asked(1, line("vhs", "T-120", 10))]
    question = about(questions.questions(box, BOX), "full")

    def width(tape: TapeLine) -> float:
        (lot,) = [asked(1, tape)]
        total = box_habits.range_of(box_habits.minutes_of_lot(facts(tape, NTSC), lot.keys, BOX))
        return (total.high - total.low) / 60

    after = [width(answer.draft) for answer in question.answers]
    # Shares of the starting beliefs: to the end 0.22, half or more 0.55, less 0.23.
    expected = 0.22 * after[0] + 0.55 * after[1] + 0.23 * after[2]
    assert question.hours_off == pytest.approx(width(box[0].line) - expected, abs=0.02)


def test_nothing_is_asked_of_a_tape_of_which_all_is_known() -> None:
    known = line("vhs", "T-120", 10, speed=Speed.SP, fill=1.0)
    assert questions.questions([asked(1, known)], BOX) == ()
    assert questions.questions([], BOX) == ()


def test_an_answer_leads_to_a_line_that_is_not_asked_the_same_again() -> None:
    box = [asked(1, line("vhs", "T-120", 10), tv=None)]
    for question in questions.questions(box, BOX):
        for answer in question.answers:
            again = questions.questions([asked(1, answer.draft, tv=None)], BOX)
            assert question.text not in [each.text for each in again]


def test_how_full_is_not_asked_of_a_tape_that_was_read_nor_of_one_that_was_told() -> None:
    for way in (FillKnown.READ, FillKnown.TOLD):
        known = line("vhs", "T-120", 10, speed=Speed.SP, fill=0.5, fill_known=way)
        assert questions.questions([asked(1, known)], BOX) == ()


@pytest.mark.parametrize(
    ("least", "offered"),
    [
        (0.2, ["to the end", "half or more", "less than half"]),
        (0.6, ["to the end", "half or more"]),
    ],
)
def test_of_a_tape_wound_into_its_recording_only_what_lies_beyond_is_asked(
    least: float, offered: list[str]
) -> None:
    """What an answer says is never believed below what was seen."""
    wound = line("vhs", "T-120", 10, speed=Speed.SP, fill=least, fill_known=FillKnown.AT_LEAST)
    question = about(questions.questions([asked(1, wound)], BOX), "full")

    assert [answer.words for answer in question.answers] == offered
    for answer in question.answers:
        stretches = possibilities.fills(facts(answer.draft, NTSC), STARTING).options
        assert min(begin for (begin, _), _ in stretches) >= least - 1e-9
        assert answer.draft.fill_known is FillKnown.TOLD
        assert questions.questions([asked(1, answer.draft)], BOX) == ()


def test_an_answer_that_lies_beyond_what_was_seen_stands_as_it_always_does() -> None:
    seen, unknown = (
        about(questions.questions([asked(1, tapes)], BOX), "full").answers
        for tapes in (
            line("vhs", "T-120", 10, fill=0.01, fill_known=FillKnown.AT_LEAST),
            line("vhs", "T-120", 10),
        )
    )
    assert [answer.draft for answer in seen] == [answer.draft for answer in unknown]


def test_of_a_tape_wound_nearly_to_its_end_nothing_is_left_to_ask() -> None:
    wound = line("vhs", "T-120", 10, speed=Speed.SP, fill=0.975, fill_known=FillKnown.AT_LEAST)
    assert questions.questions([asked(1, wound)], BOX) == ()


def test_an_answer_says_the_minutes_that_the_shop_believes_by_now() -> None:
    emptier = ShopHabits({("fill", "vhs"): {"0": 80.0}})
    tapes = asked(1, line("vhs", "T-120", 6))
    first, now = (
        about(questions.questions([tapes], replace(BOX, habits=shop)), "what speed").answers[0]
        for shop in (STARTING, emptier)
    )
    for answer, shop in ((first, STARTING), (now, emptier)):
        believed = tape_minutes.belief(answer.draft, NTSC, shop).range
        assert answer.means == f"{believed.low:.0f} to {believed.high:.0f} minutes each"
    assert now.means != first.means


def test_television_or_camcorder_is_asked_where_it_matters() -> None:
    vhs = about(questions.questions([asked(1, line("vhs", "T-120", 4))], BOX), "camcorder, or")
    assert [answer.draft.origin for answer in vhs.answers] == [Origin.CAMERA, Origin.BROADCAST]
    dv = questions.questions([asked(1, line("minidv", "DVM60", 40))], BOX)
    assert not any("camcorder, or" in question.text for question in dv)


def test_where_it_was_recorded_is_asked_when_the_tv_system_is_open() -> None:
    tapes = line("vhs", None, 10, speed=Speed.SP, fill=1.0)  # nothing else is open
    found = questions.questions([asked(1, tapes, tv=None)], BOX)
    assert [answer.draft.tv for answer in about(found, "where was").answers] == [NTSC, TvSystem.PAL]
    assert not any("where was" in question.text for question in questions.questions([asked(1, tapes)], BOX))


def test_digital8_is_always_asked_because_it_needs_another_machine() -> None:
    small = asked(1, line("hi8", "P6-30", speed=Speed.SP, fill=0.05))
    big = [asked(n, line("vhs", "T-160", 20)) for n in range(2, 12)]
    found = questions.questions([small, *big], BOX)

    assert about(found, "Digital8").hours_off < questions.WORTH_ASKING
    assert len(found) == questions.MOST + 1
