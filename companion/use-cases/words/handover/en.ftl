# What one person hands over to the next during a service.
handover-title = Handover, { $day }
handover-as-at = As it stood at { $at }.
handover-dishes = Dishes
handover-no-dishes = Nothing was weighed for this service yet.
handover-dish = { $dish }: { $ready } ready, { $out } out, { $weighed } weighed.
handover-left-before = { $count } of the ready were left by the service before.
handover-off = Off the target: { $short } short, { $heavy } heavy.
handover-to-weigh = To weigh still: { $count }.
handover-more-out = More went out than is on record: count what is there.
handover-who = Who is where, and what is under way
handover-at-work = { $cook }: { $dish }, last at { $at }
handover-somebody = Somebody: { $dish }, last at { $at }
handover-tomorrow = For tomorrow
handover-due = Batch { $batch } { $title }: due { $at }
handover-struck =
    { $count ->
        [one] One portion struck out: { $reason }
       *[other] { $count } portions struck out: { $reason }
    }
