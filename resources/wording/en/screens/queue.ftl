# The order in the queue: kept, set back, refused; and the lines about it in the history.

changed_meanwhile = The queue or the shop has changed since this order was worked out. Look for a new one.
place_order = order in the queue
every_waiting_order = every order that is waiting, each once, is accepted
never_rearranged = Orders are in the queue as they came in; there is nothing to undo.
event_rearranged =
    { $count ->
        [one] queue rearranged: 1 order
       *[other] queue rearranged: { $count } orders
    }
event_set_back = queue set back to the order before
