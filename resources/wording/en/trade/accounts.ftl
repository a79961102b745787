# The books: how money came, the counted drawer, invoices, the journal.
method = how it was paid
methods = accepted: { $all }
method_words = { $method ->
        [cash] cash
        [card] card
        [transfer] transfer
        [voucher] voucher
        [other] something else
       *[untold] not said how
    }
kind-words = { $kind ->
        [deposit] deposit
        [part] part payment
        [refund] given back
        [rounding] rounding of cash
       *[balance] balance
    }
counted = what was counted
counted-bounds = from 0 to { $most } minor units are accepted
taken-out = what is taken out
taken-out-bounds = from 0 to { $most } minor units are accepted, no more than was counted
why-different = By the records { $expected } should be in the drawer. Count once more; if it stays different, say why in the note.
event-drawer = { $kind ->
        [close] day closed: { $money } counted in the drawer
       *[float] { $money } counted in the drawer
    }{ $given ->
        [0] {""}
       *[other] : { $note }
    }
drawer-counted = drawer counted
event-invoice = { $series ->
        [credit-note] credit note over { $money }
       *[invoice] invoice over { $money }
    }
invoice-words = { $series ->
        [credit-note] Credit note { $number }
       *[invoice] Invoice { $number }
    }
exempt = no tax charged
nothing-new = Order { $number } costs just what was invoiced, so there is nothing to invoice or to credit.
last-day = last day
not-before = a day that is not before the first is accepted

# Answers.
told-count = { $difference ->
        [0] { $counted } counted, as it should be.
       *[other] { $counted } counted, { $expected } by the records: { $is_short ->
            [yes] { $amount } short.
           *[no] { $amount } over.
        }
    }
told-out = { $left } stays in the drawer, { $out } was taken out.
told-now = By the records { $expected } is in the drawer: { $left } were left, { $came } came in, { $went } went out.
told-taken = { $method }: { $sum } in { $n ->
        [one] 1 payment
       *[other] { $n } payments
    }
told-sum = Taken from { $span }: { $sum }
told-none = Nothing was taken from { $span }.
told-invoiced = Invoiced: { $due }, of it { $net } before tax
told-tax = { $words }: { $amount } on { $base }
told-invoice = { $invoice } of order { $order }: { $due }
told-journal = { $n ->
        [one] 1 posting written: { $file }
       *[other] { $n } postings written: { $file }
    }

# The chapter of Shop.
never-counted = The drawer was never counted here. Count what lies in it now; from then on the program says what should be in it.
difference = { $difference ->
        [0] That is what should be in it.
       *[other] { $is_short ->
            [yes] { $amount } short. Count once more; if it stays, say why in the note.
           *[no] { $amount } over. Count once more; if it stays, say why in the note.
        }
    }
field-counted = Counted in the drawer
field-taken-out = Taken out to the bank or the safe
field-note = Note
count-float = Count the float (F6)
close-day = Close the day (F8)
was-counted = Counted. { $left } in the drawer.
was-closed = The day is closed. { $left } stays in the drawer.
head-taken = Taken and invoiced, { $span }
show-day = Today (Alt+D)
show-month = This month (Alt+M)
show-year = This year (Alt+Y)
write-journal = Journal as a file … (F7)
file-title = Where the journal goes
fact-taken = Taken
fact-all = In all
fact-rounding = Rounding of cash
fact-invoiced = Invoiced
fact-taxes = Taxes
fact-papers = Invoices and credit notes
more = { $n ->
        [one] 1 more before these
       *[other] { $n } more before these
    }
law = The program keeps records; which books must be kept, and for how long, is for local law and your accountant.
