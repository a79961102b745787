# The shelf of donor parts, as its owner sees it on the Shop screen.
lead = Shells, reels, lids, and screws from donor cassettes: what we have, where it came from, and which tapes the parts went into. A part fits only cassettes of its own format.
places = In stock
nothing = No parts in stock yet.
place = { $format } { $part }
count = { $count } left
none_left = none left
from = from { $where }
from_nobody = source unknown
used = used in { $tapes }
used_failed = { $tape } (did not hold)
right = Wrong count?
really = Actual count
because = Reason
because_hint = two were cracked; counted on Friday
put_right = Correct the count   F6
more = Add parts
format = Cassette
part = Part
how_many = How many
came_from = Where they come from
came_from_hint = a flea-market T-120
put = Add   F7
whole_number = a whole number is accepted
choose_place = choose a part from the list first
none_chosen = no part chosen
lately = Recent changes
line = { $when } · { $by }: { $words }
is_right = { $format } { $part }: the count is now { $count }.

# Refusals, and the lines about the shelf in the history.
place_count = count
place_came_from = where the parts came from
why_correct = why the count is corrected
count_to_add = from 1 to { $most } parts are accepted
count_there = from 0 to { $most } parts are accepted
none_left_to_use = There is no { $format } { $part } left on the shelf. Put one on the shelf first (donors --add { $typed_format } { $typed_part } N), or record that the part came from elsewhere.
never_there = No { $format } { $part } from this place was ever on the shelf, so there is no count to correct. Put it on the shelf instead.
counted_already = The shelf already counts { $count } × { $format } { $part }.
event_put = { $whence ->
        [0] { $count } × { $format } { $part } put on the shelf
       *[other] { $count } × { $format } { $part } from { $where } put on the shelf
    }
event_used = 1 × { $format } { $part } taken off the shelf
event_left = { $left } × { $format } { $part } on the shelf
event_put_back = 1 × { $format } { $part } put back on the shelf
event_corrected = { $whence ->
        [0] { $format } { $part }: { $count } on the shelf, not { $before }: { $reason }
       *[other] { $format } { $part } from { $where }: { $count } on the shelf, not { $before }: { $reason }
    }
