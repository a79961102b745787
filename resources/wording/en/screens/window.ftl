# What the window itself says: moments, actions, banner, failures.
counter = Counter
phone = Phone
bench = Bench
pickup = Pickup
shop = Shop
moment = { $words }  { $keys }
find-command = Find a command
help = Help for this screen
customer-side = Turn the screen to the customer
look = Change the colors
quit = Close Tapewright
begin-afresh = Begin practice afresh
leave-practice = Leave practice
set-up = Set-up
book-box = Book the order
have-signed = Have it signed first, on the Customer side
new-box = Start a new order
undo = Undo
redo = Redo
repeat-row = Repeat the row above
remove-row = Remove row
look-over-row = Look the tape over
measure-packs = Measure the packs
help-day = What would bring the day forward
type-line = All in one line
go-to-findings = What is wrong with this tape
say-told = Told, and agreed
key_hint = Key: { $keys }
action_hint = { $words } ({ $keys })
opening = Opening the shop …
opening_again =
    { $seconds ->
        [one] The shop's server does not answer. Tapewright tries again in a second and opens the shop by itself once the server is there.
       *[other] The shop's server does not answer. Tapewright tries again in { $seconds } seconds and opens the shop by itself once the server is there.
    }
cut_off = No connection to the shop's server. You can go on typing and quoting with what was last read; what is on the Counter is kept on this computer. Nothing can be booked or handed back until the server is there again, which this window notices by itself.
cut_off_step = There is no connection to the shop's server right now. Try again once it is back, which this window says; nothing will be saved twice.
still_waiting = Still waiting for the shop's records to answer. You can go on typing, or close Tapewright; trying again later won't save anything twice.
not_booked = slip not booked yet
close_banner = Close (Esc)
done = Done
check = Please check
not_possible = Not possible
not_reachable = Not reachable
sorry = Sorry
banner_read = { $word }: { $sentence }
wrong_title = Something went wrong
wrong_safe = Something in the program went wrong. What you saved is safe, and so is the slip you are on.
wrong_details = You can keep working. The details are in { $file }.
not_open_yet = The shop's records are not open yet; try again in a moment.
no_window = The window cannot be opened here ({ $why }); every subcommand works without it.
option_shop = an SQLite file or a PostgreSQL URL
option_who = who is at the counter
option_now = the clock starts here, ISO 8601 with offset

# --- the walkthrough: pictures of every screen ---
walk_dir = where the pictures go
walk_size = the size of the screen, e.g. 1366x768
walk_settings = only the set-up and the chapters of Shop; what scrolls also in its whole height
walk_scale = 2 for a screen set to 200 %%
walk_language = the language of the shop, e.g. en; xx shows what is not translated
walk_matrix = every screen size and scale in every look, with a sheet of all of them for each look
walk_only = with --matrix, the stops whose names match this, e.g. 1-counter*
walk_readme = keep the Counter for the README
# --- signing in
sign-in = Sign in as somebody else
sign-in-way-out = Sign in   { $keys }
sign-in-heading = Who is at the counter?
sign-in-lead = Pick your name. Everything done from now on is written down under it.
sign-in-locked = The screens are locked. Pick your name and type your PIN if you have one.
sign-in-names = Names
sign-in-pin = PIN
sign-in-no-pin = { $name } needs no PIN
sign-in-enter = Sign in
sign-in-back = Back (Esc)
sign-in-nobody = Nobody is entered yet. Enter the people on the People page of Shop first.
saved_before = This was saved before, at { $time }. It was not saved again.
saved_after_all =
    { $count ->
        [one] The connection is back. What you saved at { $time } is there; don't enter it again.
       *[other] The connection is back. The { $count } things you saved since { $time } are there; don't enter them again.
    }
closing_title = Not everything is saved
closing_not_kept = What was typed at the Counter could not be saved just now. Close anyway, and it is lost.
closing_unfinished = Not kept yet: { $what }. If you close now, that is lost.
closing_again = Try again and close
closing_lose = Close without saving
closing_stay = Stay here
scanned = Scanned { $code }: { $title }, { $station }. F2 answers for it, F3 takes it to the Bench, F4 picks it up.
menu-phone = Answer for its order
menu-bench = Take it to the Bench
menu-pickup = Go to its pickup
