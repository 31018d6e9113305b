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
