# The Customer side: read by the owner of the tapes.
logo = The shop’s logo
title = For the customer
welcome = Good to see you. Let us count your tapes together.
welcome_how = The price and the day show up here as we go.
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
how = Nobody knows how much is on your tapes until they are played, so the price and the day are ranges. Each dot is one chance in 20 that everything is ready by that day.
how_flat = Nobody knows how much is on your tapes until they are played, so the day is a range. The price is not: it stays as it is. Each dot is one chance in 20 that everything is ready by that day.
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
