# Batches on record: what is due, what was found, what stands in the way.
batch-due = { $task ->
    [turn] Turn
   *[take-out] Take out
}{ $when ->
    [overdue] : overdue by { $span }.
    [now] {" "}now.
   *[in] {" "}in { $span }.
}
batch-less-than-a-minute = less than a minute
batch-days = { $days } d
batch-days-hours = { $days } d { $hours } h
batch-heavier = { $percent } % heavier than at first: look at what was weighed
batch-lost = { $lost } % lost of { $aim } %, { $to_go } to go
batch-down = { $lost } % lost of { $aim } %, down
batch-mark = { $mark } of 9

# The cold store's log against its limit.
batch-outcome = { $outcome ->
    [kept] within the limit
    [broken] over the limit
    [running] within the limit so far, not finished
    [cannot-tell] the log cannot tell
    [too-close] too close to say
   *[noted] to be noted
}
batch-furthest = furthest reading { $reading }, limit { $side ->
    [at-least] at least
   *[at-most] at most
} { $limit }
batch-beyond = { $said }; up to { $beyond } beyond it
batch-beyond-allowed = { $said }; up to { $beyond } beyond it, allowed for { $allowed }
batch-gaps = { $count ->
    [one] { $total } without readings in 1 gap
   *[other] { $total } without readings in { $count } gaps
}
batch-probe = { $said }; the probe is good to { $within } (k = 2)
batch-log-empty = the log is empty
batch-other-limit = the limit for cold holding is not one of a temperature alone: { $why }

# Refusals.
batch-no-such = nothing was weighed under number { $item }
batch-not-there = { $taken } was taken out where only { $there } is in
batch-renamed = item { $item }: { $was } is on record as what it is; strike that line out first, with a reason
batch-other-way = { $now } was said where { $was } is on record; say why it is another, which stays on record
batch-empty = nothing was written: write something or leave it out
batch-not-in-bath = nothing of this batch was weighed into a brine or marinade
batch-words = the words are too long, or have in them what is no letter: write them again
batch-soak = what came out of the bath cannot be of what went in: weigh it again
batch-line = line { $line } cannot be changed like that
batch-not-ready = not ready: { $why }

batch-nameless = item { $item } has no name yet; say what it is, in case it is a curing agent
batch-called-curing = item { $item } is on record as plain and called { $name }, which curing agents are called; strike its name out and enter it as a curing agent
batch-unknown = item { $item }, { $name }, is { $percent } % of the meat, as a curing agent could be, and not on the list of what is known to have no nitrite; read its packet, and say what is in it
batch-way-not-said = { $agent } is in it, and its nitrite was not reckoned against a limit: say how it is cured
batch-no-agent = a way of curing was said, but no curing agent is on record
batch-which-is-meat = say which is the meat: { $items }
batch-item = item { $item }, { $name }
batch-contradiction = { $said } was said, { $weighed } was weighed; the record counts, so put right what is wrong
batch-amount = something that the sum needs was not weighed: { $what ->
    [meat] the raw weight of the meat
    [pickle] the water, salt and sugar of the pickle
    [pick-up] the share of its raw weight that the meat takes up
   *[other] { $why }
}
batch-over-as-written = { $ppm } ppm of ingoing nitrite is written down, at most { $most } ppm for { $method }
batch-not-as-weighed = { $written } ppm of ingoing nitrite is written down, and what was weighed comes to { $ppm } ppm
batch-not-as-weighed-unknown = { $written } ppm of ingoing nitrite is written down, and what was weighed comes to nothing that can be told
batch-cold-store = the cold store was over its limit: { $found }

batch-something-else = item { $item } was weighed into it and is not in its ratio: put it aside and begin again
batch-renamed-since = item { $item } is on record as { $now } and stands in its ratio as { $aimed }: put it aside and begin again
batch-broken-ratio = its ratio on record makes no sense: put it aside and begin again

# Each line of a batch's record, without its time.
batch-wrote-titled = called { $title }
batch-wrote-weighed = item { $item }: { $mass } { $way ->
    [back] taken back out
   *[in] weighed in
}
batch-wrote-weighed-at = item { $item }: { $mass } { $way ->
    [back] taken back out
   *[in] weighed in
}, at { $at }
batch-wrote-named = item { $item } is { $name }
batch-wrote-taken-out = { $mass } of it all taken out
batch-wrote-planned = in on { $into }, out on { $due }
batch-wrote-planned-turned = in on { $into }, out on { $due }, to be turned every { $every }
batch-wrote-aimed = mixed to a ratio
batch-wrote-as-you-go = weighed as it goes in; the vessel weighs { $vessel }
batch-wrote-put-aside = not mixed any further
batch-wrote-turned = turned
batch-wrote-came-out = came out
batch-wrote-to-lose = to lose { $percent } % of { $green }: down to { $down }
batch-wrote-cured = cured: { $method }
batch-wrote-cured-for = cured another way: { $method }; { $reason }
batch-wrote-packet = item { $item }: its packet says { $packet }
batch-wrote-reweighed = weighs { $mass }
batch-wrote-stored = cold store at { $at }
batch-wrote-dough = dough mixed; mixing and the room added { $rise } K
batch-wrote-into-bath = { $mass } of { $cut } into a bath of { $strength } % salt, at { $at }
batch-wrote-out-of-bath = out of the bath: { $mass }; its salt was not measured
batch-wrote-out-bath-after = out of the bath: { $mass }; the bath then had { $strength } ± { $within } % salt{ $bath ->
    [none] {""}
   *[other] {" "}and weighed { $bath }
}
batch-wrote-out-salt = out of the bath: { $mass }, with { $salt } ± { $within } % salt in it
batch-wrote-yielded = came out: { $mass } of { $name }
batch-wrote-yielded-dense = came out: { $mass } of { $name }, { $density } kg/l
batch-wrote-noted = note: { $text }
batch-wrote-tasted = tasted, { $mark } of 9: { $note }
batch-wrote-ready = ready: nothing stood in the way
batch-wrote-ready-nitrite = ready, with { $ppm } ppm of ingoing nitrite, at most { $most } allowed ({ $method })
batch-wrote-struck = line { $line } struck out: { $reason }

# What came out of what was soaked, steeped, pressed or strained.
batch-yields-row = to one of { $of }: { $into } in, { $out }; { $lost } lost; { $mark }
batch-yields-density = {" "}at { $density } kg/l
batch-yields-not-tasted = not tasted
batch-yields-more-than-went-in = more came out than went in: something that went in was not weighed
batch-yields-usual = { $name }: { $mean } of one of { $of }, over { $batches } batches; the next lies between { $from } and { $to } eight times in ten
batch-yields-not-known = { $name }: what usually comes out is not known yet; weigh three batches of it
batch-yields-left-out = { $count } left out: without { $of }, or nothing that came out was weighed
