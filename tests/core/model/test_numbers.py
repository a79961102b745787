"""Job numbers and tape codes catch a slip of the finger before it reaches somebody else's tapes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.model import numbers
from core.model.errors import Refused, WrongInput
from core.model.names import JobNumber, TapeCode

SEQUENCES = st.integers(1, numbers.LAST_SEQUENCE)
PLACES = st.integers(1, 999)


@given(SEQUENCES, PLACES)
def test_a_number_and_a_code_are_read_back(sequence: int, place: int) -> None:
    number = numbers.job_number(sequence)
    code = numbers.tape_code(number, place)
    assert (len(number), len(code)) == (6, 10)
    assert numbers.read_job_number(number) == number
    assert numbers.read_tape_code(code) == code
    assert numbers.job_of(code) == number


@given(SEQUENCES, PLACES, st.integers(0, 9), st.integers(1, 9))
def test_every_single_wrong_digit_is_caught(sequence: int, place: int, at: int, by: int) -> None:
    code = numbers.tape_code(numbers.job_number(sequence), place)
    wrong = code[:at] + str((int(code[at]) + by) % 10) + code[at + 1 :]
    with pytest.raises(WrongInput, match="mistyped"):
        numbers.read_tape_code(wrong)


def test_nearly_every_swap_of_neighbours_is_caught() -> None:
    swaps = caught = 0
    for sequence in range(1, 3000):
        number = numbers.job_number(sequence)
        for at in range(5):
            if number[at] == number[at + 1]:
                continue
            swaps += 1
            try:
                numbers.read_job_number(number[:at] + number[at + 1] + number[at] + number[at + 2 :])
            except WrongInput:
                caught += 1
    assert caught / swaps > 0.97


@pytest.mark.parametrize(
    "typed", ["000018", "18", " 000 018 ", "000-018", "#000018", "００００１８", "٠٠٠٠١٨", "000018\n"]
)
def test_a_job_number_is_read_however_it_is_typed(typed: str) -> None:
    assert numbers.read_job_number(typed) == "000018"


@pytest.mark.parametrize("typed", ["0000180014", "000018-001-4", "180014", "0000 1800 14"])
def test_a_tape_code_is_read_however_it_is_typed(typed: str) -> None:
    assert numbers.read_tape_code(typed) == "0000180014"


@pytest.mark.parametrize("typed", ["", " ", "8", "0000018", "00001B", "12²", "000019", "-", "one"])
def test_what_is_no_job_number_is_refused_by_name(typed: str) -> None:
    with pytest.raises(WrongInput, match="order number"):
        numbers.read_job_number(typed)


@pytest.mark.parametrize("typed", ["", "00001", "00000180014", "0000180015", "000018001X"])
def test_what_is_no_tape_code_is_refused_by_name(typed: str) -> None:
    with pytest.raises(WrongInput, match="tape code"):
        numbers.read_tape_code(typed)


def test_a_shop_says_when_its_numbers_are_used_up() -> None:
    assert numbers.job_number(99_999)[:5] == "99999"
    with pytest.raises(Refused, match="used up"):
        numbers.job_number(100_000)


def test_a_box_has_at_most_999_tapes() -> None:
    with pytest.raises(WrongInput, match="1 to 999"):
        numbers.tape_code(JobNumber("000018"), 1000)


def test_a_code_of_a_job_that_cannot_be_is_refused() -> None:
    stem = "000019001"  # a tape of a job number whose own check digit is wrong
    code = next(stem + digit for digit in "0123456789" if _fits(stem + digit))
    with pytest.raises(WrongInput, match="tape code"):
        numbers.read_tape_code(TapeCode(code))


def _fits(digits: str) -> bool:
    from stdnum.iso7064 import mod_11_10

    return bool(mod_11_10.is_valid(digits))
