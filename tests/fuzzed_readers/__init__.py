"""Whatever the program reads, fed with what nobody should send it.

``python -m tests.fuzzed_readers`` feeds every reader of `reader_list`; `tests/test_fuzzed_readers.py` feeds a
small share in each run, and holds the list against the parser and the source.
"""
