# What is said to a caller, in one breath. $number is a count in words; topics are what a question is about.

all-ready =
    { $count ->
        [1] { $tapes } is ready
        [2] { $tapes } are both ready
       *[other] { $tapes } are all ready
    }
some-ready =
    { $count ->
        [1] { $number } is ready
       *[other] { $number } are ready
    }
all-needs-label =
    { $count ->
        [1] { $tapes } is done; we still have to put a label on it before it goes home
        [2] { $tapes } are both done; we still have to put a label on them before they go home
       *[other] { $tapes } are all done; we still have to put a label on them before they go home
    }
some-needs-label =
    { $count ->
        [1] { $number } still needs a label before it goes home
       *[other] { $number } still need a label before they go home
    }
all-being-written =
    { $count ->
        [1] { $tapes } is done and the copies are being written
        [2] { $tapes } are both done and the copies are being written
       *[other] { $tapes } are all done and the copies are being written
    }
some-being-written =
    { $count ->
        [1] { $number } is done and its copies are being written
       *[other] { $number } are done and their copies are being written
    }
all-being-checked =
    { $count ->
        [1] { $tapes } is being checked
        [2] { $tapes } are both being checked
       *[other] { $tapes } are all being checked
    }
some-being-checked =
    { $count ->
        [1] { $number } is being checked
       *[other] { $number } are being checked
    }
all-playing =
    { $count ->
        [1] { $tapes } is playing now
        [2] { $tapes } are both playing now
       *[other] { $tapes } are all playing now
    }
some-playing =
    { $count ->
        [1] { $number } is playing now
       *[other] { $number } are playing now
    }
all-cleared-to-play =
    { $count ->
        [1] { $tapes } is waiting for a deck
        [2] { $tapes } are both waiting for a deck
       *[other] { $tapes } are all waiting for a deck
    }
some-cleared-to-play =
    { $count ->
        [1] { $number } is waiting for a deck
       *[other] { $number } are waiting for a deck
    }
all-at-the-bench =
    { $count ->
        [1] { $tapes } is at the bench
        [2] { $tapes } are both at the bench
       *[other] { $tapes } are all at the bench
    }
some-at-the-bench =
    { $count ->
        [1] { $number } is at the bench
       *[other] { $number } are at the bench
    }
all-waiting =
    { $count ->
        [1] { $tapes } is waiting for its turn
        [2] { $tapes } are both waiting for their turn
       *[other] { $tapes } are all waiting for their turn
    }
some-waiting =
    { $count ->
        [1] { $number } is waiting for its turn
       *[other] { $number } are waiting for their turn
    }
all-asking-the-customer =
    { $count ->
        [1] { $tapes } is waiting for your answer
        [2] { $tapes } are both waiting for your answer
       *[other] { $tapes } are all waiting for your answer
    }
some-asking-the-customer =
    { $count ->
        [1] { $number } is waiting for your answer
       *[other] { $number } are waiting for your answer
    }
all-asking-the-customer-about =
    { $count ->
        [1] { $tapes } is waiting for your answer about { $topics }
        [2] { $tapes } are both waiting for your answer about { $topics }
       *[other] { $tapes } are all waiting for your answer about { $topics }
    }
some-asking-the-customer-about =
    { $count ->
        [1] { $number } is waiting for your answer about { $topics }
       *[other] { $number } are waiting for your answer about { $topics }
    }
all-kept-apart =
    { $count ->
        [1] { $tapes } is being kept apart
        [2] { $tapes } are both being kept apart
       *[other] { $tapes } are all being kept apart
    }
some-kept-apart =
    { $count ->
        [1] { $number } is being kept apart
       *[other] { $number } are being kept apart
    }
all-kept-apart-about =
    { $count ->
        [1] { $tapes } is being kept apart because of { $topics }
        [2] { $tapes } are both being kept apart because of { $topics }
       *[other] { $tapes } are all being kept apart because of { $topics }
    }
some-kept-apart-about =
    { $count ->
        [1] { $number } is being kept apart because of { $topics }
       *[other] { $number } are being kept apart because of { $topics }
    }
all-cannot-be-played =
    { $count ->
        [1] { $tapes } cannot be played
        [2] { $tapes } cannot be played, neither of them
       *[other] { $tapes } cannot be played, none of them
    }
some-cannot-be-played =
    { $count ->
        [1] { $number } cannot be played
       *[other] { $number } cannot be played
    }
all-in-part =
    { $count ->
        [1] { $tapes } is ready; it could be copied only in part
        [2] { $tapes } are both ready; they could be copied only in part
       *[other] { $tapes } are all ready; they could be copied only in part
    }
some-in-part =
    { $count ->
        [1] { $number } is ready, copied in part
       *[other] { $number } are ready, copied in part
    }
all-blank =
    { $count ->
        [1] { $tapes } is blank; there is nothing on it
        [2] { $tapes } are both blank; there is nothing on them
       *[other] { $tapes } are all blank; there is nothing on them
    }
