"""The nouns of a shop of its own: its settings and the file they are written in, what it adds, its pages.

Nothing here reads or writes. It may use the nouns beside it and the wording; every record is frozen.
"""
