"""One use case a function: `f(unit, …)` does one thing, never commits, and returns frozen records.

May use every shelf but `cli`. `records_door` alone opens the records and runs a step in one transaction.
"""
