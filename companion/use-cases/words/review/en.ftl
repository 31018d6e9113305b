# A service in sentences. Masses, money and times come in formatted.
review-purchase = { $kind ->
    [tin] tin
    [fish] fish
    [cut] cut
   *[batch] batch
} { $id }
review-purchase-labelled = { $kind ->
    [tin] tin
    [fish] fish
    [cut] cut
   *[batch] batch
} { $id }, { $label }
review-part = { $part ->
    [trim] trim
    [cook] cook
    [press] press
    [spill] spill
    [tasting] tasting
    [portioned] portioned
    [left] left
    [should-be-left] should be left
   *[unaccounted] not accounted for
}
review-not-known = not known
review-interval = { $low } to { $high }

# How even the portions of a dish were.
review-one-portion = One portion of { $mean }.
review-evenness = Mean { $mean } ({ $mean_in }), spread { $spread } ({ $spread_in }).
review-hand = The scale's own share of that is { $scale }, the hand's { $hand }.
review-hand-hidden = The scale's own scatter hides the hand's.
review-sample-none = (too few to speak of a spread.)
review-sample-small = (a small sample: the interval says how little is known.)
review-sample-some = (under 30 portions: limits are provisional.)
review-percentiles = 5 % lie below { $low }, half below { $middle }, 95 % below { $high } (percentiles by { $method }).
review-cost = { $short } of { $n } short, { $heavy } heavy; { $given } given away above the target.
review-cost-money = { $short } of { $n } short, { $heavy } heavy; { $given } given away above the target, { $money }.
review-cost-part = { $short } of { $n } short, { $heavy } heavy; { $given } given away above the target, { $money } for the { $costed } whose cost is known.
review-cost-not-known = { $short } of { $n } short, { $heavy } heavy; { $given } given away above the target; its cost is not on record.
review-cost-both = Without the weights in doubt: { $relied } With them: { $all }
review-usual = Usually { $mean } over { $services } services, nights within { $within } of that 19 times in 20; tonight { $tonight }.
review-usual-not-known = Its usual weight is not known yet: that takes { $portions } portions tonight and { $services } services before with as many.
review-capability = Capability Cp { $cp } ({ $cp_in }), Cpk { $cpk } ({ $cpk_in }); at 1 the spread would just fit the tolerance.

# What is said of a dish, within the rate of false alarms.
review-too-few = Too few portions to call it steady or not: { $portions } are needed.
review-steady = Steady, as far as can be told.
review-false-alarms = Of steady services, at most 1 in { $services } has anything false said of it, all dishes together.
finding-grew = { $way ->
    [up] grew heavier{ $since }: { $by } over the usual on average{ $seen }
   *[down] grew lighter{ $since }: { $by } under the usual on average{ $seen }
}
finding-off-usual = { $way ->
    [up] heavier
   *[down] lighter
} than usual by { $by }
finding-moved = { $by } { $way ->
    [up] heavier
   *[down] lighter
} than before{ $since }
finding-uneven = { $way ->
    [up] less even
   *[down] more even
} than usual
finding-uneven-times = { $way ->
    [up] less even
   *[down] more even
} than usual: spread { $times } times as wide
finding-uneven-later = { $way ->
    [up] less even
   *[down] more even
} towards the end
finding-since = from about { $time }
finding-seen = to be seen by { $time }

