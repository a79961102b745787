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
