# The prep clock: what to do now, next, and what will be late.
prep-heading = The prep clock
prep-title = { $day }: opens { $time }, in { $length }
prep-title-open = { $day }: opened { $time }, { $length } ago
prep-nothing-left = Nothing is left to do.
prep-everybody = Everybody
prep-take-back = Take back
prep-hour-late = { $what } an hour late?
prep-an-hour-late = An hour late?
prep-so-late = { $what } { $by } late?
prep-later-by = { $sign }{ $minutes } min
prep-at-another-time = At another time
prep-tell-heading = What was done earlier
prep-tell-touch = Touch the step.
prep-tell-what = { $what ->
    [begun] Begun
    [done] Done
   *[undone] Not done after all
}
prep-tell-by = by { $who }
prep-tell-nobody = not said by whom
prep-tell-when = { $time }, { $ago } ago
prep-tell-now = { $time }, now
prep-tell-put-down = Put it down
prep-tell-outside = { $step }: { $time } cannot be of the service of { $day }.
prep-print = Lists to print
prep-printed = Written to { $path }
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

# The day laid out in time, and the week.
prep-list = List
prep-menus = Menus
prep-timeline = Timeline
prep-week = Week
prep-week-title = What is made this week
prep-week-waiting = The week is being worked out.
prep-week-guests = guests
prep-week-guests-spoken = { $day }: guests { $step }
prep-lane-nobody = nobody free
prep-lane-rests = by itself
prep-bar = { $step }: { $standing }, { $from } to { $until }
prep-timeline-opens = opens { $time }
prep-timeline-later = { $count ->
    [one] One more step is after this time.
   *[other] { $count } more steps are after this time.
}
prep-timeline-without-time = No time was found for { $steps }.
prep-oven-band = { $step } at { $band }
prep-oven-unknown = { $step } at { $band }: not known when

# What if: what can be tried, and what the day would be.
prep-what-if = What if
prep-order = Order
prep-touch-what-if = Touch what may be otherwise.
prep-as-it-is = As it is
prep-supposed = WHAT IF: { $what }
prep-all-in-time = All is ready in time.
prep-dish-ready = { $dish }: ready { $ready }
prep-it-is-so-keep = It is so: keep it
prep-comes = comes { $from } to { $to }, needed by { $needed }