# Portions whose weight is in doubt, and what is in no figure.
doubt-failed-test = { $count } around a test of the scale that failed
doubt-two-portions = { $count } that may be two portions
doubt-off-pan = { $count } taken with the tin off the pan
doubt-instrument = { $count } with something at the pan or a restless bench
doubt-figures = mean { $mean }, spread { $spread }
doubt-count = { $count } of { $n } weights are in doubt: { $reasons }.
doubt-weights = { $count } of { $n } weights are in doubt: { $reasons }. With them { $all }; without them { $relied }, and only these are judged and aimed by.
doubt-straddling = { $count ->
    [one] One weight lies so near a limit that the scale cannot tell on which side.
   *[other] { $count } weights lie so near a limit that the scale cannot tell on which side.
}
doubt-straddling-more = { $count } more lie so near a limit that the scale cannot tell on which side.
doubt-far = { $count ->
    [one] One weight lies far from all the others ({ $weights }): strike it out if it was no portion. The figures lean on it.
   *[other] { $count } weights lie far from all the others ({ $weights }): strike out what was no portion. The figures lean on them.
}
review-left-out = In no figure: { $struck } struck out, { $corrected } corrected.
review-left-out-topped = In no figure: { $struck } struck out, { $corrected } corrected, of these { $topped } topped up from short.

# What comes first of a dish: what was wrong, and what to do.
lead-aim = aim at { $aim }
lead-aim-below = aim at { $aim }, below the { $promised } promised
lead-no-aim = no aim: { $why }
lead-scale = { $dish }: the scale read { $percent } { $way ->
    [up] over
   *[down] under
} for { $count } of { $n } portions, and nothing on record has put it right: test it before anything else.
lead-scale-calibrated = { $dish }: the scale read { $percent } { $way ->
    [up] over
   *[down] under
} until { $time } ({ $count } of { $n } portions): test it again, then { $aim }.
lead-scale-passed = { $dish }: the scale read { $percent } { $way ->
    [up] over
   *[down] under
} until { $time } ({ $count } of { $n } portions): { $aim }.
lead-far = { $count ->
    [one] { $dish }: one weight of { $n } lies far from all the others: strike it out if it was no portion; { $aim }.
   *[other] { $dish }: { $count } weights of { $n } lie far from all the others: strike out what was no portion; { $aim }.
}
lead-weights = { $dish }: { $count } of { $n } weights are in doubt; without them, { $aim }.
lead-off = { $dish }: { $count } of { $n } { $way ->
    [short] short, { $by } below
   *[heavy] heavy, { $by } above
} the target on average; { $aim }.
lead-finding = { $dish }: { $finding }; { $aim }.
lead-plain = { $dish }: { $aim }.
lead-steady = { $dish } was steady: { $aim }.

# Why there is no aim.
no-aim-coarse = { $count } of { $n } portions lie nearer to a limit than the scale can tell
no-aim-too-few = { $count ->
    [one] one portion
   *[other] { $count } portions
} that can be relied on, expected { $fewest } or more
no-aim-no-spread = the spread is not above zero, so there is nothing to weigh up
no-aim-too-cheap = a short portion costs too little against the food for any aim to pay: check the two prices
no-aim-misfit = the spread of { $spread } does not fit this tolerance; it would fit up to { $fits }, or widen the tolerance
no-aim-other = { $why }

# What to aim at tomorrow.
advice-aim = Aim at { $aim }: then about { $short } short and { $heavy } heavy{ $basis }{ $held } (by { $n } portions).
advice-made-again = , the least cost if a short one costs { $cost }, its food again
advice-as-said = , the least cost if a short one costs { $cost }, as said
advice-topped-up = , as short ones are topped up from the tin at the cost of what they lack
advice-share = , so that with a confidence of 95 % no more than { $share } are short
advice-promise = ; it would pay to go lower, but the guest is promised the target
advice-as-it-is = ; no light ones come through, so more would only be given away
advice-below = That is { $by } below the { $promised } that the guest is promised: you let it be.
advice-cut-off = The light side is cut off, as where light ones are topped up.
advice-longer = The light side reaches farther than the heavy one.
advice-saving = A spread narrower by { $by } saves { $saving } a month, at { $portions } portions ({ $services } services like this one).
advice-saving-rate = A spread narrower by { $by } saves { $saving } a month (a rate of { $rate } for each gram), at { $portions } portions ({ $services } services like this one).
saving-one-gram = { $dish }: one gram less on each portion, { $saving } a month.
saving-to-aim = { $dish }: the mean down to the aim, by { $by }, { $saving } a month.
saving-narrower = { $dish }: a spread narrower by { $by }, { $saving } a month.
saving-unaccounted = { $dish }: finding the { $by } that nobody accounts for, { $saving } a month.

