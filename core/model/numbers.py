"""Job numbers and tape codes: short, spoken over the phone, and safe against a slip of the finger.

A job number is a five-digit sequence and a check digit; a tape code is the job number, the tape's place
in the box and a check digit over all nine. Digits only, so that any keyboard layout scans them alike.
The check digit is ISO/IEC 7064 MOD 11,10 (hybrid system): it catches every single wrong digit and nearly
every swap of neighbours.
"""

from __future__ import annotations

import unicodedata

from stdnum.iso7064 import mod_11_10

from core.model.errors import Refused, WrongInput
from core.model.names import JobNumber, TapeCode
from core.wording.messages import say

LAST_SEQUENCE = 99_999
NUMBER_DIGITS = 6
CODE_DIGITS = 10
_SEPARATORS = " -./_#\u00a0\u2007\u2009\u202f\u2010\u2011\u2012\u2013"


def job_number(sequence: int) -> JobNumber:
    """The number of the ``sequence``-th job, counted from 1; Refused when five digits are used up."""
    if not 1 <= sequence <= LAST_SEQUENCE:
        raise Refused(say("readers", "all_job_numbers_used", last_sequence=LAST_SEQUENCE))
    return JobNumber(_checked(f"{sequence:05d}"))


def sequence(number: JobNumber) -> int:
    """Which job, counted from 1, has this number."""
    return int(number[:-1])


def tape_code(number: JobNumber, place: int) -> TapeCode:
    """The code of the ``place``-th tape (1 to 999) of a job."""
    if not 1 <= place <= 999:
        raise WrongInput("tape", place, say("readers", "job_holds_tapes"))
    return TapeCode(_checked(f"{number}{place:03d}"))


def read_job_number(text: str) -> JobNumber:
    """A job number as typed: spaces and dashes do not matter, leading zeros may be left out."""
    digits = _digits(text)
    if digits is None or not 2 <= len(digits) <= NUMBER_DIGITS:
        raise WrongInput(say("readers", "job_number"), text, say("readers", "job_number_six_digits"))
    return JobNumber(_verified(say("readers", "job_number"), text, digits.zfill(NUMBER_DIGITS)))


def read_tape_code(text: str) -> TapeCode:
    """A tape code as scanned or typed: spaces and dashes do not matter, leading zeros may be left out."""
    digits = _digits(text)
    if digits is None or not NUMBER_DIGITS <= len(digits) <= CODE_DIGITS:
        raise WrongInput(say("readers", "tape_code"), text, say("readers", "tape_code_ten_digits"))
    code = _verified(say("readers", "tape_code"), text, digits.zfill(CODE_DIGITS))
    _verified(say("readers", "tape_code"), text, code[:NUMBER_DIGITS])
    return TapeCode(code)


def job_of(code: TapeCode) -> JobNumber:
    """The job a tape code belongs to."""
    return JobNumber(code[:NUMBER_DIGITS])


def _checked(digits: str) -> str:
    return digits + mod_11_10.calc_check_digit(digits)


def _verified(place: str, text: str, digits: str) -> str:
    if not mod_11_10.is_valid(digits):
        raise WrongInput(place, text, say("readers", "last_digit_does_fit"))
    return digits


def _digits(text: str) -> str | None:
    """The digits of ``text`` in ASCII, whatever script they were typed in; None if it holds anything else."""
    kept = "".join(character for character in text.strip() if character not in _SEPARATORS)
    if not kept or not all(character.isdecimal() for character in kept):
        return None
    return "".join(str(unicodedata.decimal(character)) for character in kept)
