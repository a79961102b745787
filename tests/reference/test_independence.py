"""Every row of the tables says whether it is independent of the code."""

from __future__ import annotations

from tests.reference import test_minutes_tables, test_worked_examples
from tests.reference.independence import counts


def test_every_row_says_whether_it_was_published_or_made_by_the_rule() -> None:
    for name, table in test_minutes_tables.COUNTED.items():
        assert set(test_minutes_tables.marks(table)) <= {"published", "taken", "rule"}, name
    assert set(test_worked_examples.PUBLISHED) <= {row.number for row in test_worked_examples.ROWS}


def test_more_than_a_third_of_the_rows_are_independent() -> None:
    """Of 136 rows 38 were, before the printed times were added; the share may only grow."""
    found = counts()
    published = sum(each.published for each in found)
    assert published / sum(each.published + each.taken + each.of_rule for each in found) >= 0.37
