# What is kept of a customer, and how it is taken out.
customer = customer
one-customer =
    { $n ->
        [0] an order number, a phone number or the whole name of somebody who was here is accepted
       *[other] { $n } customers match; an order number says which one is meant
    }
erased-name = (erased)
event =
    { $n ->
        [one] a customer was erased; 1 order stays without a name
       *[other] a customer was erased; { $n } orders stay without a name
    }
still-open =
    { $n ->
        [one] Order { $orders } is still open. Erase this customer once everything was handed back.
       *[other] Orders { $orders } are still open. Erase this customer once everything was handed back.
    }
still-owing =
    { $n ->
        [one] Something is still owed on order { $orders }. Settle it first, then erase this customer.
       *[other] Something is still owed on orders { $orders }. Settle it first, then erase this customer.
    }
not-sound = The records don't agree with their history, and erasing would hide that: { $problem } Nothing was erased.
paper-stays = The records hold the name no longer, but { $path } could not be removed: { $why }. Remove it yourself.

# The page on what is kept, one entry after the other: what, why, how long.
title = What we keep about you, and for how long
about = { $name } keeps what is listed here, on its own computer and in its backups. The program sends none of it to anybody.
rights = You may ask for a copy of all we keep about you, and you may ask us to erase you. Orders that are still here or unpaid come first. Local law may make us keep invoices for some years; where it does, it goes first.
head-what = What
head-why = Why
head-long = How long
made-on = As of { $day }
kept-customer = Name, phone, and email
kept-customer-why = To know whose tapes they are, and to call.
kept-customer-long = Until the customer is erased.
kept-orders = Orders: the tapes, what is written on them, what was found and done
kept-orders-why = To work on them, and to answer questions later.
kept-orders-long = What is written on the tapes and every note: until the customer is erased. Formats, minutes, and what was done stay, without a name.
kept-money = Quotes, payments, and totals
kept-money-why = The books of the shop, and tax law.
kept-money-long = They stay; once the customer is erased, without a name.
kept-agreements = What was agreed, by whom, and signatures
kept-agreements-why = To prove what was agreed on and what was given back.
kept-agreements-long = Names, words, and signatures: until the customer is erased. Sums and dates stay.
kept-calls = Calls, messages, and who may collect
kept-calls-why = So that whoever picks up the phone knows.
kept-calls-long = Until the customer is erased.
kept-history = The history of each order, line by line
kept-history-why = To show that nothing was altered.
kept-history-long = The words: until the customer is erased. That something happened, when, and who in the shop did it stays.
kept-papers = Papers as files: quotes, claim slips, receipts
kept-papers-why = To print them again.
kept-papers-long = Until the customer is erased, in the shop's own folder and wherever this computer wrote them to.
kept-paper-places = Which folders, on which computers, papers of an order were written to
kept-paper-places-why = To find every paper again when the customer is erased.
kept-paper-places-long = Until the customer is erased. Papers in folders of this computer are removed; what lies on another computer is named, so that somebody can remove it there.
kept-photos = Photos of lost or damaged tapes
kept-photos-why = For the owner of the tape and the insurer.
kept-photos-long = Until the customer is erased.
kept-recordings = What a recorded file holds: its length, size, and checksum
kept-recordings-why = To show later that a copy is the one handed over.
kept-recordings-long = The name of the file: until the customer is erased. The files themselves are not kept in the records.
kept-drafts = What is typed at the counter and not booked yet
kept-drafts-why = So that a power cut costs seconds.
kept-drafts-long = Until it is booked or thrown away.
kept-shop-notes = Notes about decks, closed days, and donor parts
kept-shop-notes-why = To plan the work of the shop.
kept-shop-notes-long = They stay, because they are about the shop. Nobody is asked for a customer there; where a whole name or a phone number stands all the same, it is taken out when the customer is erased.
kept-exports = That a customer's data were saved to a file, and where
kept-exports-why = To tell where a copy may lie.
kept-exports-long = Until the customer is erased. The file itself was given out and is not ours to remove.
kept-backups = Backups of all of this
kept-backups-why = So that nothing is lost.
kept-backups-long =
    { $places ->
        [0] None are made by the program. Backups somebody made by hand keep what was erased until they are removed.
       *[other] The newest { $keep } in each place, and the last of each day, week, and year, { $days } days, { $weeks } weeks, and { $years } years back. { $made ->
            [0] There are none yet.
           *[other] Whoever is erased today is still in some of them until { $until }, or until all backups are made anew at once. A backup from before that is put back is erased of them again.
        }
    }
