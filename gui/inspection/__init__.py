"""Looking a cassette over and measuring its packs: two dialogs of the Counter and the Bench.

Uses `gui.widgets` and what lies below; knows no moment.
"""
