# The order sheet.
order-title = What to order, { $at }
order-supplier = { $supplier }: order by { $by }, comes { $day }
order-supplier-no-time = { $supplier }: comes { $day }; until when to order is not written
order-supplier-no-days = { $supplier }: no delivery days are written
order-lasts = To last for { $count ->
    [one] one service, { $first }
   *[other] { $count } services, { $first } to { $last }
}.
order-lasts-after = What is in hand is for the { $before ->
    [one] one before it comes
   *[other] { $before } before it comes
}; the packs are for the { $count ->
    [one] one after, { $first }
   *[other] { $count } after, { $first } to { $last }
}.
order-lasts-none-after = { $before ->
    [one] It is before the delivery comes, and what is in hand is for it; no packs are for it.
   *[other] All { $before } are before the delivery comes, and what is in hand is for them; no packs are for them.
}
order-lasts-none = No service until the delivery after it.
order-total = In all { $cost }.

# A line: how many packs of what.
order-packs = { $packs } x { $pack } { $goods }
order-packs-none = none: { $goods }
order-packs-range = { $from } to { $to } x { $pack } { $goods }: not known better
order-packs-from = { $from } x { $pack } { $goods } or more: how much more is not known
order-packs-unknown = { $goods }, packs of { $pack }: NOT KNOWN
order-cost = { $line }, { $cost }
order-over = { $over } likely left over.

order-need = Needed from now on: { $likely } likely, { $enough } suffices five evenings in six.
order-need-exactly = Needed from now on: { $amount }.
order-need-likely = Needed from now on: { $likely } likely; what suffices five evenings in six is not known.
order-need-at-least = Needed from now on: no less than { $least }, the weight that is served.
order-need-nothing = None needed.
order-after = After it comes, which the packs are for: { $likely } likely, { $enough } suffices five evenings in six.
order-after-exactly = After it comes, which the packs are for: { $amount }.
order-after-likely = After it comes, which the packs are for: { $likely } likely.
order-after-nothing = None of it after it comes, which the packs are for.
order-hand = In hand as bought: { $amount }, counted { $at }.
order-hand-old = In hand as bought: { $least } to { $most }, counted { $at }.
order-hand-open = In hand as bought: { $amount } that is open; what is closed nobody counted.
order-hand-none = In hand as bought: nobody counted it.
order-on-the-way = { $packs ->
    [one] One pack of it is ordered and still to come.
   *[other] { $packs } packs of it are ordered and still to come.
}
order-placed = { $packs } x { $pack } { $goods } for { $day }, put down { $at }
order-taken-back = Taken back { $at }: { $reason }
order-runs-out = RISK: what is in hand likely does not last until it comes.

# What a line is for.
order-for-dish = { $dish }: { $likely } portions likely, { $enough } enough, by { $nights } past nights
order-for-dish-one = { $dish }: { $likely } portions likely, by one past night
order-for-ready = { $count } ready
order-for-ready-food = { $mass } ready to portion, not taken off what is to buy but off what is to serve
order-for-portion = { $mass } a portion as really served, over { $count }
order-for-target = { $mass } a portion by its target
order-for-takes = { $amount } a portion as bought
order-for-yield = a yield of { $likely } over { $count } purchases, five in six above { $low }, tasting and losses without a name taken off
order-for-yield-likely = a yield of { $likely } over { $count ->
    [one] one purchase
   *[other] { $count } purchases
}, tasting and losses without a name taken off
order-for-batch = { $name }: { $count ->
    [one] one batch
   *[other] { $count } batches
} to be made, { $amount } each
order-for-batch-unknown = { $name }: how many batches is not known, { $amount } each
order-for-cover = { $likely } guests likely, { $amount } each
order-for-cover-unknown = { $amount } a guest: how many guests is not known
order-for-unknown = { $name }: how much is not known

# What would make it known.
order-know = To know it: { $what }.
order-know-dish = put the dish { $dish } on record
order-know-covers = say how many guests come on { $day }
order-know-past = weigh portions of { $dish } on nights whose guests are put down
order-know-one-night = one more night of { $dish } with its guests
order-know-few-nights = { $more ->
    [one] one more night
   *[other] { $more } more nights
} of { $dish } with the guests: by { $nights } nights nobody knows of another kind of night, such as a feast
order-know-yield = put down what is trimmed, cooked and tasted of a purchase of { $dish }
order-know-one-yield = the same of a second purchase of { $dish }
order-know-off-menu = { $name } is on no menu of these days
order-know-count = count what is in hand
order-know-count-again = count again what is in hand, { $count ->
    [one] a service was
   *[other] { $count } services were
} since
order-know-typed = { $what }: { $command }
order-no-goods = No list of what the kitchen buys is on record yet.
order-no-such-supplier = Nothing comes from “{ $wanted }” by the list of goods; goods come from: { $known }.
order-basis = Enough is for evenings and purchases like those on record. What dishes want of the same goods is taken to rise and fall together.

order-and = { $one }; { $more }
order-pieces = { $count ->
    [one] { $number } piece
   *[other] { $number } pieces
}
order-page = What to order, page { $page } of { $pages }
