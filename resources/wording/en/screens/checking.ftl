# The check of copied files on the Bench, and signing them off.
button = Check and sign off its copy   Ctrl+B
findings = What was checked
head =
    { $n ->
        [0] { $files ->
            [one] Nothing is open: sign the copy off.
           *[other] Nothing is open in the { $files } files: sign them off.
        }
        [one] One finding is open.
       *[other] { $n } findings are open.
    }
why = Why it may stay as it is
why_hint = Press Return to accept it
by = Signed off by
sign = Sign off
signed = Signed off by { $name }: { $title }.
accept_first = accept this first
not_signed_off = It is not signed off any more by { $name }
taken_back = The copy of { $title } is not signed off any more.
on_card = Copy
signed_by = Signed off by { $name }.
