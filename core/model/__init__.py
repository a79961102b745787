"""The nouns that cross every border: names, the draft, records, ranges, money, stations, numbers, errors.

Pure. May use nothing of `core` but the wording. Everything else may use it.
"""
