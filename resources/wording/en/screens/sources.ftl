# Names of the figures whose sources the owner may look up.
mm_apart_mm_back = { $apart } mm apart, { $from_back } mm from the back
reels_drawn = reels of { $words }, as drawn
hub_radius = hub radius
tape_thickness = tape thickness
tape_m_may = { $words } tape of { $value } µm may be
track_along_tape = track along the tape{ $value }
edge_reel = edge of the reel
any_shell = { $repair }
small_shells = { $repair }, small shells
min_likely = { $low } to { $high } min, likely { $likely }
# Where a figure comes from, and how much that is worth.
by-neighbors = as in { $names }, the nearest listed ones
length-by-rule = Length of { $first } to { $last }
with-mark = { $source } ({ $mark })
mark-standard = standard
mark-standard-2nd-hand = standard, second hand
mark-handbook = handbook
mark-manufacturer = manufacturer
mark-trade = trade
mark-common-practice = common practice
mark-from-memory = from memory
mark-derived = derived
mark-invented = invented
sectors = { $n } sectors
shell_of = shell, { $words }
microns = { $low } to { $high } µm
