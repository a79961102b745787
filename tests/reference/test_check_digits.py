"""The check digit against the worked example of the standard."""

from __future__ import annotations

from stdnum.iso7064 import mod_11_10

from core.model import numbers


def test_the_digit_is_that_of_the_standard() -> None:
    # ISO/IEC 7064:2003, hybrid system MOD 11,10: the example 0794 gets the check digit 5 (from memory).
    assert mod_11_10.calc_check_digit("0794") == "5"


def test_job_numbers_follow_the_standard_step_by_step() -> None:
    for sequence in (1, 794, 12_345, 99_999):
        assert numbers.job_number(sequence) == f"{sequence:05d}{_by_hand(f'{sequence:05d}')}"


def _by_hand(digits: str) -> int:
    """The recursion of the hybrid system: P = 10; S = P + digit mod 10 (0 counts as 10); P = 2 S mod 11."""
    product = 10
    for digit in digits:
        total = (product + int(digit)) % 10 or 10
        product = total * 2 % 11
    return (11 - product) % 10
