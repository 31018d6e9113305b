# What to order, by touch; and the list of what the kitchen buys.
orders-heading = What to order
orders-waiting = It is being worked out.
orders-touch-supplier = Touch whom you order of.
orders-basis = The packs suffice five evenings in six, for evenings and purchases like those on record.
orders-lines = { $wanted ->
    [0] Nothing to order
    [one] One to order
   *[other] { $wanted } to order
}, { $unknown } NOT KNOWN
orders-by = order by { $by }, comes { $day }
orders-no-time = comes { $day }, by when to order is not said
orders-no-days = no delivery days are said
orders-total = In all { $cost }.
orders-all-ordered = All is ordered
orders-ask-ordered = Ordered of { $supplier } for { $day }?
orders-unknown-left = What is not known is left out: put it down at its own line.
orders-not-yet = Not yet
orders-is-ordered = It is ordered
orders-on-the-way = { $packs ->
    [0] none on its way
    [one] one pack on its way
   *[other] { $packs } packs on their way
}
orders-placed = Ordered so far
orders-placed-heading = { $name }: ordered so far
orders-none-placed = Nothing was put down as ordered.
orders-touch-placed = Touch an order to take it back, or to put it back.
orders-placed-for = For { $day }
orders-placed-at = Put down { $at }
orders-packs-of = { $packs } x { $pack } { $goods }
orders-ask-take-back = Take this order back?
orders-ask-put-back = Does this order count after all?
orders-call-them = It stays on record and counts no more. The supplier is not told: call them.
orders-leave-it = Leave it
orders-by-mistake = Put down by mistake
orders-does-not-come = It does not come
orders-put-back = It counts
orders-edit = Change these goods
orders-know = To know it: { $what }.
orders-know-first = { $more ->
    [0] To know it: { $first }.
    [one] To know it: { $first }; and one thing more.
   *[other] To know it: { $first }; and { $more } things more.
}
orders-line-after = { $after } suffices after it comes, { $enough } from now on; in hand { $hand }
orders-line = { $enough } suffices from now on; in hand { $hand }
orders-runs-out = RISK: it runs out before it comes.
orders-not-counted = not counted
orders-from-to = { $least } to { $most }
orders-pieces = pieces
orders-packs = packs
orders-understood = That is { $amount }.
orders-of-what = { $number } of what? Touch it: in packs that is { $amount }.

# The list of goods.
orders-goods = What we buy
orders-none = No goods are on the list yet.
orders-files-where = Lists of goods in TOML or as a CSV table, from the folder { $folder } in the data folder. A file can also be dropped on this window.
orders-add-supplier = + supplier
orders-add-goods = + goods
orders-add-dish = + dish
orders-add-batch = + batch
orders-add-cover = + guests
orders-what-for = What it is for:
orders-a-guest = { $takes } a guest
orders-takes = takes { $takes }
orders-by-yield = by its yield
orders-by-yield-about = Where nothing is said it takes what the portions weigh that are served, by the yield of the purchases on record.
orders-remove-goods = { $count ->
    [one] Its goods go with it.
   *[other] Its { $count } goods go with it.
}
orders-kept = The list is kept.
orders-not-kept = The list is not kept
orders-unkept = A list of goods is being written: keep it or leave it first.

# What is typed.
orders-field = { $field ->
    [in-hand] In hand, as bought
    [ordered] Packs ordered
    [comes] Which day it comes
    [new-supplier] A new supplier
    [new-goods] What is bought
    [name] Name
    [delivers] Delivers on
    [at] Comes at
    [order-by] Order until
    [days-before] Days before it comes
    [supplier] Comes from
    [pack] A pack holds
    [price] A pack costs
    [piece] A piece weighs
    [for] What it is for
    [dish] Dish
    [batch] Preparation
    [takes] Each takes
   *[per-cover] A guest takes
}
orders-expected = { $field ->
    [in-hand] write what is closed with its unit, or in packs; 0 where there is none
    [packs] write a whole number of packs
    [days-before] write a whole number from 0 to 14, or nothing: the day before
    [piece] of goods in pieces: write what one weighs, or nothing
    [takes] write how much one portion or one batch takes, as bought, with its unit; of a dish, or nothing
    [for] say what it is for
    [time] write a time of day, such as 1630, or nothing
    [date] write a date from today on, such as 2026-05-08
    [price] write what a pack costs with its currency, or nothing
    [amount] write a number, then its unit
   *[name] write a name of one line
}
orders-takes-of-each = write how much a portion takes: by its yield a dish goes with one of the goods alone
