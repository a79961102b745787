"""Seconds of a practised clerk for the tasks of the desk, from what the real window was really sent.

``python -m tests.klm`` prints them by keys and by mouse, beside the goals and beside the same task in a plain
spreadsheet by the same model. The model is the keystroke-level model: Card, Moran and Newell, "The
keystroke-level model for user performance time with interactive systems", Communications of the ACM 23 (1980)
396–410; its times stand in `tests.support.klm`.
"""
