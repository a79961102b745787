"""The pages on which an owner sets the shop up: who it is, hours, decks, people, prices, papers.

May use the widgets, tables and toolkit. `gui.first_run` shows them one after another, Shop one by one. A page
knows no records: it shows settings, and gives them back as they were changed on it.
"""
