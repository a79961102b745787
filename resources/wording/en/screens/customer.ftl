# The Customer side: read by the owner of the tapes.
logo = The shop’s logo
title = For the customer
welcome = Good to see you. Let us count your tapes together.
hours = We are open
closed_on = Closed on { $day }
call = Call us at { $phone }
tape = Your tape
tapes = Your { $count } tapes
tape-reel = Your reel of film
tapes-reel = Your { $count } reels of film
tape-box = Your box of pictures
tapes-box = Your { $count } boxes of pictures
tape-disc = Your disc
tapes-disc = Your { $count } discs
tape-thing = What you brought
tapes-thing = The { $count } items you brought
# The price: the most likely sum stands large below its heading, the range beneath.
price_likely = Most likely total
price_sure = Total
price_range = From { $low } to { $high }, depending on what is on your tapes
# Below the dots of the day.
dots = Each dot is one chance in 20 that everything is ready that day.
booked = Thank you. We will take good care of them.
booked_how = Keep the slip with this number. Every tape comes back to you, counted one by one.
booked_how_call = Keep the slip with this number. Every tape comes back to you, counted one by one. Questions? Call us at { $phone }.
band_one = One of your tapes will come back with this label.
band = { $count } of your tapes will come back with this label.
band_words = Not for reuse: please do not play it again
# Below the cassettes that are drawn.
drawn = { $count } × { $words }
drawn_not_here = not copied here, not charged
drawn_length = { $count ->
        [one] plays { $minutes }
       *[other] each plays { $minutes }
    }
# What is signed before it is booked.
sign_tapes = { $count } × { $words }
sign_name = { $name } signs here
# The ways to agree on the price, as the customer reads them.
ways = How would you like to pay for copying?
ways_foot = Choose what suits you: tell us, or touch it.
way_chosen = This is what you chose
way-by-play = You pay for what your tapes turn out to play. We won't go over { $limit } without asking you.
way-flat = You pay this and no more for copying, however long your tapes play. If anything else turns up, such as a repair, we ask you first.
way-play-first = We play your tapes first and tell you what is on each. Then you pick which ones we copy. We won't go over { $limit } without asking you.
way_flat_is = One price, agreed today
way_from = From { $amount }
way_first_is = Most likely { $amount } if you pick all of them
# What is too long for one page.
page = Page { $n } of { $all }
page-back = Back
page-next = Next
# Pickup.
pickup_head = { $count ->
        [0] Nothing is ready to go home yet
        [one] Your tape is ready to go home
       *[other] Your { $count } tapes are ready to go home
    }
pickup_done = Thank you. Enjoy watching!
pickup_order = Order { $number }, { $name }
pickup_counted = On the counter, counted
pickup_not_yet = Not counted yet
pickup_waiting = { $count ->
        [one] 1 more tape stays here until it is done.
       *[other] { $count } more tapes stay here until they are done.
    }
