"""A shop's own sentence takes the place of the built-in one or gives way; cautions stay as they are."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from core.catalogue.findings import Finding
from core.catalogue.format_file import Hazard
from core.wording import messages, own_words
from core.wording.messages import say, worded_cache
from core.wording.own_words import Misfit, is_closed

BRING = "Bring this slip and a smile."


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    before = messages.current()
    yield
    messages.use(before.language, before.locale)


def _use(own: list[tuple[str, str]]) -> None:
    messages.use("en", own=own_words.of("en", tuple(own)))


def _fault(place: str, text: str) -> object:
    room, _, key = place.partition("/")
    found = own_words.read(place, text, messages.built_in(room, "en").get(key), "en_US")
    return found if isinstance(found, Misfit) else None


def test_an_own_sentence_is_said_until_it_is_taken_back() -> None:
    built_in = say("paper", "slip-bring")
    _use([("paper/slip-bring", BRING)])
    assert say("paper", "slip-bring") == BRING
    messages.use("en")
    assert say("paper", "slip-bring") == built_in


def test_its_blanks_are_filled_and_plurals_may_be_told_apart() -> None:
    cassettes = "{ $n ->\n[one] one cassette\n*[other] { $n } cassettes\n}"
    _use([("paper/slip-ask", "Ring { $phone }."), ("paper/slip-tapes", cassettes)])
    assert say("paper", "slip-ask", phone="(303) 555-0142") == "Ring (303) 555-0142."
    assert say("paper", "slip-tapes", n=1) == "one cassette"
    assert say("paper", "slip-tapes", n=1200) == "1,200 cassettes"
    _use([("paper/slip-tapes", "{ $n } of them")])
    assert say("paper", "slip-tapes", n=1) == "1 of them"


@pytest.mark.parametrize(
    ("place", "text", "fault"),
    [
        ("paper/slip-ask", "Ring us.", Misfit.BLANKS),
        ("paper/slip-ask", "Ring { $phone } or { $email }.", Misfit.BLANKS),
        ("paper/slip-bring", "{ $phone }", Misfit.BLANKS),
        ("paper/slip-bring", "An { open brace", Misfit.UNREADABLE),
        ("paper/slip-bring", "Look at { law }", Misfit.UNREADABLE),
        ("paper/slip-bring", "{ NUMBER(3) }", Misfit.UNREADABLE),
        ("paper/slip-bring", "{ slip-ask }", Misfit.UNREADABLE),
        ("paper/slip-bring", "one\n.attribute = two", Misfit.UNREADABLE),
        ("paper/slip-bring", "one\n\nlaw = two } {", Misfit.UNREADABLE),
        ("paper/slip-bring", "   ", Misfit.UNREADABLE),
        ("paper/slip-brings", "x", Misfit.UNKNOWN),
        ("papers/slip-bring", "x", Misfit.UNKNOWN),
        ("slip-bring", "x", Misfit.UNKNOWN),
        ("paper/law", "None.", Misfit.CLOSED),
    ],
)
def test_what_does_not_fit_gives_way_to_the_built_in_sentence(place: str, text: str, fault: Misfit) -> None:
    assert _fault(place, text) is fault
    room, _, key = place.partition("/")
    before = say(room, key, phone="1") if key in messages.built_in(room, "en") else None
    _use([(place, text)])
    if before is not None:
        assert say(room, key, phone="1") == before
    assert say("paper", "slip-keep") == str(messages.built_in("paper", "en")["slip-keep"])


def test_what_was_remembered_is_said_anew_with_other_words() -> None:
    made = []

    @worded_cache(maxsize=8)
    def heading() -> str:
        made.append(1)
        return say("paper", "slip-title")

    messages.use("en")
    first = heading()
    _use([("paper/slip-title", "Pick-up slip")])
    assert (heading(), heading()) == ("Pick-up slip", "Pick-up slip")
    messages.use("en")
    assert (heading(), len(made)) == (first, 2)


def test_another_language_is_said_without_them() -> None:
    _use([("paper/slip-bring", BRING)])
    assert say("paper", "slip-bring", language="en_GB") != BRING


def test_every_built_in_sentence_that_is_open_takes_itself() -> None:
    """Each is what the page offers to start from."""
    for room in messages.rooms():
        for key, message in messages.built_in(room, "en").items():
            place = f"{room}/{key}"
            text = own_words.source_of(message)
            if not is_closed(place) and "-term" not in key:
                assert _fault(place, text) is None, (place, text)


def test_hazards_cautions_and_findings_are_closed() -> None:
    for hazard in Hazard:
        assert _fault(f"findings/{hazard.value}", "Nothing to fear.") is Misfit.CLOSED
    for finding in Finding:
        assert _fault(f"findings/caution-{finding.value}-1", "Never mind.") is Misfit.CLOSED
        assert _fault(f"findings/told-{finding.value}-1", "Never mind.") is Misfit.CLOSED


CAREFUL = ("not for reuse", "not-for-reuse", "never play", "never be played", "do not play", "mold", "law")


def test_no_open_sentence_on_paper_or_for_the_customer_speaks_of_reuse_mold_or_law() -> None:
    for room in ("paper", "customer", "pickup", "handing_back", "look", "findings", "tapes"):
        for key, message in messages.built_in(room, "en").items():
            said = own_words.source_of(message).lower()
            if any(each in said for each in CAREFUL):
                assert is_closed(f"{room}/{key}"), f"{room}/{key}: {said}"


def test_every_pattern_of_the_closed_list_closes_something() -> None:
    places = [f"{room}/{key}" for room in messages.rooms() for key in messages.built_in(room, "en")]
    for pattern in own_words.CLOSED:
        assert any(own_words.fnmatchcase(place, pattern) for place in places), pattern


def test_a_closed_sentence_in_an_old_record_is_not_said() -> None:
    before = say("findings", "mould")
    _use([("findings/mould", "Breathe deeply.")])
    assert say("findings", "mould") == before
