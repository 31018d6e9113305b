# Counts going down during a service, and the handover.
counts-heading = Handover
counts-none = Nothing was weighed for this service yet
counts-touch = Ready now; touch what goes out
counts-ready = { $dish }: { $count }
counts-about = out { $out }, weighed { $weighed }
counts-about-more = out { $out }, weighed { $weighed }, to weigh { $more }
counts-take-back = Take the last back
counts-page = Page for tomorrow
counts-written = The page to print is in { $path }.
counts-not-written = The page cannot be written: { $why }. Nothing was changed.
counts-nothing-else = Nobody portioned yet, and nothing is open for tomorrow.
counts-no-dish = No dish is there to be counted. Touch a dish first.
counts-refused = Portions out: { $count } cannot be counted; no more can be taken back than went out.
counts-opening = Ready at opening
counts-opening-touch = Touch what you count
counts-opening-none = No dish is on the list yet
counts-opening-not-said = not counted
counts-opening-ready =
    { $count ->
        [one] one portion
       *[other] { $count } portions
    }
counts-opening-about = Portions that the service before left and that can go out today. What is weighed today is counted by itself: leave it out here. A new count takes the place of the one before.
counts-opening-caution = Count only what is still within the time that this kitchen keeps it.
