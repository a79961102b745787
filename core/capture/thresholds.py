"""Where a picture counts as black, blue or frozen, and a sound as silent; each value with reason and mark.

Levels of pictures are those of 8-bit RGB (0 to 255), after the picture was scaled down by area, which
averages most of the noise of an analogue recording away.
"""

from __future__ import annotations

SMALL_WIDTH, SMALL_HEIGHT = 64, 48
"""Size every looked-at picture is scaled down to. A choice: 4:3, and whole blocks of `BLOCK`. (own choice)"""

BLOCK = 4
"""Side of the blocks in which two small pictures are compared: 16 × 12 blocks, so that somebody's moving
hand still fills one, while noise averages out. (own choice)"""

SAMPLE_SECONDS = 0.25
"""How far apart pictures are looked at; ends of stretches are then found to the frame. (own choice)"""

BLACK_MEAN = 32.0
"""Mean luma below which a picture may be black. Set-up of NTSC black, 7.5 % (SMPTE 170M, from memory), is
19 of 255; tape noise and a badly set capture add a few levels. (derived)"""

BLACK_BRIGHTEST = 56.0
"""A candle in a dark room is brighter than this somewhere: 98 in 100 points must stay below. (own choice)"""

BLUE_LEAST = 90.0
"""A deck's blue without a signal is saturated; usual ones are 140 to 255 in blue.
(common practice, no source)"""

BLUE_RED_MOST, BLUE_GREEN_MOST = 0.45, 0.50
"""Most red and green beside blue. A sky has more green than half of its blue. (own choice)"""

BLUE_SHARE = 0.80
"""Share of the picture that must be so; the rest may be the deck's own lettering. (own choice)"""

BLUE_EVEN = 14.0
"""Most spread (standard deviation) of the blue; a dusk sky shades off further. (own choice)"""

FROZEN_MOST = 3.0
"""Most change of any block between two pictures that count as the same. Tape noise on one block of an SD
picture is well below 1 level, of a picture of 160 × 120 up to 2. (derived, own choice)"""

GRAIN_BLOCK = 8
"""Side, in points of the full picture, of the blocks in which its noise is looked for: the transform block
of MPEG-2, MPEG-4 part 2 and DV, which an encoder repeats whole or draws anew. (own choice)"""

HELD_MOST = 0.1
"""Most change, as the spread within a block averaged over the blocks, of a picture that repeats another. A
held picture settles below 0.06 within half a group of pictures; noise of 1.25 levels, 45 dB below the signal
and better than a home deck's (from memory), leaves 0.17 at least after MPEG-4 part 2, MPEG-2 and H.264 from
2 to 8 Mb/s. (measured on generated clips)"""

HELD_SHARE = 1 / 3
"""Least share of pictures over two steps of sampling, half a second, that repeat the one before. MPEG-2
starts a held picture anew with every twelfth and needs up to six to settle, while an encoder short of bits
leaves out single pictures of a noisy one. (measured on generated clips)"""

SILENT_DBFS = -50.0
"""Loudness (RMS of a window, direct current taken off, loudest channel) below which nothing was recorded.
The hiss of a linear VHS track lies about 40 to 45 dB below full level, and captures leave head-room, so
hiss without a recording is below this. (common practice, no source)"""

SOUND_WINDOW_SECONDS = 0.05
"""Length over which loudness is taken: twenty a second. (own choice)"""

LEAST_SECONDS = {"black": 2.0, "blue": 2.0, "frozen": 4.0, "silent": 4.0}
"""Shorter stretches are part of any recording: a cut, a pause, a held breath. (common practice, no source)"""

BRIDGED_SECONDS = 0.5
"""A flash of noise this short does not end a stretch. (own choice)"""

KEPT_BLANK_SECONDS = 1.0
"""Blank left before the first and after the last picture when the ends are trimmed. (own choice)"""

INNER_BLANK_SECONDS = 60.0
"""Blank of this length inside a recording stays in the file but is not charged for. (own choice)"""

SOUND_PARTLY_SECONDS = 10.0
"""A picture without sound for this long in one go is told to a person. (own choice)"""

SOUND_MISSING_SHARE = 0.98
"""Share of the picture without sound from which the sound is missing altogether. (own choice)"""

ENDS_EARLY_SECONDS = 1.0
"""A file that ends this much before the length it claims was cut off. (own choice)"""

GAP_SECONDS = 0.2
"""A jump of the file's clock from one picture or sound to the next by more than this: something is lost.
A capture card that drops a picture or two is below it. (own choice)"""
