"""Print how many rows of the reference tables are independent, and how many repeat what the code rests on."""

from __future__ import annotations

from tests.reference.independence import RowCount, counts


def main() -> None:
    """Print one line a table, and the sum."""
    found = counts()
    every = RowCount(
        "all",
        sum(each.published for each in found),
        sum(each.taken for each in found),
        sum(each.of_rule for each in found),
    )
    for each in (*found, every):
        print(
            f"{each.table:32} {each.published:4} published {each.taken:4} taken {each.of_rule:4} of the rule"
        )
    whole = every.published + every.taken + every.of_rule
    print(f"{every.published / whole:.0%} are independent")


if __name__ == "__main__":
    main()
