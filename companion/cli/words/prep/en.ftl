# What is put down about the prep, and what was typed.
prep-covers = { $day }: { $covers } covers.
prep-left = { $day }: { $portions } portions of { $dish } were left.
prep-gone = What was left of the batch of { $name } for { $day } is gone.
prep-menu-kept = { $kept_for ->
    [day] The menu with { $steps } steps is kept for { $day }.
   *[every] The menu with { $steps } steps is kept for every day without one of its own.
}
prep-ticked = { $what ->
    [begun] { $step }: begun.
    [done] { $step }: done.
   *[undone] { $step }: not done after all.
}
prep-ticked-by = { $what ->
    [begun] { $step }: begun by { $who }.
    [done] { $step }: done by { $who }.
   *[undone] { $step }: not done after all by { $who }.
}
prep-not-before = { $step }: not before { $time }.
prep-goods-kept = The list of { $goods } goods is kept.
prep-in-hand = { $goods }: { $amount } in hand.
prep-ordered = { $goods }: { $packs } x { $pack } ordered for { $day }.
prep-no-orders = No order is on record.
prep-no-order-number = { $flag }: { $text } is no number of an order; `evenhand prep orders` lists them

prep-no-whole = { $what ->
    [guests] { $flag }: { $text } is no number of guests; write a whole number from 0 to 100000
    [portions] { $flag }: { $text } is no number of portions; write a whole number from 0 to 100000
    [tubs] { $flag }: { $text } is no number of tubs; write a whole number from 0 to 100000
   *[packs] { $flag }: { $text } is no number of packs; write a whole number from 0 to 100000
}
prep-at-after-opening = --at: { $text } on { $day } is after its service has opened, { $opens }; write "today { $text }" for today, or { $day }T{ $text } for then
prep-no-tubs = --tubs: { $tubs } is no number of tubs; write a whole number from 1 to { $most }
prep-one-png = --tubs: { $tubs } labels do not go into one PNG; write --pdf, or --tubs 1
prep-not-finished = PREPARATION: no batch of { $name } for { $day } was finished by then; tick its steps first
prep-no-share = { $flag }: { $text } is no such number; write one above 0 and at most { $most }
prep-covers-unknown = --covers: how many guests come on { $day } is not known: fewer than two services of the dish on that weekday are on record with theirs; say it, or put it down with `evenhand prep covers`
prep-force-of-none = --force: nothing is written; say --out FILE or --pdf FILE
prep-no-days = --days: { $text } is no number of days; write a whole number from 1 to 14
prep-until-past = --until: { $text } is before { $now }; write a later day or time
prep-no-days-ahead = --days-ahead: { $text } is no number of days; write a whole number from 0 to 14
prep-later-no-time = --later: { $text } names no time; write one such as 'fish: wash and beard=1 h'
prep-later-no-length = --later: { $text } is no length of time; write one such as 1 h or 45 min
prep-later-beyond = --later: { $by } leaves the calendar
prep-no-step = { $flag }: there is no step { $name }; there are { $known }
prep-not-listed = GOODS: { $name } is not on the list of goods; there are: { $known }
prep-other-measure = AMOUNT: { $text } is in another measure than the pack; write it as the pack, which is { $pack }
prep-no-menu = no menu is on record for { $day }; keep one with `evenhand prep menu --keep FILE`
prep-refused = { $field }: { $why }
