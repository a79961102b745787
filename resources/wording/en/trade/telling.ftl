# After an order is ready: who is told and how, what came of it, who may collect, who called.

note = note
result = result
results = { $names } are accepted here
how = how
gone_home = Everything on order { $number } is home already: there is nothing to tell.
not_ready = Not everything on order { $number } can be picked up yet: a tape is at work, set aside, or without its label, or a copy is not done. Tell them when all is ready.
said_by = said by
collector = who may collect
pass_phrase = pass-phrase
longer_phrase = at least four letters or digits are accepted
caller = who called

way =
    { $how ->
        [phone] by phone
        [email] by e-mail
       *[message] by message
    }
came-of-it =
    { $result ->
        [reached] reached
        [left-word] left word
        [no-answer] no answer
        [wrong-number] wrong number or address
       *[sent] sent
    }
line =
    { $how ->
        [phone] { $result ->
            [reached] Reached by phone on { $day } ({ $by }). { $note }
            [left-word] Left word by phone on { $day } ({ $by }). { $note }
            [no-answer] No answer by phone on { $day } ({ $by }). { $note }
           *[other] Wrong number on { $day } ({ $by }). { $note }
        }
        [email] { $result ->
            [sent] E-mail sent on { $day } ({ $by }). { $note }
           *[other] Wrong e-mail address on { $day } ({ $by }). { $note }
        }
       *[message] { $result ->
            [sent] Message sent on { $day } ({ $by }). { $note }
           *[other] Wrong number for a message on { $day } ({ $by }). { $note }
        }
    }
event =
    { $round ->
        [0] { $given ->
            [0] told that it is ready ({ $way }): { $came }
           *[other] told that it is ready ({ $way }): { $came }. { $note }
        }
       *[other] { $given ->
            [0] reminder { $round } ({ $way }): { $came }
           *[other] reminder { $round } ({ $way }): { $came }. { $note }
        }
    }
event_wish =
    { $kind ->
        [how] { $what ->
            [phone] { $who } wishes to be told by phone
            [email] { $who } wishes to be told by e-mail
           *[message] { $who } wishes to be told by message
        }
        [collector] { $given ->
            [0] { $who } named nobody else to collect it any more
           *[other] { $who } named who may collect it: { $what }
        }
       *[pass-phrase] { $given ->
            [0] { $who } takes the pass-phrase back
           *[other] a pass-phrase was agreed with { $who }
        }
    }
event_called = { $given ->
        [0] { $who } called
       *[other] { $who } called and was told: { $said }
    }
event_unsure =
    { $asked ->
        [pass-phrase] a caller did not know the pass-phrase
       *[other] a caller did not know the last digits of the phone number
    }
event_known = a caller was answered because the clerk knew them
called =
    { $when ->
        [today] { $who } called today at { $time }; { $by } answered.
        [yesterday] { $who } called yesterday at { $time }; { $by } answered.
       *[earlier] { $who } called on { $day } at { $time }; { $by } answered.
    }

open =
    { $when ->
        [now] We are open now, until { $end }.
        [today] We are open today from { $start } to { $end }.
        [tomorrow] We are open tomorrow from { $start } to { $end }.
       *[later] We are open next on { $day } from { $start } to { $end }.
    }
held_up = What holds it up: { $why }.
owed = { $money } is left to pay.
owed_so_far = As it stands, about { $money } is left to pay.
owed_back = We owe you { $money } back.
paid = Everything is paid.
storage =
    { $days ->
        [one] It has waited one day since you were told. By our prices keeping it has come to { $money }; the law on unclaimed goods goes first.
       *[other] It has waited { $days } days since you were told. By our prices keeping it has come to { $money }; the law on unclaimed goods goes first.
    }

subject = Your order { $number } is ready — { $shop }
text_hello = Hello { $name },
text_ready = Your order { $number } is ready: everything on it can be picked up.
text_waits = Your order { $number } still waits for you: we told you on { $day } that everything on it is ready.
text_owed = Left to pay: { $money }.
text_bring = Please bring your claim slip. If somebody else collects for you, tell us beforehand who, or give them a note.
text_from = { $shop }, { $phone }

to_tell =
    { $what ->
        [ready] { $number } { $name }: tell them it is ready, { $way }.
        [reminder] { $number } { $name }: remind them (reminder { $round }), { $way }. Told { $days } days ago. { $storage }
       *[nothing] { $number } { $name }: told { $days } days ago. { $storage }
    }
law = What a shop may do with what nobody collects, and may charge for keeping it, is for the law where it is to say.
type_phrase = Pass-phrase:{" "}
named = May collect it besides them: { $who } ({ $said_by } told { $by } on { $day }).