some-blank =
    { $count ->
        [1] { $number } is blank
       *[other] { $number } are blank
    }
all-not-wanted =
    { $count ->
        [1] { $tapes } was not copied, as you wished
       *[other] { $tapes } were not copied, as you wished
    }
some-not-wanted =
    { $count ->
        [1] { $number } was not copied, as you wished
       *[other] { $number } were not copied, as you wished
    }
all-declined =
    { $count ->
        [1] { $tapes } was left as it is, not repaired and not copied
       *[other] { $tapes } were left as they are, not repaired and not copied
    }
some-declined =
    { $count ->
        [1] { $number } was left as it is, not repaired and not copied
       *[other] { $number } were left as they are, not repaired and not copied
    }
all-elsewhere =
    { $count ->
        [1] { $tapes } is back from the shop we sent it to
       *[other] { $tapes } are back from the shop we sent them to
    }
some-elsewhere =
    { $count ->
        [1] { $number } is back from the shop we sent it to
       *[other] { $number } are back from the shop we sent them to
    }
all-talk-about = We would like to talk to you about { $tapes }
some-talk-about = { $number } we would like to talk to you about
all-talked-about = We have talked to you about { $tapes }
some-talked-about = { $number } we have talked to you about
all-handed-back =
    { $count ->
        [1] { $tapes } went home already
        [2] { $tapes } both went home already
       *[other] { $tapes } all went home already
    }
some-handed-back =
    { $count ->
        [1] { $number } went home already
       *[other] { $number } went home already
    }
all-resting =
    { $count ->
        [1] { $tapes } came in cold and is warming up before it plays
        [2] { $tapes } came in cold and are both warming up before they play
       *[other] { $tapes } came in cold and are all warming up before they play
    }
some-resting =
    { $count ->
        [1] { $number } is warming up before it plays
       *[other] { $number } are warming up before they play
    }
all-not-here =
    { $count ->
        [1] { $tapes } cannot be copied here, and waits to go to somebody else
        [2] { $tapes } cannot be copied here, neither of them, and wait to go to somebody else
       *[other] { $tapes } cannot be copied here, none of them, and wait to go to somebody else
    }
some-not-here =
    { $count ->
        [1] { $number } cannot be copied here
       *[other] { $number } cannot be copied here
    }

whose-tapes =
    { $count ->
        [1] { $name }'s tape
       *[other] { $name }'s { $number } tapes
    }
whose-tapes-reel =
    { $count ->
        [1] { $name }'s reel of film
       *[other] { $name }'s { $number } reels of film
    }
whose-tapes-box =
    { $count ->
        [1] { $name }'s box of pictures
       *[other] { $name }'s { $number } boxes of pictures
    }
whose-tapes-disc =
    { $count ->
        [1] { $name }'s disc
       *[other] { $name }'s { $number } discs
    }
whose-tapes-thing =
    { $count ->
        [1] What { $name } brought
       *[other] { $name }'s { $number } items
    }
one-group = { $group }. { $day }
several-groups = { $tapes }: { $groups }. { $day }
number =
    { $count ->
        [0] no
        [1] one
        [2] two
        [3] three
        [4] four
        [5] five
        [6] six
        [7] seven
        [8] eight
        [9] nine
        [10] ten
        [11] eleven
        [12] twelve
        [13] thirteen
        [14] fourteen
        [15] fifteen
        [16] sixteen
        [17] seventeen
        [18] eighteen
        [19] nineteen
        [20] twenty
       *[other] { $count }
    }

day-none = We have no date for it yet and will call you.
day-late = We had promised { $day } and are late; we will call you with a new day.
day-doubtful = We had promised { $day }; as it looks now it may be later, and we will call you.
day-everything = Everything by { $day }, { $chance }.
day-everything-else = Everything else by { $day }, { $chance }.
pick-up = Everything can be picked up whenever we are open.
pick-up-else = Everything else can be picked up whenever we are open.
# What the shop has to say of a tape that is settled; a note ends as it was typed.
note = About “{ $tape }”: { $ends ->
        [yes] { $note }
       *[no] { $note }.
    }
notes-then-day = { $notes } { $day }
one-breath = { $answer } { $details }

topic-snapped = a snapped tape
topic-off-hub = a tape that came off its hub
topic-chewed = a chewed stretch
topic-stretched = a stretched place
topic-creased = a crease
topic-scratched = a scratch
topic-edge-damage = a damaged edge
topic-mould = mold
topic-sticky = a sticky tape
topic-shell-broken = a broken shell
topic-reel-broken = a broken reel
topic-lid-damaged = a damaged lid
topic-sound-missing = missing sound
topic-crushed = a crushed cassette
topic-commercial-recording = the rights to a commercial recording
topic-torn-perforation = a tear in the film
topic-shrunken = a shrunken film
topic-vinegar = a decaying film base
topic-nitrate = a film that may be nitrate
topic-faded = a loss of color
topic-disc-scratched = a scratched disc
