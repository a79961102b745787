# The Customer side: read by the owner of the tapes.
title = For the customer
welcome = Good to see you. Let us count your tapes together.
welcome_how = Price and day appear here as we go.
tape = Your tape
tapes = Your { $count } tapes
how = Nobody knows before playing them how much is on your tapes, so price and day are ranges. Each dot is one chance in twenty that everything is ready by that day.
booked = Thank you. We will take good care of them.
booked_how = Keep the slip with this number. Every tape comes back to you, counted one by one.
band_one = One of your tapes goes home with this mark.
band = { $count } of your tapes go home with this mark.
