# Copies that could be had for less. $other and $now are pieces of the price book.
instead = { $other } instead of { $now } would save about { $amount }
instead-tax = { $other } instead of { $now } would save about { $amount }, before tax
shared = several short tapes on one disc, { $other } instead of { $now } would save about { $amount }
shared-tax = several short tapes on one disc, { $other } instead of { $now } would save about { $amount }, before tax
layered = discs of two layers for the long tapes, { $other } instead of { $now } would save about { $amount }
layered-tax = discs of two layers for the long tapes, { $other } instead of { $now } would save about { $amount }, before tax
files = { $other } with H.264 files instead of { $now } (for a computer or a television, not a DVD player) would save about { $amount }
files-tax = { $other } with H.264 files instead of { $now } (for a computer or a television, not a DVD player) would save about { $amount }, before tax
pieces = { $count } × { $what }
