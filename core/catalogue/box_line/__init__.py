"""One line for an order: “5 vhs t120, 3 vhs-c, hi8 snapped” read into rows, and rows written as such a line.

Pure. Its words are those of the catalogue and of the wording file ``box_line``, so that a language brings its
own. Every character of a line is accounted for: taken as something, or told where it stands.
"""
