# After service: how even the team was, and where the food went.
service-nothing-yet = No portions are on record yet. After service, this is where they are looked at.
service-earlier = Earlier
service-later = Later
service-night = Night
service-dishes = All dishes
service-last-ten = Last ten
service-yield = Tin to plate
service-money = Money
service-everything = Everything
service-summary = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
service-first-order = first order { $time }
service-last-order = last order { $time }
service-given-away = { $money } given away

# What a picture's marks mean.
service-this-one = this service, and one spread either side
service-one-before = a service before
service-of-all = with weights in doubt
service-target = target
service-tolerance = tolerance
service-struck-out = struck out
service-test-failed = scale test failed
service-stretch = stretch told of
service-picked = portion told of

# One portion, and whether it should count.
service-why = Why should it not count?
service-let-it-be = Let it be
service-strike-out = Strike out
service-count-again = Count it again
service-whole-night = The whole night
service-evidence = Why
service-fold = Fold it away
service-below-promise = Aim below the promise
service-keep-promise = Keep to the promise
service-portion = { $mass } at { $time }: { $verdict }, { $off }
service-portion-target = Target { $target }, { $low } to { $high }.
service-portion-struck = Struck out at { $time }: { $reason }. It counts in no figure.
service-portion-uncertain = The scale states ± { $within } (coverage factor 2).
service-portion-probe = Probe { $temperature }.
service-portion-cost = Its food cost { $cost }; { $given } of it above the target.
service-portion-id = Portion { $number }, number { $id }.
service-span = { $from } to { $to }
service-span-empty = No portions in it.

# Looking closer.
service-closer = Closer
service-wider = Wider
service-all = All
service-left = Left
service-right = Right
service-portion-before = Portion before
service-portion-after = Portion after

# Pictures, read out.
service-picture-night = { $dish }: { $count ->
    [one] { $count } portion
   *[other] { $count } portions
} in time, { $struck } struck out, { $low } to { $high }
service-picture-masses = { $dish }: how many portions of which mass
service-picture-before = { $dish }: this service's mean { $mean } beside { $before } before
service-picture-all = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, each by grams from its target
service-mean = mean { $mean }
service-struck-because = struck out: { $reason }

# Everything on record, and where a purchase went.
service-reading = Reading every portion
service-elsewhere = Runs begun elsewhere
service-figures = { $dish }: { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, mean { $mean }, spread { $spread }, { $short } short, { $given } given away.
service-figures-money = { $dish }: { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}, mean { $mean }, spread { $spread }, { $short } short, { $given } given away, { $money }.
service-evenness = mean { $mean }, spread { $spread }, { $short } short
service-figures-doubted = { $dish }: { $doubted } of { $count } weights are in doubt; without them { $relied }; with them { $all }; given away { $given }.
service-no-purchase = It was portioned from no tin, fish or cut on record. Enter one when the next run is set up.
service-bought = { $purchase }: { $mass } bought
service-cost = Cost { $bought } as bought, { $portioned } as portioned.
service-possible = { $portions } possible of what is left.
service-more-came-out = More came out than was bought: a weighing is missing or wrong.

# What plates cost, and what would save most.
service-no-plates = No plates are on record.
service-change-plates = Make or change plates
service-savings = What would save most in a month
service-no-savings = Not known: no dish has a cost on record. Open a tin with its price, or give a dish a cost.
