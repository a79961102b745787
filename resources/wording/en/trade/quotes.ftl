# What a quote says besides its figures, and what it does not accept.

tapes = number of tapes
way = the way the price is agreed
most_tapes = up to { $most } tapes fit on one order; split the box into several orders

no_date = No date can be given: { $reasons }.
came_in_cold =
    { $hours ->
        [one] The box came in cold. It rests { $hours } hour before it plays, so no moisture forms on the tape.
       *[other] The box came in cold. It rests { $hours } hours before it plays, so no moisture forms on the tape.
    }
other_currency = { $book } is priced in { $theirs }, but the shop's currency is { $ours }.

about_tapes = { $count } × { $format }: { $sentence }
read_by_rule = We don't list { $marking }, so its length was read from the marking by rule: about { $metres } m, or { $minutes } minutes at { $system } { $speed }.
told_minutes = Its length was read by rule from "{ $marking }", taken as the whole cassette: about { $metres } m, or { $minutes } minutes at { $system } { $speed }.
tv_doubted = { $marking } is a { $made_for } marking, but this order says { $box }. A full tape runs { $theirs } minutes in { $made_for } and { $ours } in { $box }. Please tell us which it is; until then, price and day allow for both.
overlong = This could play longer than the shop is open in a day and run past closing.

needed_earlier = Needed by { $wanted }, but the earliest day we can promise is { $promised }: { $chance } of being ready by { $wanted }.
needed_no_date = Needed by { $wanted }, but we can't promise a date: { $chance } of being ready by then.
rush_no_date = We couldn't promise a date for a rush order either.
rush_no_earlier = A rush order wouldn't be ready any sooner.
rush_not_needed = Rush isn't needed: without it the order would be ready by { $day } as well, for about { $less } less.
rush_not_needed_yet = Rush isn't needed: without it the order would be ready by { $day }, in time, for about { $less } less.
rush_gains =
    { $days ->
        [one] Without rush the order would be ready by { $day }, 1 day later, for about { $less } less.
       *[other] Without rush the order would be ready by { $day }, { $days } days later, for about { $less } less.
    }
rush_pushes =
    { $n ->
        [0] Rush pushes nobody else's date.
       *[other] Rush pushes { $orders }.
    }
rush_pushes_order = order { $number } (promised for { $day }: { $was } now, { $will } then)
rush_earlier = As a rush order it would be ready by { $day }, for about { $more } more.

# Copies that could be had for less. $other and $now are pieces of the price book.
instead = { $other } instead of { $now } would save about { $amount }
instead-tax = { $other } instead of { $now } would save about { $amount }, before tax
shared = several short tapes on one disc, { $other } instead of { $now } would save about { $amount }
shared-tax = several short tapes on one disc, { $other } instead of { $now } would save about { $amount }, before tax
layered = discs of two layers for the long tapes, { $other } instead of { $now } would save about { $amount }
layered-tax = discs of two layers for the long tapes, { $other } instead of { $now } would save about { $amount }, before tax
files = { $other } with H.264 files instead of { $now } (for a computer or a television, not a DVD player) would save about { $amount }
files-tax = { $other } with H.264 files instead of { $now } (for a computer or a television, not a DVD player) would save about { $amount }, before tax
pieces = { $count } × { $what }
