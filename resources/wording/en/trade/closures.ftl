# Days the shop is closed: refusals, and the lines about them in the history.

reason = reason
day = day
why_closed = say why the shop is closed
closed_already = The shop is already closed { $span }.
up_to_tomorrow = a day up to tomorrow is accepted; close later days by plan
open_day = a day the shop was to be open is accepted
holiday_stays = { $day } cannot be reopened: it is a public holiday ({ $holiday }).
not_closed = { $day } cannot be reopened: the shop is not closed then.
event_planned = closed by plan { $span }: { $reason }
event_closed = closed on { $day }: { $reason }
event_reopened =
    { $given ->
        [0] reopened { $span }
       *[other] reopened { $span }: { $reason }
    }
