# Days, lengths, amounts and chances in words; their digits and order come from the locale.
range = { $low }–{ $high }
between = { $low } to { $high }
hours = { $n } h
minutes = { $n } min
# Play time to the second: 28:05, and 1:58:24 from an hour on. The figures come written, minutes and seconds with two digits.
clock = { $minutes }:{ $seconds }
clock-hours = { $hours }:{ $minutes }:{ $seconds }
since_now = just now
since_minutes = for { $n } min
since_hours = for { $n } h
since_days =
    { $n ->
        [one] for { $n } day
       *[other] for { $n } days
    }
on_day = on { $day }
from_day_to_day = from { $first } to { $last }

# $times is a chance counted in twenty, rounded down: 0 to 19. The same words on every screen, paper and phone.
chance =
    { $times ->
        [0] less than 1 chance in 20
        [1] 1 chance in 20
       *[other] { $times } chances in 20
    }
# How often something holds a date up.
often =
    { $times ->
        [0] less than once in 20
        [1] once in 20
       *[other] { $times } times in 20
    }