# A test of the scale that failed, and what that says of the portions.
failed-found = at { $when } a known { $known } read { $read }, { $out } out, where { $limit } is the limit in service (OIML R 76-1, 3.5.2)
failed-when = { $time } on { $day }
failed-calibrated = before the scale was calibrated at { $when }
failed-passed = before a test that passed at { $when }
failed-not-right = and nothing on record has put the scale right since
failed-after = { $count } of { $n } weighed after a test that failed, { $right }: { $found }.
failed-food = If the fault grows with the load, { $shown } shown was { $food } of food.
failed-last-good = and after the last good one, at { $when }
failed-none-good = and no good one before it is on record
failed-before = { $count } of { $n } weighed before a test that failed { $good }: { $found }. Which of them the fault reached is not known.
failed-before-too = { $count } of { $n } weighed before that test { $good }. Which of them the fault reached is not known.
failed-in-figures = a test of the scale failed at { $time } on { $day } ({ $measured }); what was weighed around it is in these figures as the scale showed it: see evenhand service show --day { $date }
failed-measured = { $known } read { $read }, { $out } out; limit { $limit }
failed-portion-before = Weighed before a test that failed ({ $time }: { $measured }).
failed-portion-after = Weighed after a test that failed ({ $time }: { $measured }).

# The page for the wall.
page-title = Service of { $day }
page-portions = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
page-first-order = first order { $time }
page-last-order = last order { $time }
page-given-away = given away above the targets
page-target = target { $target } ± { $within }
page-target-between = target { $target }, { $low } to { $high }
page-spread = spread { $spread }
page-counts = { $short } short, { $heavy } heavy of { $n }
page-given = { $mass } given away
page-given-money = { $mass } given away, { $money }
page-aim = Aim at { $aim }
page-before = { $count ->
    [0] no service before
   *[other] { $count } before, tonight
}
page-test-failed = scale test failed
page-by-mass = portions by mass
page-bought = { $purchase }: { $mass } bought
page-marks = Left: means of the services before, with a standard deviation to either side. Marks: triangle down short, dot on, triangle up heavy. { $alarms } Intervals hold the truth 19 times in 20 for portions that are normally spread; what one leaves open is not known. Savings suppose { $services } services a month like this one. More: evenhand service show.
page-more-dishes = And { $count } more: see evenhand service show.
page-more = More: evenhand service show

# What plates cost, and every gram of some days.
plate-cost = { $plate }: { $cost }
plate-cost-price = { $plate }: { $cost } of { $price }, { $margin } left ({ $share } is food)
plate-component = { $name }: { $weight } at { $rate }, { $cost }
plate-not-known = { $plate }: cost not known. { $why }
plate-not-served = { $dish } has no portions in this service: portion some, or look at another service.
plate-no-cost = What { $dish } costs is not known: open a tin with its price, or give the dish a cost.
plate-currency = { $name } costs another currency than the rest of the plate.
plate-empty = The plate has no components.
days-bought = { $first } to { $last }: { $mass } bought in { $count ->
    [one] one purchase
   *[other] { $count } purchases
}
days-not-weighed = { $count ->
    [one] Of one purchase
   *[other] Of { $count } purchases
} nobody weighed the rest: what went of it without a name is not known.
days-beside = { $mass } more was portioned from no purchase on record.
before-doubted = Services before with weights in doubt, which are left out: { $days }.
before-doubted-day = { $day }, { $doubted } of { $count }
none-counts =
    { $count ->
        [one] { $dish }: its only portion was struck out; there is nothing to tell of it.
       *[other] { $dish }: none of its { $count } portions counts any more; there is nothing to tell of it.
    }
