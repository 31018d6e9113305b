# The prep clock: what to do now, next, and what will be late.
prep-heading = The prep clock
prep-title = { $day }: opens { $time }, in { $length }
prep-title-open = { $day }: opened { $time }, { $length } ago
prep-nothing-left = Nothing is left to do.
prep-everybody = Everybody
prep-take-back = Take back
prep-hour-late = { $what } an hour late?
prep-it-is-so = It is so
prep-keep = keep it
prep-done = Done
prep-done-spoken = { $step } done

# When to begin, how long it takes and what there is to spare.
prep-since = since { $time }
prep-by = by { $time }
prep-no-place = no place
prep-late = { $takes }, { $late } late
prep-spare = { $takes }, { $spare } spare
prep-spare-at-least = { $takes }, at least { $spare } spare
prep-rests-longer = rests { $over } longer than its most
prep-needs = needs { $needs }

prep-chain = Decides the day: { $steps }
prep-then = { $first }, then { $next }
prep-mends = To mend it: { $mends }.
prep-or = { $one }, or { $other }
prep-no-mend = No single change mends the day.
prep-no-known-mend = No single change is known to mend the day. { $open }
prep-ticked-unknown = Ticked, but on no menu any more: { $steps }.
