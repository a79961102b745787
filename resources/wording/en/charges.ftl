# The lines of a bill and the reason of each. $tapes, $pieces and the like are counts or ranges as text.
line = { $count } × { $what }
repair-line = { $count } × { $repair } ({ $tape })
hours = { $hours } h
periods = { $count } × { $minutes } min
range = { $low } to { $high }
per-tape = by the tape; the same however long it plays
per-hour-each = by the hour played, to the minute; each plays { $minutes } minutes
per-hour-one = by the hour played, to the minute; it plays { $minutes } minutes
per-hour-together = by the hour played, to the minute; together they play { $minutes } minutes
per-period-each =
    { $period ->
        [30] by the half hour, counting every one started; each plays { $minutes } minutes
        [60] by the hour, counting every one started; each plays { $minutes } minutes
       *[other] by { $period } minutes, counting every period started; each plays { $minutes } minutes
    }
per-period-one =
    { $period ->
        [30] by the half hour, counting every one started; it plays { $minutes } minutes
        [60] by the hour, counting every one started; it plays { $minutes } minutes
       *[other] by { $period } minutes, counting every period started; it plays { $minutes } minutes
    }
per-period-together =
    { $period ->
        [30] by the half hour, counting every one started; together they play { $minutes } minutes
        [60] by the hour, counting every one started; together they play { $minutes } minutes
       *[other] by { $period } minutes, counting every period started; together they play { $minutes } minutes
    }
found-at-bench = found at the bench
copies-because = room for the play time
not-played-because = cannot be played; nothing to pay
break-text = For { $tapes } tapes
break-step = { $percent } % off after { $after } tapes
break-because = { $steps }; on the copying of each tape, the dearest counted first
break-quantity =
    { $tapes ->
        [one] 1 tape
       *[other] { $tapes } tapes
    }
rush-text = Rush, { $percent } %
rush-because = the box goes ahead of the others; on copying and repair, not on discs and sticks
rush-quantity = { $percent } %
minimum-text = Minimum order
minimum-because = the smallest order is { $amount }
ceiling-text = Kept to what we agreed
ceiling-because = we agreed not to go over { $amount }; nothing above it is charged
tax-on-top = { $tax } { $percent } %, on top
tax-inside = { $tax } { $percent } %, inside
