# How a step of the prep stands: one short word.
prep-standing = { $standing ->
    [late] LATE
    [now] NOW
    [under-way] under way
    [next] next
    [later] later
   *[done] done
}

prep-latest-about = about { $time }

# What to know beside a step.
prep-seen-done = seen done at the bench at { $time }
prep-oven-no-name = { $log }: no log has such a name.
prep-oven-not-recorded = { $log }: not recorded, so nobody knows when it is ready.
prep-oven-no-band = { $log }: its band makes no sense.
prep-oven-coming = { $log } in its band likely at { $likely } ({ $early } to { $late }); { $advice }
prep-oven-perhaps-never = { $log } in its band likely at { $likely } (not before { $early }, perhaps never); { $advice }
prep-oven-inside = { $log } in its band now; { $advice }
prep-oven-inside-until = { $log } in its band now, likely to { $leaves }; { $advice }
prep-oven-not-coming = { $log }: as it goes now it does not come to its band.
prep-oven-not-coming-alone = { $log }: as it goes now it does not come to its band; { $advice }
prep-oven-unknown = { $log }: { $why }
prep-oven-surprise = { $note }; planned anew, as it fell { $way ->
        [faster] faster
       *[slower] slower
    } than was foretold at { $then }, when it was: { $was }
prep-oven-door-too-few = what opening its door does is not known: { $openings ->
        [0] it was never marked
        [one] it was marked once
       *[other] it was marked { $openings } times
    }, { $least } are needed; mark "door open" and "door shut"
prep-oven-door-not-of-this = what opening its door does now is not known: the { $openings } times that it was marked, the oven was hotter or colder, or it was not looked at long enough after

# What to do about a step and its oven.
prep-begin = begin from { $from }
prep-begin-done = begin from { $from }, done by { $until }
prep-begin-else = { $begin }, else { $action }: then { $then }
prep-now-or-not = now, by { $latest } at the latest, or not today
prep-action-then = { $action }: then { $begin }
prep-oven-too-short = not sure to stay in it for as long as this takes
prep-open-door = open the door now for { $length }
prep-relight = light the oven again

# What would mend a day.
prep-mend-oven = for { $step }, { $action }
prep-mend-more = one more of { $resource }, { $from } to { $to }
prep-mend-swap = serve { $fallback } in place of { $preparation }
prep-mend-buy = buy { $preparation } in
prep-mend-drop = leave { $preparation } off
prep-mend-later = open { $length } later

# What it runs out of, and what is late.
prep-more-hands = More hands would not help: its steps take too long one after another.
prep-short-of = It runs out of { $resource }.
prep-short-and-late = It runs out of { $resource }; even with enough it is { $late } late.
prep-dish-off = { $dish } is off until { $ready }, { $late } late.

# What was not worked out.
prep-open = Not known, the plan has too many ways to try: { $open }.
prep-open-shortage = whether { $resource } is what is short
prep-open-more = one more of { $resource }
prep-open-oven = the oven for { $step }
prep-open-without = without { $preparation }

prep-no-menu = No menu is on record for { $day }: make one or bring one in under Menus.

