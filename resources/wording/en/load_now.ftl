# What each free deck loads now, and why (the Bench, subcommand load-now).
next = It is next in the queue.
instead_too_long = Tape { $code } is next, but would not end before closing. This one does.
instead_cold = Tape { $code } is next, but it came in cold and is still warming up.
instead_not_cleared = Tape { $code } is next, but it is not cleared to play yet.
none_cleared = The next tapes are not cleared to play yet.
none_warm = The next tapes came in cold and are still warming up.
before_opening = The shop is closed now. The next tape starts when it opens.
none_ends = Nothing would end before closing. The next tape starts on { $day }.
none_outage = Nothing would end before the deck goes out of service.
no_hours = The shop has no opening hours in which it could be played.
