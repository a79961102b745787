"""The power going out under every kind of writing: what was acknowledged is there when the light is back.

``python -m tests.power_cuts`` cuts a thousand times; `tests/core/store/test_power_cut.py` a few times.
"""
