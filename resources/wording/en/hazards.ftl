# Standing cautions, by their name.
blades = Blades: eye and hand protection; cut away from the hand.
springs = Lid and hub springs: eye protection when a shell is opened.
mould = Mold: breathing protection, gloves, a separate room and machine, wash afterwards; people with asthma or weak immunity stay away. Local rules on health and hazardous waste go first.
foil = End foil stops the machine: never splice metallized tape into the program (derived from SMPTE 35M-1997).
small = Very small screws, and a splice here is riskier to the machine than on VHS (trade: United Visual).
solvent = Isopropyl alcohol is flammable: ventilate, no flame; local rules on hazardous waste go first.
mains = Opened mains-powered decks: unplugged, and by someone qualified; local rules on electrical work go first.
