"""Text a person typed into a form or a command: on one line, printable, and there when it is needed."""

from __future__ import annotations

from core.model.errors import WrongInput
from core.wording.messages import say

MOST_LETTERS = 200


def line(place: str, given: str) -> str:
    """``given`` without space around it; WrongInput at ``place`` for what no form or paper could show."""
    try:
        given.encode()
    except UnicodeEncodeError:
        raise WrongInput(place, given, say("entered", "printable")) from None
    if any(character in "\r\n" or ord(character) < 32 for character in given.strip()):
        raise WrongInput(place, given, say("entered", "one_line"))
    if len(given.strip()) > MOST_LETTERS:
        raise WrongInput(place, given, say("entered", "most_letters", most=MOST_LETTERS))
    return given.strip()


def reason(place: str, given: str) -> str:
    """A reason in a few words; WrongInput when none was given."""
    said = line(place, given)
    if not said:
        raise WrongInput(place, given, say("entered", "few_words"))
    return said
