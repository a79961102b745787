"""A format that does not exist, as the one file somebody would add: a small shell with one speed."""

from __future__ import annotations

NAME = "pebble"
MM_S, METRES, TRACK_MM = 12.0, 32.4, 30.0
HUB_MM, THICKNESS_UM = 6.0, 8.0

FILE = """
counter_place = 135
systems = { pebble = 1.0 }
sides = 1
bench_times = "small"
hazards = ["small"]
shells = [{ mm = [52, 36, 9], source = "made up for a test", mark = "invented" }]
speeds = [{ speed = "sp", mm_s = 12.0, source = "made up for a test", mark = "invented" }]
footprints = [{ mm = 30.0, source = "made up for a test", mark = "invented" }]
tape_width = { value = 5.0, source = "made up for a test", mark = "invented" }
priced_like = "minidv"

[habits]
fill = "camera"
speeds = { any = { sp = 1.0 } }
usual = { any = { PB-45 = 0.9, PB-30 = 0.1 } }

[words]
name = "Pebble"
sizes = ["Pebble"]
opening = ["Nobody opens it."]
protect = "There is none."
plays = ["A Pebble camcorder."]
lid = ["Leave the pebble shut."]
reels = ["Turn the pebble over."]

[look.lid]
part = "lid"

[silhouette]
windows = [[0.2, 0.2, 0.6, 0.4]]
hubs = [[0.35, 0.4, 0.13], [0.65, 0.4, 0.13]]

[drawing.parts]
hubs = [
  { x = 0.3, y = 0.6, wide = 0.14, deep = 0.2, side = "below", is_round = true },
  { x = 0.7, y = 0.6, wide = 0.14, deep = 0.2, side = "below", is_round = true },
]
window = [{ x = 0.5, y = 0.6, wide = 0.6, deep = 0.4, side = "above" }]

[pack]
usual = "PB-45"
reel_radius = { value = 14.0, source = "made up for a test", mark = "invented" }
reels_drawn = { apart = 22.0, from_back = 16.0, source = "made up for a test", mark = "invented" }

[pack.hubs]
only = { value = 6.0, source = "made up for a test", mark = "invented" }

[pack.thicknesses.only]
nominal = { value = 8.0, source = "made up for a test", mark = "invented" }
span = { thin = 7.5, thick = 8.5, source = "made up for a test", mark = "invented" }

[[lots]]
sold_as = ["pebble"]
nominal = { system = "pebble", speed = "sp" }
cassettes = [
  { name = "PB-30", minutes = 30, hub = "only", thickness = "only" },
  { name = "PB-45", minutes = 45, hub = "only", thickness = "only" },
]
"""
