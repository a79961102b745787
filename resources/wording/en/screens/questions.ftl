# What the counter asks the customer, each answer, and what it means. $tape is a format with its marking.
named = { $format } { $marking }
recorded-as = { $tape }: was it recorded in a { $system } camcorder? The shell does not show it.
recorded-as-yes = yes, { $system }
recorded-as-no = no, { $system }
recorded-as-yes-means = about { $minutes } minutes when full; needs a { $system } machine
recorded-as-no-means = about { $minutes } minutes when full
origin = { $tape }: from a camcorder, or recorded from TV?
origin-camera = a camcorder
origin-camera-means = almost always standard play
origin-broadcast = television
origin-broadcast-means = often at a slower speed
speed = { $tape }: what speed does the label or the recorder show?
speed-sp = standard play, SP
speed-lp = long play, LP
speed-ep = the slowest, EP (also SLP)
speed-b1 = βI
speed-b2 = βII
speed-b3 = βIII
rate = { $tape }: at how many frames a second was it shot? The camera or the box may say.
speed-16fps = 16 frames a second
speed-18fps = 18 frames a second
speed-24fps = 24 frames a second, usual with sound
fill =
    { $count ->
        [one] { $tape }: how full is it?
       *[other] { $tape }: how full are they?
    }
fill-full = to the end
fill-most = half or more
fill-less = less than half
tv = { $tape }: where was it recorded?
tv-ntsc = in North America or Japan, NTSC
tv-pal = in Europe or most other countries, PAL
tv-doubted = { $tape }: { $marking } marking, { $box } order. Which is it?
tv-is-ntsc = NTSC
tv-is-pal = PAL
means-full = { $minutes } min when full
means-full-priced = { $minutes } min when full, order about { $price }
means = { $minutes } minutes each