# Batches that feed services: what is in stock, and why a new one is made.
prep-not-known = not known
prep-lot = { $portions } from { $ready }, use by { $by }
prep-end-of = the end of { $day }
prep-supply-stock = { $name }: in stock { $lots }
prep-supply-none-needed = { $name }: none needed
prep-supply-made = { $name }: made
prep-supply-made-short = { $name }: made, { $short } short of what is needed
prep-supply-make = { $batches ->
    [one] { $name }: make a batch of { $portions };
   *[other] { $name }: make { $batches } batches of { $portions };
}
prep-supply-record = By the last { $count } batches on record, a batch comes to { $portions }.
prep-supply-beyond = The plan holds { $most } batches; { $more } more have no steps in it.
prep-why-short = { $needed } needed, { $stock } in stock.
prep-why-begun = it is begun.
prep-why-keeping = how long it keeps is not known: the menu says no keeping.
prep-why-stock = the stock is not known: what { $day } took is not on record.
prep-why-covers = how many are needed is not known: no covers are expected on record.
prep-why-dish = how many are needed is not known: no dish { $dish } is on record, and the menu says no number.
prep-why-past = how many are needed is not known: no past service of { $dish } is on record with its covers.
prep-remedy-left = Put it down: evenhand prep left "{ $dish }" N --for { $date }
prep-remedy-covers = Put them down: evenhand prep covers N --for { $date }
prep-remedy-dish = Say needs or per_cover in the menu, or put the dish on record: evenhand dish add
prep-remedy-past = Say needs or per_cover in the menu, or put down what services had: evenhand prep covers N --for DATE
prep-remedy-keeping = Say keeps and its source in the menu.
prep-stock-past = PAST ITS KEEPING, no stock: { $name }: { $lots }
prep-stock-no-keeping = { $name }: no stock, as how long it keeps is not known: { $lots }
prep-stock-unsure = { $name }: at most { $lots }; what { $day } took is not on record
prep-stock-beyond = { $portions ->
    [one] { $name }: one portion more was served than batches on record had
   *[other] { $name }: { $portions } portions more were served than batches on record had
}

# The week as a table: one word a cell.
prep-week-heading = WEEK, { $first } to { $last }
prep-week-make = make
prep-week-stock = stock { $portions }
prep-week-made = made
prep-week-none = none

# A label for a tub.
label-moment = { $day }, { $time }
label-use-by = Use by { $by }
label-use-by-end-of = Use by { $day }
label-use-by-not-known = Use by: not known
label-made = Made: { $at }
label-made-not-known = Made: not known
label-not-begun = Made: not begun
label-ready = Ready: { $at }
label-not-ready = Ready: not yet
label-lot = Lot: { $lot }
label-lot-tub = Lot: { $lot }, tub { $nth } of { $of }
label-allergens = Allergens: { $allergens }
label-allergens-none = Allergens: none, as the menu says
label-allergens-not-entered = Allergens: not entered
label-keeps = Keeps { $length } from ready; source: { $source }.
label-keeps-not-known = How long it keeps is not known: the menu says no keeping.
label-mark = Limit on days: { $days } at { $temperature } or below, the first counted: { $day } is the last. { $source }.
label-mark-left-out = The limit on days is not applied, as the menu says.

# Who does what, and what is handed over when service opens.
prep-who-missing = { $missing ->
    [one] one more who can is not free
   *[other] { $missing } more who can are not free
}
prep-who-heading = { $name }, { $day }
prep-who-with = with { $names }
prep-who-passes = hand over to { $names }
prep-who-nothing = Nothing to do.
prep-opening-heading = HAND OVER AT { $time }
prep-opening-later = { $step }: still to be begun, done by { $until }
prep-opening-rests = { $step }: rests until { $until }
prep-opening-under-way = { $step }: under way until { $until }

# The day's list on paper.
prep-print-step = [ ] { $from } to { $until }: { $step } ({ $takes })
prep-print-page = { $list }: page { $page } of { $pages }
prep-list-heading = PREP FOR { $day }
prep-list-opens = service opens { $opens }; as it stood { $now }
prep-list-start-by = start by
prep-list-latest = latest
prep-list-takes = takes
prep-list-what = what
prep-list-will-be-late = WILL BE LATE
prep-list-to-begin = TO BEGIN
prep-list-batches = BATCHES
prep-list-done = DONE
prep-list-decides = the chain that decides the day
prep-list-unknown = told of '{ $step }', which is on no menu any more
prep-list-late = LATE: as it stands not all is ready in time; the worst is { $late } late.
prep-list-late-perhaps = Perhaps less: { $least } at least.
prep-list-no-time = NO TIME: { $step } does not fit within its hours or its oven.
prep-list-no-mend = No single change mends it.
prep-list-no-known-mend = No single change is known to mend it.
prep-list-mends = Any one of these mends it:

