# What the shop believes of tapes and has learned of them, as its owner reads it.
about-system = what was recorded
about-tv = TV system
about-speed = recording speed
about-fill = how full
about-length = length of the cassette
whose-marking = full cassettes of unpublished length
whose-published = full cassettes of known length
whose-rule = full cassettes of a length read by rule
whose-rule-marking = full cassettes of a marking read by rule
whose-measured = reels of film
whose-counted = boxes of pictures
whose-told = full cassettes of told minutes
whose-any-tv = tapes marked for no TV system
whose-tv = tapes marked for { $tv }
whose-in-tv = { $format } ({ $tv })
fill-less = less than half full
fill-most = half full or more
fill-full = full to the end
longer = { $percent }% longer
shorter = { $percent }% shorter
no-longer = no longer
seen =
    { $tapes ->
        [one] { $count } of your last { $tapes } { $whose } was { $what }.
       *[other] { $count } of your last { $tapes } { $whose } were { $what }.
    }
unseen = No { $whose } has been played yet.
changed =
    { $tapes ->
        [one] With your newest tape, what customers bring started to look different, so what the shop assumes now rests on that tape.
       *[other] About { $tapes } tapes ago, what customers bring started to look different, so what the shop assumes now rests on the tapes since then.
    }
