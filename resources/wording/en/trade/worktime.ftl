# What the history shows of the shop's work, as its owner reads it.
about-look_over = looking a tape over
about-repair = repairs
about-load = loading a tape
about-unload = unloading a tape
about-check = checking a copy
about-copy = making a copy
about-person = { $who }
about-again = played again
about-late = start of work
about-break = break
about-wait-at-the-bench = at the bench
about-wait-asking-the-customer = owner's answer
about-weekdays = orders by weekday
about-months = orders by month
effort-minutes =
    { $minutes ->
        [one] Takes { $now } minute ({ $low } to { $high } is likely); you stated { $stated }.
       *[other] Takes { $now } minutes ({ $low } to { $high } is likely); you stated { $stated }.
    }
effort-whole = Takes { $now } minutes for each minute that a copy plays ({ $low } to { $high } is likely); you stated 1.
effort-times = Takes { $now } times as long as planned ({ $low } to { $high } is likely).
effort-none = Planned as stated: { $stated }. Too few times are known to say more.
effort-none-planned = Taken as planned. Too few times are known to say more.
told =
    { $seen ->
        [one] { $told } of 1 recorded time looks like work without a stop.
       *[other] { $told } of { $seen } recorded times look like work without a stop.
    }
person = Takes { $now } times as long as the others ({ $low } to { $high } is likely).
again =
    { $tapes ->
        [one] { $again } of 1 tape went on a deck a second time; dates reckon with { $share }.
       *[other] { $again } of { $tapes } tapes went on a deck a second time; dates reckon with { $share }.
    }
again-none =
    { $tapes ->
        [0] No tape has been played yet; until { $least } have been, dates reckon with no second play.
       *[other] { $again } of { $tapes } so far; until { $least } tapes have been played, dates reckon with no second play.
    }
late =
    { $days ->
        [one] About { $minutes } minutes after opening, by 1 busy day.
       *[other] About { $minutes } minutes after opening, by { $days } busy days.
    }
late-none =
    { $days ->
        [0] No busy day yet: work is planned from opening time.
        [one] At opening time, by 1 busy day.
       *[other] At opening time, by { $days } busy days.
    }
break = From { $begin } to { $end }: hardly anything is recorded then.
break-none = None is seen: work is planned for all of the opening hours.
wait =
    { $ended ->
        [0] None has ended yet; { $hours } hours are assumed.
        [one] { $hours } hours on average, by 1 tape. No date rests on it.
       *[other] { $hours } hours on average, by { $ended } tapes. No date rests on it.
    }
arrivals =
    { $orders ->
        [one] 1 order. On an opening day: { $days }. No date rests on it.
       *[other] { $orders } orders. On an opening day: { $days }. No date rests on it.
    }
arrivals-part = { $part } { $a_day }
