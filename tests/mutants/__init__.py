"""Mutation testing of the pure shelves: ``python -m tests.mutants [SHELF | FILE …]``.

Each module is changed in one place at a time, and the tests that run that place must notice. What no test
notices stands in `argued.toml` with the reason why nobody could, or the command exits 1.
"""
