# Dates that were promised: refusals, and the lines about them in the history.

reason = reason
why_new_day = say why the day changes
agreed_with = who was told
nothing_to_promise = Everything on order { $number } is ready or gone home; there is nothing left to promise.
no_date = We can't promise a date for order { $number }: { $reasons }.
day = day
open_day = a day from today on, when the shop is open, is accepted
event_new_day =
    { $given ->
        [0] new date promised, { $day }: { $reason }
       *[other] new date promised, { $day }: { $reason }; told to { $told }
    }
event_ready = everything on this order is ready
