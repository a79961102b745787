# The date of a box. First: what holds it up, one clause each; joined by semicolons.
# $what is what the tape is to a deck: VHS, Video8 or Hi8. $often is "15 times in 20".
decks =
    { $decks ->
        [one] only one deck plays { $what }, and the last tape finishes there
       *[other] { $decks } decks play { $what }, and the last tape finishes on one of them
    }
decks_often =
    { $decks ->
        [one] only one deck plays { $what }, and { $often } the last tape finishes there
       *[other] { $decks } decks play { $what }, and { $often } the last tape finishes on one of them
    }
already_waiting =
    { $n ->
        [one] 1 tape is already waiting to be played there
       *[other] { $n } tapes are already waiting to be played there
    }
bench = the last tape has to be looked over or repaired first
bench_often = { $often } the last tape has to be looked over or repaired first

confined_work =
    { $least ->
        [one] { $play } can only play on { $decks }: that takes at least 1 opening day, and the date allows { $allowed }
       *[other] { $play } can only play on { $decks }: that takes at least { $least } opening days, and the date allows { $allowed }
    }
hours_of_tape =
    { $n ->
        [one] about 1 hour of tape
       *[other] about { $n } hours of tape
    }
these_decks =
    { $n ->
        [one] one deck
       *[other] { $n } decks
    }
overnight = { $often } the last tape waits overnight, because it would not end before we close
overlong =
    { $n ->
        [one] 1 tape plays longer than we are open: it starts when we open and is still running after we close
       *[other] { $n } tapes play longer than we are open: they start when we open and are still running after we close
    }
closed_on = we are closed on { $days }
closed_day = { $day } ({ $why })
more_days =
    { $n ->
        [one] 1 more day
       *[other] { $n } more days
    }
deck_away = { $deck } broke down, and we expect it back in about { $hours } hours
# How dates are moved by what became of earlier promises, to the owner. $percent is how much of the time we would
# have planned new dates allow (112, or 95); $more the same for an order of $big tapes.
moved_none = Each promise that comes due moves new dates a little, so that what we say comes true; none has come due yet, so dates are just as planned.
moved =
    { $percent ->
        [100] Each promise that comes due moves new dates a little, so that what we say comes true; after { $n } of them dates are just as planned.
       *[other] Each promise that comes due moves new dates a little, so that what we say comes true; after { $n } of them new dates allow { $percent }% of the planned time.
    }
moved_by_size = Each promise that comes due moves new dates a little, so that what we say comes true; after { $n } of them new dates allow { $percent }% of the planned time, and { $more }% for an order of { $big } tapes.
runs_late = orders have been running late, so we plan { $percent } more time than usual

backlog-decks =
    { $decks ->
        [one] more comes in than this deck can play, about { $coming } hours a week against { $going }, so the line keeps growing
       *[other] more comes in than these { $decks } decks can play, about { $coming } hours a week against { $going }, so the line keeps growing
    }
backlog-people = more comes in than the people at the bench can handle, about { $coming } hours of work a week against { $going }, so the line keeps growing
backlog-shop = more comes in than we get to play, about { $coming } hours a week against { $going }, so the line keeps growing
no_hours = we have no opening hours in the next { $days } days
no_date = no date can be promised within { $days } days: { $chance } of being ready by then
left_out =
    { $n ->
        [one] { $why }: 1 tape is left out of the date
       *[other] { $why }: { $n } tapes are left out of the date
    }
set_aside =
    { $n ->
        [one] 1 tape is set aside and left out of the date
       *[other] { $n } tapes are set aside and left out of the date
    }

# Why a tape has no deck, or may have the wrong one.
no_deck_at_all = every deck is out of service
not_priced = We have no price for { $what } yet, so we cannot take it in today.
not_here_plays = No machine of ours plays { $what }, so we can't copy it here and don't charge for it.
not_here_plays_tv = No machine of ours plays { $what } in { $tv }, so we can't copy it here and don't charge for it.
not_here_plays_speed = No machine of ours plays { $what } at { $speed }, so we can't copy it here and don't charge for it.
partner_takes =
    { $days ->
        [one] { $partner } can copy it, in about 1 day.
       *[other] { $partner } can copy it, in about { $days } days.
    }
partner_takes_priced =
    { $days ->
        [one] { $partner } can copy it, in about 1 day, at their own price: { $price }.
       *[other] { $partner } can copy it, in about { $days } days, at their own price: { $price }.
    }
no_deck_plays = no deck in service plays { $what }
no_deck_plays_tv = no deck in service plays { $what } in { $tv }
no_deck_plays_speed = no deck in service plays { $what } at { $speed }
nobody =
    { $work ->
        [splice] nobody who can splice and repair is here while we are open
        [load] nobody who can load decks is here while we are open
        [check] nobody who can check copies is here while we are open
       *[look] nobody works at the bench while we are open
    }
no_single_deck = no single deck in service plays { $what }; the first deck tried may be the wrong one

# What is less good in the shop than when the date was promised.
out_now =
    { $n ->
        [one] { $decks } is out of service
       *[other] { $decks } are out of service
    }
fewer_people =
    { $now ->
        [one] one person is at the bench; there were { $then } then
       *[other] { $now } people are at the bench; there were { $then } then
    }
fewer_hours = we are open { $now } hours a week; it was { $then } then
person_gone = { $who } no longer works at the bench
person_fewer_hours = { $who } is here { $now } hours a week; it was { $then } then
person_other_hours = { $who } is here at other times than before
person_cannot =
    { $work ->
        [splice] { $who } no longer splices and repairs
        [load] { $who } no longer loads decks
       *[check] { $who } no longer checks copies
    }
more_tapes = { $now } tapes are waiting in the shop; there were { $then } then

# What would help: a change to the shop, then what it would bring.
rush_order = as a rush order
another_deck = with another deck like { $deck }
deck_back = with { $deck } back in service
one_more_person = with one more person
always_here = with { $name } here whenever we are open
open_longer = open an hour longer
play_longer = letting tapes run an hour longer after closing
deck_breaks_down = if { $deck } broke down

sooner =
    { $days ->
        [one] { $change }: orders ready 1 day sooner on average
       *[other] { $change }: orders ready { $days } days sooner on average
    }
# $saved of the $endangered promised dates would be safe again.
dates_hold =
    { $endangered ->
        [one] { $sooner }; the date at risk would hold
       *[other] { $sooner }; { $saved } of { $endangered } dates at risk would hold
    }

# Days the shop is open, and days that are planned.
closed = closed
moment = moment
moment_accepted = a time with its offset is accepted
last_day = last day
day_not_before = a day not before the first one is accepted
day_from_today = a day from today on is accepted
day_within = a day within { $days } days is accepted; no date is worked out beyond that
holidays_of_shop = holidays of the shop
holidays_accepted = a country (ISO 3166, like US) and one of its states or provinces are accepted
