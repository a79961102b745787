# What the guided look-over and its drawings say.
heading = Look-over: { $title }
heading_short = A quick look: { $title }
step = Step { $n } of { $of }
last = What was found
light = Light: { $light }
careful = Careful
look_for = What to look for
nothing_to_find = Nothing to find here; go on when you're done.
source = How well this is known: { $source }
fine = Looks fine, next step   Space
done = Done, next step   Space
on = Next step   Space
back = Previous step   Backspace
other = Something else   F6
keys = A letter marks what you see; Space or Return goes on; Backspace goes back; Esc keeps it for later.
keep =
    { $count ->
        [0] Keep it: nothing found   Ctrl+Return
        [one] Keep 1 finding   Ctrl+Return
       *[other] Keep { $count } findings   Ctrl+Return
    }
nothing_found = Nothing found in { $looked } of { $of } steps.
so_far = Found so far: { $findings }.
none_so_far = Nothing found so far.
temperature = &How cold or hot was it, roughly? °C, or 40 F
temperature_place = temperature
temperature_hint = leave it empty if it is at room temperature
temperature_accepted = a temperature from −40 to 70 °C is accepted, like −5, or 40 F for Fahrenheit
change_harms = Safety: keep it away from people, machines and other tapes.
change_cannot = Outcome: not played here.
change_partly = Outcome: comes back only in part.
change_repair = Outcome: plays after a repair.
change_plays = Outcome: plays.
change_rights = Outcome: plays, but is not copied without the rights.
change_look = Outcome: nobody knows yet. We look at it first and ask.
change_reuse = Not for reuse.
change_price = Price: { $repairs }.
change_date = Date: { $minutes } at the bench.
say = To the customer: { $means }
above = from above
below = from below
lid_away = The lid faces away from you, as it goes into the deck.
edge_near = The thick edge faces you.
drawn = Shell sizes from the catalog; where the parts lie is from memory.
twice = drawn twice as large
part_shell = shell
part_window = window
part_screws = screws
part_protect = record-protect
part_lid = lid
part_latch = lid latch
part_tape = tape
part_release = reel release
part_hubs = hubs
lamp = light
lamp_room = The light of the room.
lamp_above = The light is above.
lamp_side = A flashlight shines from the side.
lamp_flat = The light comes in almost flat.
lamp_through = The light comes from behind.
where = { $form }: the { $part }, seen { $side }.
where_unknown = { $form }, seen from above and from below.
kept = { $title } is looked over: { $found }.
kept_nothing = nothing found
taken = Row { $row }, looked over: { $found }. Ctrl+Z takes it back.
need_format = Row { $row } has no format yet: fill in how many and the format, then look it over.
button = Look it over   Ctrl+L
