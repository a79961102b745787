# What was measured of a tape, and is more than the tape can hold as far as its sources say.

beyond-minutes = { $value } minutes is more than we know of: a { $tape } runs { $most } minutes at most. Check the marking and the speed.
beyond-metres = { $value } meters is more than we know of: a { $tape } holds { $most } meters at most. Check the marking.
beyond-reel = A pack of { $mm } mm is more than we know of: on a { $format } cassette it would reach past the edge of the reel, { $reel } mm ({ $source }). Measure again, from the center of the hub.
far = { $doubt } Nothing was saved yet. If it was really measured, confirm it.
keep = &Keep it as measured
change = &Go back and change it
title = Really that long?
