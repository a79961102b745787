"""The shop's records: tables, engines, migrations, search, history with its chain, audit, dump.

May use the pure shelves. What was acknowledged is on disk; history is only added to.
"""
