# The drawer of commands (Ctrl+K): a card for everything that can be done, sought by its words.
title = Find a command
cards = Commands
hint = What do you want to do?
guide-here = On this screen
guide-everywhere = Anywhere
guide-later = Not just now
does = Return does it: { $words }. Esc closes the drawer.
why = { $words }: { $why }
nothing = Nothing here is called “{ $wanted }.” Try another word, or look in the handbook (F1).
open-place = Go to { $place }

# --- beside the moments, as short as can be
short-find-command = Find   { $keys }
short-help = Help   { $keys }
short-customer-side = Customer   { $keys }
short-look = Colors   { $keys }

# --- why something cannot be done just now
not-now = This doesn't apply to what is in front of you.
no-quote = There are no tapes to quote yet. Type what is in the box first.
no-tape-in-hand = No tape is in hand. Scan its label or type its code first.
nobody-on-the-phone = No order is open. Type a name, a number, or a tape code first.
no-order-at-pickup = No order is open. Type who is picking up, or scan a tape first.
why-undo = Nothing has been typed since the last order, so there is nothing to undo.
why-redo = Nothing was undone.
why-remove-row = There is no row to remove.
why-new-box = This order is empty already.
why-begin-afresh = This is your own shop. Only practice can be begun afresh.
why-leave-practice = This is your own shop, not practice.
why-label-is-on = This tape needs no not-for-reuse label, or has it already.
why-print-label = This tape may be used again, so it gets no not-for-reuse label.
why-take-back = Nothing has been written down for this tape that could be taken back.
why-read-file = A file can be read in once the tape is playing or has been played.
why-check-copy = There is no file of this tape to check, or it is checked already.
why-what-became = What became of this tape is written down already.
why-shows-now = The tape isn't playing, or its deck shows nothing to write down.
why-call-card = No answer is needed from the customer just now.
why-way-out = No message is waiting for you to go somewhere.
why-new-day-button = Everything in this order is done, so there is no new day to agree on.
why-amend = This order has been handed back or canceled.
why-cancel = This order has been handed back or canceled.
why-copies = This order has no copies of its own.
why-receipt-again = Nothing has been handed back yet, so there is no receipt.
why-list-of-files = No files belong to this order yet.
why-label-seen = No label is waiting to be checked.

# --- other words by which a command is looked for
also-book-box = save finish check in confirm done order
also-have-signed = signature pen agree
also-new-box = clear next customer start over
also-undo = back mistake revert
also-repeat-row = copy duplicate same again
also-remove-row = delete erase line
also-look-over-row = inspect check condition
also-look-over-tape = inspect check condition
also-help-day = sooner earlier faster rush promise date
also-type-line = paste dictate quick everything
also-go-to-findings = broken damage mold snapped problem condition
also-find = broken damage mold snapped problem condition
also-splice = join repair tape ends broken snapped
also-customer-side = second screen monitor display window
also-look = dark light theme contrast brightness colors
also-sign-in = log in user switch person PIN
also-quit = exit leave end program
also-help = handbook manual how keys
also-print-label = sticker band
also-counter = intake quote drop off
also-phone = call caller answer status
also-bench = repair tape work deck
also-pickup = collect hand back pay receipt
also-shop = settings prices decks hours people backup

# --- the handbook (F1)
handbook = Handbook
handbook-search = Search the handbook
handbook-pages = Pages
handbook-nothing = Nothing in the handbook says that. Try another word.
bench-cards = Bench cards
cards-lead = One card for each format: how its shell opens, where its record-protect is, and what plays it.
cards-careful = Careful
cards-general = On every bench
cards-opening = Opening the shell
cards-protect = Record-protect
cards-plays = What plays it

# --- what a button does to what, for a screen reader; the words on the button stand in it
target-tape = tape { $code }
target-order = order { $number }
does-it = { $does }: { $target }
# (the name of the button stands after “does-”)
does-find = { $does } to { $target }
does-splice = { $does } on { $target }
does-what-was-done = { $does } to { $target }
does-what-became = { $does } of { $target }
does-hand-back = { $does } { $target }
