# What the Phone screen says.
ask = Who is calling?
ask_hint = Order number, last phone digits, name, or tape code
start = Type what the caller tells you. The answer appears as you type; the last four digits of the phone are enough.
none = Nothing found for “{ $text }”. Ask for the name on the order, or the last four digits of the phone number.
promised = Promised for { $day }
chance_now = As of now: { $times } of being ready by then
chance_gone = As of now, it will not be ready by then.
no_date = No date promised: { $why }
sure_both = To be sure of the caller, ask for the name on the order ({ $name }), then the last digits of their phone number ({ $digits }).
sure_name = To be sure of the caller, ask for the name on the order ({ $name }).
sure_phone = To be sure of the caller, ask for the last digits of their phone number ({ $digits }).
sure_nothing = There is no phone number on the order. Be careful what you tell.
others = { $count } matching orders — choose with Up and Down
tapes = Tapes
call_first = Call these customers first
agree_button = Record what they agreed   F6
agreed_what = What they agreed, and how
agreed_what_hint = by phone: go ahead with the splice
agreed_up_to = Ask before going over (leave empty to keep it)
agreed_exempt = Tax exempt: the reason or certificate number (leave empty if they pay tax)
agreed_now = As agreed, we won't go over { $amount } without asking.
agreed_save = Save
agreed_said = Saved: { $who } agreed.
agreed_line = { $who } agreed on { $day }: { $what }
correct_button = Correct name or phone   F8
correct_name = Name
correct_phone = Phone
correct_email = E-mail
correct_how = This applies to all their orders; the old details stay in the history.
correct_needed = an order needs a name
correct_save = Save
correct_said = Saved: { $name }.
new_day_button = Promise a new day   F7
new_day_reason = Why the day changes
new_day_reason_hint = the deck was out of service for three days
new_day_who = Who was told (leave empty if nobody yet)
new_day_how = The new day is worked out from the queue as it is now. The old one stays in the history.
new_day_save = Promise it
new_day_said = Now promised for { $day }, { $times } of being ready by then. Tell { $who }.
head = Say this · { $name } · order { $number } · found by { $matched }
matches_list = Matching orders
tapes_list = Tapes of this order
looking = Looking for “{ $text }” …
unsure_head = { $name } · order { $number }
unsure = Ask the caller first. The answer is shown when you are sure of them.
check_digits = What are the last four digits of their phone number?
check_pass_phrase = What is their pass-phrase?
check_name = There is no phone number and no pass-phrase on this order. Ask for the name, and what they brought.
check_wrong = That does not match. Ask again, or call them back.
check_known = I am sure of them   { $keys }
note_call = Note this call   { $keys }
call_noted = Noted: { $name } called.
told_button = They were told   { $keys }
wish_button = Who may collect, how to reach   { $keys }
told_how = It is ready: what came of telling them? Press the digit.
told_answer =
    { $how ->
        [phone] { $result ->
            [reached] { $n }   Reached by phone
            [left-word] { $n }   Left word
            [no-answer] { $n }   No answer
           *[other] { $n }   Wrong number
        }
        [email] { $result ->
            [sent] { $n }   E-mail sent
           *[other] { $n }   Wrong e-mail address
        }
       *[message] { $result ->
            [sent] { $n }   Message sent
           *[other] { $n }   Message: wrong number
        }
    }
told_text = Text to send
told_copy = Copy the text   C
told_copied = The text is on the clipboard.
told_no_program = The text is on the clipboard: no program on this computer opens that link.
open_phone = Dial   D
open_email = E-mail   E
open_message = Message   M
told_said = Saved: { $name } was told.
told_again = Saved. { $name } stays on the list.
wish_collector = Who may collect it besides them
wish_collector_hint = her sister Bea Fenwick (empty: nobody)
wish_how = How they want to be told
wish_how_hint = phone, e-mail, or message
way_phone = phone
way_email = e-mail
way_message = message
wish_phrase = Pass-phrase (empty: as it was)
wish_phrase_kept = There is a pass-phrase. It is not shown.
wish_phrase_none = No pass-phrase was agreed.
wish_save = Save
wish_said = Saved.
to_delete = delete the download
to_delete_small = { $number } · the link was good until { $day }
to_tell_head = Ready: tell these customers
to_tell_list = Customers to be told that their order is ready
to_tell_place =
    { $what ->
        [tell] tell them
        [remind] reminder { $round }
       *[unclaimed] unclaimed
    }
to_tell_small =
    { $days ->
        [0] { $number } · { $reach }
        [one] { $number } · { $reach } · told yesterday
       *[other] { $number } · { $reach } · told { $days } days ago
    }
to_tell_storage = { $small } · keeping it by our prices: { $money }, after what the law says
scan_waits = Finish the form that is open, or close it with Esc. Then scan again.
menu_answer = Answer for it
