# The lines of a bill and the reason of each. $tapes, $pieces and the like are counts or ranges as text.
line = { $count } × { $what }
repair-line = { $count } × { $repair } ({ $tape })
hours = { $hours } h
periods = { $count } × { $minutes } min
range = { $low } to { $high }
per-unit-feet = so much a foot of film, by the length of the reel
per-unit-pieces = so much a picture
per-unit-minutes = so much a minute
per-tape = one price per tape, however long it plays
per-hour-each = by the hour, to the minute; each plays { $minutes } minutes
per-hour-one = by the hour, to the minute; it plays { $minutes } minutes
per-hour-together = by the hour, to the minute; together they play { $minutes } minutes
per-period-each =
    { $period ->
        [30] by the half hour, rounded up; each plays { $minutes } minutes
        [60] by the hour, rounded up; each plays { $minutes } minutes
       *[other] in steps of { $period } minutes, rounded up; each plays { $minutes } minutes
    }
per-period-one =
    { $period ->
        [30] by the half hour, rounded up; it plays { $minutes } minutes
        [60] by the hour, rounded up; it plays { $minutes } minutes
       *[other] in steps of { $period } minutes, rounded up; it plays { $minutes } minutes
    }
per-period-together =
    { $period ->
        [30] by the half hour, rounded up; together they play { $minutes } minutes
        [60] by the hour, rounded up; together they play { $minutes } minutes
       *[other] in steps of { $period } minutes, rounded up; together they play { $minutes } minutes
    }
redone-line = { $count } × { $repair } redone, no charge ({ $tape })
redone-because = we did it again at our own cost
found-at-bench = found at the bench
copies-because = enough room for everything on the tapes
not-played-because = cannot be played; nothing to pay
left-out-rights = not copied without the rights; nothing to pay
left-out-look = we look at it first and ask; nothing to pay
left-out-nothing-on-it = nothing on it; not charged for copying
left-out-not-wanted = not wanted; not copied, not charged
left-out-repair-declined = repair declined; not copied, not charged for copying
left-out-cannot-be-played = cannot be played here; not charged for copying
left-out-sent-elsewhere = sent elsewhere and back; not charged for copying
left-out-lost = not charged
left-out-damaged = not charged
break-text = For { $tapes } tapes
break-step = { $percent }% off after { $after } tapes
break-because = { $steps }; taken off the copying price, most expensive tapes first
break-quantity =
    { $tapes ->
        [one] 1 tape
       *[other] { $tapes } tapes
    }
together-text = All { $tapes } tapes together
together-because = tapes are rarely all short or all long; the prices above are for each tape by itself, and this evens them out
rush-text = Rush, { $percent }%
rush-because = your order goes ahead of the others; charged on copying and repair, not on discs and sticks
rush-quantity = { $percent }%
minimum-text = Minimum order
minimum-because = the smallest order is { $amount }
ceiling-text = On us, above what we agreed
ceiling-because = we agreed not to go over { $amount } without asking, so we give this part away
flat-text = Flat price, as agreed
flat-because = we agreed on { $amount } for everything, however long the tapes play
tax-on-top = { $tax } { $percent }%, added
tax-inside = { $tax } { $percent }%, included
# Several taxes in one phrase; $taxes is a list of tax-named.
tax-named = { $tax } { $percent }%
taxes-on-top = { $taxes }, added
taxes-inside = { $taxes }, included
tax-exempt = no tax, exempt: { $reason }
at-least = { $why }; at least { $amount } for each tape
not-played-inspected = looked over and not copied; only the inspection fee
inspection-text = Inspection fee
inspection-per-tape =
    { $tapes ->
        [one] for looking over a tape we don't copy
       *[other] for looking over each tape we don't copy
    }
inspection-per-box = once for the order, for looking over tapes we don't copy
canceled-text = Cancellation fee
canceled-because = { $price } for a whole order and { $percent }% of what was called off
