# Temperatures to be within, rounded to whole degrees.
heat-band = { $low } to { $high } °C ({ $low_fahrenheit } to { $high_fahrenheit } °F)
heat-one-temperature = { $celsius } °C ({ $fahrenheit } °F)

# Logs that every kitchen has, and what happens to them. What is on record is
# the code; a name or word of the kitchen's own is shown as it was written.
heat-log = { $name ->
    [oven] oven
    [stock] pan of stock
    [store] cold store
    [core] core
   *[other] { $written }
}
heat-marker = { $word ->
    [fire-out] fire out
    [loaded] loaded
    [taken-out] taken out
    [into-the-cold] into the cold
    [solid] solid
    [door-open] door open
    [door-shut] door shut
    [lit] lit
   *[other] { $written }
}

# When a band is entered and left.
forecast-coming = { $side ->
    [hot] Too hot
    [cold] Too cold
   *[other] Not there
} until { $enters }; then in the band to { $leaves }, likely { $stay }.
forecast-coming-stays = { $side ->
    [hot] Too hot
    [cold] Too cold
   *[other] Not there
} until { $enters }; then it likely stays in the band.
forecast-enters-leaves = Enters { $enters }; leaves { $leaves }.
forecast-enters = Enters { $enters }.
forecast-leaves = Leaves { $leaves }.
forecast-inside = In the band now, to { $leaves }.
forecast-inside-stays = In the band now, and likely stays.
forecast-not-coming = As it goes now it does not come to the band.
forecast-between = between { $early } and { $late }
forecast-not-before = not before { $early }, perhaps never

# Why there is no forecast, with what would make it known.
why-too-few = Too few readings yet to say.
why-silent = The probe has been silent: no forecast.
why-still = It hardly moves: no forecast.
why-changed = It goes differently than before: not known yet. Hold the probe still for some minutes.
why-doubtful = Not known yet: what was seen fits too many times. Hold the probe still, and say what it stands in.
why-plateau = Not known yet: it has to freeze or thaw on the way, which nobody can time from here.
why-stalled = Not known yet: it slows down as long as its surface is wet. Hold the probe still and ask again once it rises faster.

# How often forecasts came true.
record-none = No interval of this kitchen has been seen out yet.
record-held = { $counted ->
    [1] The one interval seen out so far { $held ->
        [1] held
       *[other] did not hold
    }.
   *[other] Of the last { $counted } intervals in this kitchen { $held } held.
}
record-limit-none = Nothing said of a limit in this kitchen has been seen out yet.
record-limit-held = { $counted ->
    [1] The one thing said of a limit and seen out so far { $held ->
        [1] came true
       *[other] did not come true
    }.
   *[other] Of the last { $counted } times that this kitchen was told whether a limit is met, { $held } came true.
}

# How far the probe may be out.
probe-chain = The probe is good to { $within } (k = 2): type { $kind } class { $class }, converter { $converter }, cold junction { $junction }; { $source }.
probe-said = The probe is good to { $within } (k = 2), as said.
probe-unknown = How far the probe may be out is not known and not counted: say probe-within-celsius, or its type, class, converter and cold junction under [probe], in limits.toml.

# Where a log is going by a limit. Temperatures come with both units.
bound-at-most = at most { $limit }
bound-at-least = at least { $limit }
remedy-chill = into the cold with it
remedy-heat = turn the heat up
remedy-look-again = stir it, and look again soon
remedy-ice-if-it-matters = ice it if it matters, or look again in 5 minutes; later ice may come too late
remedy-ice = split the pan, ice it

going-not-started = { $here } now; the cooling clock starts below { $from }.
going-overdue = { $to } was to be reached { $ago } ago; it is { $here } now.
going-in-time = At this rate { $to } is reached { $before } before the limit.
going-perhaps-late = At this rate { $to } is likely reached { $before } before the limit, but may be { $late } late: { $remedy }.
going-perhaps-never = At this rate { $to } is likely reached { $before } before the limit, but perhaps never gets there: { $remedy }.
going-late = At this rate { $to } is reached { $late } late ({ $early } to { $latest }): { $remedy }.
going-late-or-in-time = At this rate { $to } is reached { $late } late (in time to { $latest }): { $remedy }.
going-late-or-never = At this rate { $to } is reached { $late } late (or never): { $remedy }.
going-missed = At this rate { $to } is not reached in time: { $remedy }.
going-not-enough = It may not cool enough; { $left } left to reach { $to }: { $remedy }.
going-unknown = { $left } left to reach { $to }: { $remedy }. { $why }
going-start-unseen = The log does not show when cooling began: counted from its first reading, the true time left is less.

going-beyond = { $here }, limit { $bound }; beyond it for up to { $time }: { $remedy }.
going-too-close = { $here }, limit { $bound }: too close to say, the probe is good to { $within } (k = 2): { $remedy }.
going-passes = { $here }, limit { $bound }; at this rate it passes it in { $time }.
going-passes-soon = { $here }, limit { $bound }; at this rate it passes it in { $time }: { $remedy }.
going-keeps = { $here }, limit { $bound }.

going-time-left = Out for { $out }, limit { $allowed }: { $left } left.
going-time-up = Out for { $out }, limit { $allowed }: the time was up { $ago } ago.

going-held = Held { $bound } for { $lasted }, limit { $asked }.
going-holding = Held { $bound } for { $lasted } of { $asked }: { $left } to go.
going-hold-ahead = { $here } now; { $at } is likely reached in { $likely } (between { $early } and { $late }), and is then to be held for { $asked }.
going-hold-perhaps-never = { $here } now; { $at } is likely reached in { $likely } (not before { $early }, perhaps never), and is then to be held for { $asked }.
going-hold-not-coming = { $here } now; at this rate { $at } is not reached.
