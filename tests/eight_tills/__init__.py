"""Eight tills at work in one shop while everything goes wrong: nothing is lost, doubled or stuck.

``python -m tests.eight_tills`` is the whole of it; `tests/core/store/test_eight_tills.py` a small share.
"""
