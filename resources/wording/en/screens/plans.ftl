# What the Shop says of what it plans, what it reckons with, and the order of its boxes.
planned = What is planned
plan_lead = Plan days when a deck is out of service or the shop is closed. Every date is worked out again. A day the shop was closed without notice can be canceled here too; then it no longer counts.
nothing_planned = Nothing is planned.
what = What is not available
whole_shop = The whole shop
first_day = First day
last_day = Last day
last_day_hint = the same
day_needed = a day is needed
why = Why
why_hint = service; holiday
plan_it = Plan it   F6
take_back = Cancel it   F7
deck_out = { $deck } is out of service { $span }
shop_closed = Closed { $span }
on_day = on { $day }
from_to = from { $first } to { $last }
by_plan = planned
unplanned = without notice
expect_lead = Things happen that nobody can plan. Enter what you expect; what the shop counts corrects it more and more as time goes on. Enter 0 for never.
hours_between_failures = Hours of play between breakdowns of a deck
hours_to_repair = Hours until a deck is back, nights included
rush_boxes_a_week = Rush orders a week
tapes_in_a_rush_box = Tapes in a rush order
unplanned_closures = Days closed without notice, of 100 opening days
expect_keep = Save   F6
expect_ground = What you enter counts as much as one breakdown, four weeks of rush orders, or fifty opening days.
repairs_none = No deck has been repaired yet, so no time is expected.
repairs_of = { $count ->
        [0] No deck has been repaired yet.
        [one] 1 deck has come back.
       *[other] { $count } decks have come back.
    } We expect about { $hours } hours each time.
order_lead = In a different order, more orders may be ready sooner. No promised day becomes less likely than what the customer was told, or than it is now. Rush orders stay first.
order_as_came = Orders are in the queue as they came in.
order_set = The queue was rearranged; orders that came in later follow as they came.
order_look = Look for a better order   F6
order_stop = Stop looking   F6
order_put = Use this order   F7
order_back = Undo the last change   F8
order_looking = Looking: the whole queue is planned twice, and some hundred arrangements are tried.
order_stopped = The search was stopped.
order_none = We found no better order that keeps every promise as safe as now.
order_found = Rearranged, an order is ready { $days } sooner on average, and no promise gets less safe:
order_found_dates = Rearranged, more promises are kept, and none gets less safe:
order_more = And { $count } more orders.
order_kept = The queue is in the new order.
order_taken_back = The queue is back in the order before.
sooner = { $days } sooner
later = { $days } later
one_day = 1 day
some_days = { $days } days
order_promise = promised for { $day }, { $will }; now { $was }
order_promise_same = promised for { $day }, { $will } as now
service = Service
service_pace = A deck plays { $hours } hours a day here, so it is time to:
clean = clean path, drum, heads and belts every { $hours } hours of play, about every { $often } — { $source }
inspect = have it inspected every { $hours } hours, about every { $often } — { $source }
heads = check for worn heads or a worn upper drum after { $hours } hours, about every { $often } — { $source }
a_month = month
months = { $count } months
years = { $count } years
rush_counted = { $boxes ->
        [one] 1 rush order
       *[other] { $boxes } rush orders
    } in { $weeks ->
        [one] 1 week
       *[other] { $weeks } weeks
    }. { $stage ->
        [early] We start counting after { $least } weeks.
        [none] We expect none.
       *[some] We expect { $weekly } a week at this time of year.
    }
rush_tapes_counted = { $tapes ->
        [one] 1 tape
       *[other] { $tapes } tapes
    } in { $boxes ->
        [one] 1 rush order
       *[other] { $boxes } rush orders
    }.{ $stage ->
        [none] {""}
       *[some] {" "}We expect { $each } in each.
    }
closures_counted = Closed on { $shut } of { $days ->
        [one] 1 opening day
       *[other] { $days } opening days
    }. { $stage ->
        [none] We expect none.
       *[some] We expect { $share } in 100.
    }
source-clean = PALsite maintenance, Betamax (trade)
source-inspect = LG service manual TL-AT130M, home use (manufacturer)
source-heads = PALsite maintenance (trade)
