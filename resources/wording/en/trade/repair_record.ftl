# Repairs on record: splices, what else was tried, the look afterwards. Refusals, and lines of the history.

# Splices.
splice_place = place of the splice
minutes_or_metres = either minutes or meters from the head are accepted
cut_length = centimeters cut away
cut_bounds = from 0 to { $most } is accepted
event_spliced = { $where ->
        [leader] spliced at { $place } in the clear leader, { $cm } cm cut away, joined with { $with }
       *[program] spliced at { $place }, { $cm } cm cut away, joined with { $with }
    }
event_splice_redone = { $where ->
        [leader] splice redone at { $place } in the clear leader, { $cm } cm cut away, joined with { $with }; no charge
       *[program] splice redone at { $place }, { $cm } cm cut away, joined with { $with }; no charge
    }
nothing_to_redo = Tape { $code } has no splice to redo. Record it as a new one.
at_metres = { $figure } m
at_minutes = { $figure } min
why_strike_splice = why the splice is struck out
event_splice_struck = splice at { $place } struck out: { $reason }
event_splice_struck_label = splice at { $place } struck out: { $reason }; the not-for-reuse label has to come off
no_splice_to_strike = Tape { $code } has no splice to strike out.
splice_struck_already = That splice on tape { $code } was already struck out. Open the tape again.

# The not-for-reuse label.
no_label_to_take_off = Tape { $code } has no label that has to come off.
event_label_off = the not-for-reuse label was taken off
needs_no_label = Tape { $code } has no splice, so it needs no label. Record the splice first.
event_label_on = the not-for-reuse label is on the tape

# Findings.
event_found =
    { $given ->
        [0] found: { $findings }
       *[other] found: { $findings }; { $note }
    }
why_clear = why the finding is cleared
no_such_finding = Tape { $code } has no finding “{ $finding }” to clear.
event_cleared = no longer { $finding }: { $reason }

# Other repairs.
repair = repair
accepted = accepted: { $names }
part = part
takes_parts = { $repair } takes { $parts }
takes_no_part = { $repair } takes no part
came_from = where the part came from
with_a_part = give it together with the part that was used
record_as_splice = A splice that held is recorded with its place and the length cut away (splice), so the customer learns what is gone. Record only a splice that failed here.
event_repair = { $how ->
        [held] { $repair }: done
       *[failed] { $repair }: failed
    }{ $part ->
        [none] {""}
       *[other] , with a donor’s { $part }
    }{ $whence ->
        [0] {""}
       *[other] {" "}from { $where }
    }{ $given ->
        [0] {""}
       *[other] ; { $note }
    }
why_strike_repair = why the repair is struck out
event_repair_struck = struck out ({ $repair }): { $reason }
no_repair_to_strike = Tape { $code } has no repair to strike out.

# The look afterwards.
note = note
nothing_to_look_at = Tape { $code } has had no repair, so there is nothing to look over again.
event_look = { $verdict ->
        [ok] looked over after its repair: it may go on
       *[again] looked over after its repair: has to be done again
    }{ $given ->
        [0] {""}
       *[other] ; { $note }
    }
nth = --nth
nth_accepted =
    { $count ->
        [0] the tape has no splice
       *[other] from 1 to { $count }
    }
