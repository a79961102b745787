# What would help: a change to the shop, then what it would bring.
rush_order = as a rush order
another_deck = with another deck like { $deck }
deck_back = with { $deck } back in service
one_more_person = with one more person
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
