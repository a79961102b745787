"""The figures of the house: how large its files, functions and folders are, and how they import each other.

``python -m tests.house`` prints each beside the bound of the house rules; ``tests/test_house.py`` keeps them.
"""