kept-log = A log of failures of the program
kept-log-why = To mend it.
kept-log-long = It holds no names, phone numbers, or records. It may be removed at any time.

# Answers.
erased =
    { $n ->
        [0] Erased.
        [one] Erased. 1 order stays without a name.
       *[other] Erased. { $n } orders stay without a name.
    }
files-removed =
    { $n ->
        [one] 1 paper or photo was removed.
       *[other] { $n } papers and photos were removed.
    }
in-backups = Backups made before still hold the name. The last of them is thinned out by { $until }; to have them gone now, make all backups anew.
no-backups = No backup that the program made holds the name.
by-hand = Backups somebody made by hand hold it until they are removed.
copies-hold = { $n ->
        [one] This copy, made before an update or a restore, still holds the name: { $files }. It goes when all backups are made anew, or remove it yourself.
       *[other] These copies, made before updates or restores, still hold the name: { $files }. They go when all backups are made anew, or remove them yourself.
    }
was-exported = { $n ->
        [one] The customer's data were once saved to { $files }. If that file is still in the shop's hands, remove it.
       *[other] The customer's data were once saved to { $files }. If those files are still in the shop's hands, remove them.
    }
renewed = { $made ->
        [0] No backup was made: the settings name no place for them.
        [one] 1 backup was made anew and checked.
       *[other] { $made } backups were made anew and checked.
    } { $removed ->
        [0] No older one held anybody who was erased.
        [one] 1 older one that held somebody who was erased was removed.
       *[other] { $removed } older ones that held somebody who was erased were removed.
    }
event-renewed = all backups were made anew: { $made } new, { $removed } removed
renewal-failed = In { $folder } everything stays as it was, and older backups there still hold who was erased. { $why }
left-by-hand = { $n ->
        [one] This file was not made there by the program and holds, or may hold, somebody who was erased: { $files }. Look at it and remove it yourself.
       *[other] These files were not made there by the program and hold, or may hold, somebody who was erased: { $files }. Look at them and remove them yourself.
    }
paper-place = { $folder } on the computer { $machine }
event-papers = papers of this order go to { $place }
papers-elsewhere = { $n ->
        [one] Papers of these orders were also written to { $places }. None was found there now, or it can't be reached from here. If they still exist, remove them there yourself.
       *[other] Papers of these orders were also written to { $places }. None was found in those folders now, or they can't be reached from here. If they still exist, remove them there yourself.
    }
export-line = the customer's data were asked for as a file: { $file }
erased-list = # Orders whose customers were erased, as digests. Whoever restores an older backup erases them again by this list. Keep it with the backups.
export-failed = { $path } could not be written: { $why }. That it was asked for stands in the history all the same.
exported = All that is kept of this customer: { $path }

# The chapter of Shop.
print = Print this page (F6)
who = Order number, phone number, or whole name
file = Save all we keep of this customer (F7)
file-title = Where the file goes
ask = Erase this customer … (F8)
renew = Make all backups anew (F10)
renew-why = Backups made before somebody was erased still hold that person until they are thinned out. Made anew, each folder gets one new backup that is checked, and those from before the erasure are removed.
renewing = Making the backups anew…
erase-now = Yes, erase for good (Shift+F8)
sure =
    { $n ->
        [one] { $name }, order { $orders }. Name, phone, notes, and papers go for good; sums and dates stay. This can't be undone.
       *[other] { $name }, orders { $orders }. Name, phone, notes, and papers go for good; sums and dates stay. This can't be undone.
    }
