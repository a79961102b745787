# The slip on the Counter and on the Customer side.
empty = Count the tapes in the box, and the slip fills in as you go.
opening = The day shows up with the first tape.
quoted = Quoted { $day }, good until { $until }
booked = Booked { $day }
number = Order { $number }
net = Before tax
price = Total
price_likely = Most likely
between = between { $low } and { $high }
total = With tax
rounding = Rounding
ceiling = We won't go over { $amount } without asking you.
deposit = Deposit today { $amount }.
paid = Deposit paid { $amount }, with thanks.
ready_by = Ready by
sooner = Maybe as early as { $day }.
that_day = That's the day we expect it.
more =
    { $count ->
        [one] 1 more line
       *[other] { $count } more lines
    }
no_day = No day can be promised yet
kept = { $times } of being ready by then.
working = Working out the day …
held = What holds it: { $reasons }.
later = later
dots = Twenty dots, each one chance in 20: { $counts }. Promised: { $day }.
dots_none = No day can be shown yet.
on_day = { $count } on { $day }
on_later = { $count } later
name = Slip
charges = Charges
days = Days
apart = { $count } × { $format }: not copied here
apart_nobody = none of our machines plays it
apart_partner =
    { $days ->
        [one] { $partner } can copy it, in about 1 day
       *[other] { $partner } can copy it, in about { $days } days
    }
apart_priced =
    { $days ->
        [one] { $partner } can copy it, in about 1 day: { $price }
       *[other] { $partner } can copy it, in about { $days } days: { $price }
    }
price_flat = Flat price
flat = That's for everything, however long your tapes play. If anything else turns up, such as a repair, we ask you first.
play_first = We play your tapes first, then you pick. If you pick none, you pay { $fee }. We won't go over { $amount } without asking you.
or_by_play = Or pay by what plays: { $between }, and never over { $amount } without asking you.
or_all = Or have all of them copied, at the same prices.
or_flat = Or a flat price: { $amount }, however long your tapes play.
or_play_first = Or we play them first and you pick: from { $fee }.
