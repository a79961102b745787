"""The pages on which an owner sets the shop up: who it is, hours, decks, people, prices, papers.

May use the widgets, tables and toolkit; shown one after another by `gui.first_run` and one by one by the chapters of
Shop. A page knows no records: it shows settings, and gives them back as they were changed on it.
"""
