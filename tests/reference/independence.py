"""Which rows of the reference tables are independent of the code, and which repeat what it rests on.

A row is *published* where others printed, clocked or measured its figure by other means than our rule;
*taken* where the catalogue has its figure from there; *of the rule* where length ÷ speed, a length rule or
plain geometry was worked out again beside the code. The last two catch a slip of typing, and no error about
the world.
"""

from __future__ import annotations

from dataclasses import dataclass

from tests.reference import (
    test_film_lengths,
    test_minutes_tables,
    test_packs_and_cuts,
    test_published_times,
    test_worked_examples,
)


@dataclass(frozen=True, slots=True)
class RowCount:
    """The rows of one table."""

    table: str
    published: int = 0
    taken: int = 0
    of_rule: int = 0


def counts() -> tuple[RowCount, ...]:
    """Every table of lengths, minutes and cuts."""
    tables = [_counted(name, table) for name, table in test_minutes_tables.COUNTED.items()]
    examples = [row.number in test_worked_examples.PUBLISHED for row in test_worked_examples.ROWS]
    return (
        *tables,
        RowCount("worked examples", published=sum(examples), of_rule=examples.count(False)),
        RowCount("seconds removed by a cut", of_rule=len(test_packs_and_cuts.CUTS.strip().splitlines())),
        RowCount("printed times", published=len(test_published_times.rows(test_published_times.PRINTED))),
        RowCount("clocked times", taken=len(test_published_times.rows(test_published_times.CLOCKED))),
        RowCount("running times of film (Kodak)", published=len(test_film_lengths.KODAK)),
    )


def _counted(name: str, table: str) -> RowCount:
    found = test_minutes_tables.marks(table)
    return RowCount(name, found.count("published"), found.count("taken"), found.count("rule"))
