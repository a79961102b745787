# The form of the copies of an order.
window = Copies
head = { $n ->
        [0] Order { $number } for { $name } has no copies.
        [one] Order { $number } for { $name }: 1 copy
       *[other] Order { $number } for { $name }: { $n } copies
    }
list = Copies of the order
pieces = { $n } × { $copy }
does-not-fit = does not fit
drive = { $gb } GB, { $system }
drive-unknown = size and file system not known yet
on-it = { $n ->
        [one] 1 tape on it
       *[other] { $n } tapes on it
    }{ $files ->
        [0] {""}
        [one] , 1 file
       *[other] , { $files } files
    }{ $lacks ->
        [0] {""}
       *[other] , { $lacks } missing
    }; made by { $by }
until = until { $day }
drive-gigabytes = Size of their drive, in GB
drive-system = How it is formatted
drive-accepted = a number of gigabytes is accepted
link = Link for the customer
last-day = Last day (empty: in two weeks)
until-hint = Fri, Mar 20
reason = Why it is taken back
button-made = Made   { $keys }
button-checked = Checked   { $keys }
button-drive = Keep drive   { $keys }
button-link = Link given   { $keys }
button-deleted = Deleted   { $keys }
button-strike = Take back   { $keys }
open_button = Copies   { $keys }
esc = Return makes the copy, Return again checks it. Esc closes.
kept-made = Made: { $copy }.
kept-checked = Checked: { $copy }.
kept-drive = The drive is described: { $copy }.
kept-link = The link is given: { $copy }.
kept-deleted = Deleted: { $copy }.
kept-strike = Taken back: { $copy }.
to-be-written = The copies are to be written.
not-there = { $n ->
        [one] Not there yet: { $copies }.
       *[other] Not there yet: { $copies }.
    }
partly = “{ $copy }” holds only { $tapes }. The rest follows on another one, at no charge.
