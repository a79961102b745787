# Who is proven: by a PIN, by the user of a computer, by a token.
token = token
token-day = last day of the token
token-day-accepted = a day from today on, at most { $n } days away, is accepted
token-is-there = { $name } has a token called “{ $token }” already. Choose another name, or revoke that one first.
token-over = The token “{ $token }” of { $name } was good through { $day }. Issue a new one.
token-unknown = This token is not valid: it was revoked, or it was never issued here.
token-two-people = The token belongs to { $holder }, not to { $who }. Leave --who out, or name { $holder }.
token-file-open = { $file } can be read by other users of this computer. Make it readable by you alone (chmod 600 { $file }), and issue a new token.
token-file-accepted = a file with a token is accepted
token-issued = Token “{ $token }” for { $name }, good through { $day }. It is shown only this once:
token-done = The token “{ $token }” of { $name } is issued
token-revoked = The token “{ $token }” of { $name } is no longer valid.
token-undone = Tokens are not taken back by an undo. Revoke a token, or issue a new one.
system-user = computer user
system-user-accepted = a user of this computer, or a text like { $example }, is accepted
to-write = { $who } is not proven, so nothing was written. Say who you are with --who and your PIN (--pin, or TAPEWRIGHT_PIN), give a token (TAPEWRIGHT_TOKEN, or --token-file), or have the owner connect your computer user { $user } with you.
to-read = { $who } is not proven, and this shop shows nothing without. Say who you are with --who and your PIN (--pin, or TAPEWRIGHT_PIN), give a token (TAPEWRIGHT_TOKEN, or --token-file), or have the owner connect your computer user { $user } with you.
to-be-named = { $name } must be proven. Give a token (TAPEWRIGHT_TOKEN, or --token-file), or work as the computer user who is { $name }.
token-or-user = A token works as well (TAPEWRIGHT_TOKEN, or --token-file), and so does the computer user who is { $name }.
once-proven = { $who } may { $what } only once { $who } can be proven: set a PIN for { $who } on the People page of Shop.
sign-in-needs-pin = { $name } has no PIN, and this computer user is not { $name }. Set a PIN for { $name } on the People page.
told-pin = { $who }, proven by the PIN.
told-token = { $who }, proven by a token.
told-system-user = { $who }, proven by the computer user.
told-unproven = { $who }, not proven.
told-unasked = { $who }. This shop asks for no proof yet: nobody who may change settings has a PIN.
told-user = Your computer user: { $user }
option-who = tell who is acting, how that is proven, and your computer user
option-token = issue a token to somebody, for a program of theirs; it is shown only once
option-token-name = what the token is for
option-until = its last day; 90 days from now where none is named
option-token-out = write the token into this file, for you alone to read, instead of showing it
option-revoke = make a token of somebody invalid
option-system-user = say that a user of a computer is this person; without USER, the one who runs this
option-system-user-user = a login of this computer, or a text like ada/1000@till-1
option-take-away = take that user away from the person again
option-token-file = read a token from a file that only you can read; without it a token is read from TAPEWRIGHT_TOKEN
system-users = Computer users who are this person, one on each line
system-users-lead = Whoever works at the command line as one of these users is taken for this person without a PIN. Leave it empty where several people share one computer user.
this-user = Add { $user }
tokens = Tokens for programs that work as this person
token-name = What the new token is for
token-name-hint = such as “nightly backup”
token-new = New token
token-copy = Copy the token
token-print = Print the token
option-token-paper = also write a page with the token into this folder, to be printed and put away
token-copied = Copied. Keep it where only its program can read it.
token-shown = { $token } is the new token. It is good as soon as you save, and it is shown only now.
token-line = { $name }, good through { $day }
token-ended = { $name }, over since { $day }
token-revoke = Revoke
token-revoke-named = Revoke the token { $name }
state-waits = no PIN: rights do not count
proof-to-read = On the command line, ask for proof of who it is even to look something up
# Two counters changed the settings.
conflict-told = { $who } changed the settings while you were at it, so yours are not saved yet. Both versions are on the page: pick what shall stand.
conflict-heading-settings = The settings were changed meanwhile
conflict-lead-settings =
    { $n ->
        [0] Nothing of it touches what you typed. Both can be saved together.
        [one] You both changed one setting. Pick the version that shall stand. Everything else you typed, and everything else they changed, stays.
       *[other] You both changed { $n } settings. Pick the version of each that shall stand. Everything else you typed, and everything else they changed, stays.
    }
conflict-told-prices = { $who } changed the prices while you were at it, so yours are not saved yet. Both versions are on the page: pick what shall stand.
conflict-heading-prices = The prices were changed meanwhile
conflict-lead-prices =
    { $n ->
        [0] Nothing of it touches what you typed. Both can be saved together.
        [one] You both changed one price. Pick the version that shall stand. Everything else you typed, and everything else they changed, stays.
       *[other] You both changed { $n } prices. Pick the version of each that shall stand. Everything else you typed, and everything else they changed, stays.
    }
conflict-theirs = From { $by }
conflict-yours = Yours
conflict-offer = { $side }: { $what }
conflict-save = Save it like this
conflict-leave = Keep typing