# When a delivery usually comes, beside its step.
prep-delivery-comes = comes between { $from } and { $to } eight times in ten, by the last { $count }; the plan counts on { $counted } (menu: { $menu }); needed by { $needed }
prep-delivery-perhaps-late = may come too late: between { $from } and { $to } eight times in ten, by the last { $count }; the plan counts on { $counted }; needed by { $needed }
prep-delivery-not-known = when it usually comes is not known yet: tick { $more } more; needed by { $needed }
prep-delivery-risk = DECIDE by { $by }: { $step } may come as late as { $to }, { $late } too late for its dish.
prep-delivery-risk-else = Else: { $what }.

# The plan as text.
prep-plan-opened = Service opened { $at }, { $ago } ago.
prep-plan-opens = Service opens { $at }, in { $until }.
prep-plan-moved = What if: { $what } comes later.
prep-plan-turned = Another order than before: { $step } now comes after { $others }
prep-plan-turned-until = { $turned }, as it cannot begin before { $at }
prep-plan-start-by = start by
prep-plan-latest = latest
prep-plan-spare = to spare
prep-plan-what = what
prep-plan-no-place = no place
prep-plan-rests = rests { $over } longer than its most
prep-plan-decides = * the chain that decides the day
prep-plan-not-shown = { $count ->
    [one] One later step, begun after { $until }, is not shown: --until DATE shows it.
   *[other] { $count } later steps, begun after { $until }, are not shown: --until DATE shows them.
}

# Par as text: a word or two before each line.
prep-par-heading = { $dish } for { $day }, { $covers } covers:
prep-par-heading-weekday = { $dish } for { $day }, { $covers } covers as on that weekday before:
prep-par-ready = have ready
prep-par-ready-said = { $ready } portions: { $likely } likely and { $margin } to spare (the share as said, a tenth to spare)
prep-par-ready-past = { $ready } portions: { $likely } likely and { $margin } to spare (enough five evenings in six, from { $past } past services)
prep-par-few-nights = by so few nights nobody knows of another kind of night, such as a feast
prep-par-make = to portion
prep-par-make-words = { $count }: yesterday left { $left }
prep-par-portion = a portion
prep-par-portion-target = { $mass } by its target
prep-par-portion-served = { $mass } as really served, over { $count } of them
prep-par-food = ready food
prep-par-food-words = { $wanted } still wanted beside { $ready } ready in hand
prep-par-start = start with
prep-par-range = { $likely }, up to { $most }
prep-par-yield-said = { $range } at a yield of { $bought } (as said)
prep-par-yield-past = { $range } at a yield of { $bought } (from { $count } recent purchases)
prep-par-no-yield = not known: no yield is on record (`evenhand yield` puts one there, --yield says one)
prep-par-start-by = start by
prep-par-order = order
prep-par-order-words = { $range } beside { $hand } in hand as bought

# Files of menus and of goods that are refused.
prep-menu-refused = The menu for { $day } cannot be used. { $why }
file-refused = The file { $path }: { $why }
file-unreadable = it cannot be read ({ $why }).
file-too-long = it has { $bytes } bytes, and none has more than { $most }.
file-no-toml = It is no such file in TOML, or something in it is missing, unknown or of the wrong kind: { $why }
file-field = { $place }: { $field } is “{ $value }”; { $expected }.
file-field-nothing = { $place }: { $field } is not said; { $expected }.
file-reversed = { $place }: its shortest time is longer than its longest.
file-never-open = { $name } is closed on every day of the week; it must work on one at least.
file-no-such-resource = The step { $step } needs { $resource }, which is none of the hands, ovens and places.
file-too-many-places = The step { $step } needs { $places } of { $resource }, which has { $has }.
file-closes = Service closes before it opens.
file-ring = The step { $step } waits, through others, for itself.
file-no-such-step = It names a step that is not there.
file-twice = { $name } stands twice among the hands, ovens and places.
what-if-no-time = “{ $text }” names no time; write what is late and by how much, such as fish +1h.
what-if-length = “{ $text }” is no length of time; write one above nothing and up to 30 days, such as 1h or 45 min.
what-if-unknown = There is nothing called “{ $name }”; there are { $known }.
take-off-not-on-menu = The menu for { $day } has no preparation called { $preparation }.
take-off-refused = Without { $preparation } the menu cannot be kept. { $why }
