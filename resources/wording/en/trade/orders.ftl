# Orders: who brings the box, what was agreed and paid. Refusals, and the lines of the history.

customer_name = customer name
customer = customer
email = e-mail
phone = phone
needs_a_name = an order needs the name of the person who brings the box
tapes = tapes
number_of_tapes = an order has 1 to { $most } tapes
deposit = deposit
deposit_bounds = from 0 to { $most } minor units, the most the customer agreed to, is accepted
quote_ran_out = This quote was good until { $day }. Quote the box again, then book it.
event_booked =
    { $count ->
        [one] booked, 1 tape
       *[other] booked, { $count } tapes
    }
event_tape_booked = { $cold ->
        [yes] booked in, came in cold
       *[no] booked in
    }{ $findings ->
        [none] {""}
       *[other] ; found: { $findings }
    }
agreement = agreement
what_was_agreed = what was agreed
who_agreed = who agreed
what_and_who = say what was agreed and by whom
ceiling = most we may charge
amount_not_negative = an amount of zero or more is accepted
tax_exempt = why no tax is charged
event_agreed = { $who } agreed: { $what }
name = name
none = none
event_corrected = { $what } corrected: { $was } → { $now }

payment = payment
payment_kinds = accepted: { $kinds }
amount = amount
amount_bounds = from 1 to { $most } minor units are accepted
more_than_paid = Only { $paid } was paid on order { $number }, so we can't give back more.
why = why
note = note
why_refund = say why the money is given back
event_paid = { $kind ->
        [deposit] deposit of { $money }
        [part] part payment of { $money }
        [refund] refund of { $money }
        [rounding] rounding of cash: { $money }
       *[balance] balance of { $money }
    }{ $method ->
        [cash] , in cash
        [card] , by card
        [transfer] , by transfer
        [voucher] , by voucher
       *[other] {""}
    }{ $given ->
        [0] {""}
       *[other] : { $note }
    }

draft = draft
draft_name = a name of 1 to 80 letters is accepted
customer_changed_meanwhile = Somebody else corrected this customer while you were typing, so yours was not saved ({ $fields }). Look again, then decide.
field_clash = { $what }: now { $now }, yours { $yours }
no_refund = Nothing was given back of order { $number }.
no_pickup = Nothing of order { $number } was handed back yet.
tape = tape
