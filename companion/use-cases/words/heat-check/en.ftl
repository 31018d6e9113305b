# What a log was found to be against its limit, as it stands below the limit.
finding-empty = The log is empty.
finding-not-of-heat = No log of temperatures answers this limit; read what it asks.
finding-not-started = { $side ->
    [at-least] Still at or above { $from }: the cooling clock has not started.
   *[at-most] Still at or below { $from }: the warming clock has not started.
}
finding-span = between { $least } and { $most }
finding-at-least = at least { $least }
finding-unsure = { $why ->
    [no-cooling-start] The log does not show when cooling began: { $said }
    [no-start] The log does not show the start: { $said }
    [start] The start of cooling is not exact: { $said }
   *[far-apart] Readings lie too far apart to tell: { $said }
}
finding-took = from { $from } down to { $to } took { $took }, limit { $limit }
finding-not-yet = { $last } after { $took }, not yet at { $to }, limit { $limit }
finding-warmed-early = warmed again { $after } after it fell below { $from }, before it was at { $to } and before its { $limit } were up
finding-worst = { $said } (the worst of { $of } coolings in the log, number { $number })
finding-reached = { $to } was reached in { $took }, limit { $limit }
finding-reached-held = { $said }; held for { $held } of { $asked }
finding-not-yet-bound = { $last } after { $took }, not yet { $to }, limit { $limit }
finding-given-up = given up after { $after }, before { $to } was reached and before its { $limit } were up
finding-furthest = furthest reading { $furthest }, limit { $bound }
finding-beyond = { $said }; up to { $time } beyond it
finding-beyond-allowed = { $said }; up to { $time } beyond it, allowed for { $allowed }
finding-out = { $out } since the log began, limit { $allowed }
finding-began = { $first } when it began, limit { $bound }
finding-began-or = { $first } when it began, limit { $bound } or { $hot }
finding-days = { $kept } days since the log began, limit { $days } days, the first counted
finding-days-end = { $said }: it depends on the day's end here
finding-hold-not-reached = { $bound }: not reached
finding-hold-reached = { $bound }: reached
finding-hold-lasted = { $bound }: { $longest } unbroken in the log, limit { $asked }
finding-hold-solid = { $solid ->
    [not-said] { $said } (once it is solid, which nobody put down: put the word "solid" at that moment)
    [said] { $said } (from when it was seen to be solid)
   *[too-warm] { $said } (it was not at { $at } or below until it was seen to be solid)
}
finding-or = { $one }; or { $other }
finding-rewarmed = { $clock ->
    [anew] warmed again above { $above }, to { $highest } at { $at }; the cooling clock began anew
   *[on] warmed again above { $above }, to { $highest } at { $at }; the cooling clock went on
}
finding-gaps = { $count ->
    [one] { $total } without readings in { $count } gap
   *[other] { $total } without readings in { $count } gaps
}
finding-probe = { $said }; the probe is good to { $within } (k = 2)

# What a limit asks, in its figures.
demand-an-instant = an instant
demand-cooling = from { $from }{ $stages }
demand-stage = , to { $to } within { $time }
demand-hold = { $at } for { $time }
demand-hold-solid = { $solid } until solid, then { $hold }
demand-within = { $side ->
    [at-least] at least { $hold }, reached within { $time }
   *[at-most] at most { $hold }, reached within { $time }
} { $start ->
    [left] of leaving { $from }
   *[made] of being made
}
demand-time = at most { $time }
demand-begins = { $said }, beginning at { $at } or below
demand-begins-or = { $said }, beginning at { $at } or below or { $hot } or above
demand-never-above = { $said }, never above { $at }
demand-days = at most { $days } days at { $at } or below, the first counted
demand-any-of = { $side ->
    [at-least] at least { $holds }
   *[at-most] at most { $holds }
}
demand-salt = at least { $percent } % of salt in the food's water
demand-rule = a rule; no log answers it

# What a published limit is about. Where the file of English has no words of
# its own, the limit's are said.
limit-about = { $name ->
   *[other] { $written }
}
limit-about-nitrite = nitrite going into meat: { $method }

# Why what was asked of a log cannot be.
heat-refused-band = the band's lower end is above its upper end
heat-refused-spread = the surroundings' spread is outside 0.1 to 100 degC
heat-refused-probe = { $what ->
    [type] the probe's type is { $value }, expected T, K, N or J
    [converter] the probe's converter may be out by { $value } degC, expected 0 to 20 degC
    [cold-junction] the probe's cold junction may be out by { $value } degC, expected 0 to 20 degC
    [within] the probe is good to { $value } degC, expected 0 to 20 degC
   *[class] the probe's class is { $value }, expected 1 or 2
}
heat-refused-z = z is { $value } degC, expected 3 to 30 degC
heat-refused-z-source = the source of z and of the reference temperature is empty: name it
heat-refused-reversed = the correction ends at { $to }, before it begins at { $from }
heat-refused-no-reason = the reason is empty: say why the log is corrected
heat-refused-too-much = the difference is { $value } degC, expected -50 to 50 degC and not 0: leave the stretch out instead
heat-table-header = the header is '{ $value }', expected 'time,celsius' or 'time,fahrenheit'
heat-table-field = { $field ->
    [time] line { $line }: time is '{ $value }', expected a date and time with its offset, as 2026-05-01T10:40:00Z
   *[other] line { $line }: { $field } is '{ $value }', expected a plain number in the header's unit
}
heat-table-line = line { $line }: it has not two columns, or is no text
heat-table-reading = line { $line }: { $why }
heat-table-empty = the table has no readings
heat-reading-backward = the time { $at } goes back behind { $before }: expected times that only go on
heat-reading-twice = the time { $at } stands twice with different temperatures
heat-reading-absurd = { $value } degC at { $at } is outside -100 to 1400 degC, which no kitchen probe reads
