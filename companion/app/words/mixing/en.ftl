# Mixing by weight: the start, a ratio as it is put together and on the scale,
# and weighing as one goes. Masses come with their unit.
mixing-no-name = No name yet
mixing-as-you-go = Weigh as you go
mixing-weighing-as-you-go = Weighing as you go
mixing-batches = Batches
mixing-vessels = Vessels
mixing-due = Due
mixing-name-it = Name it
mixing-onto-the-scale = Onto the scale
mixing-how-much = how much?
mixing-in-all = { $total } in all
mixing-empty = Empty
mixing-full = Full
mixing-by = By { $source }.
mixing-leaf = { $first } to { $last } of { $all }
mixing-all-in-of = { $title }: all in
mixing-weighed = { $count } weighed at { $at }
mixing-weighed-of = { $count } of { $of } weighed at { $at }

# What ratios are of, as a cook would write it; it goes on record so.
mixing-water = water
mixing-salt = salt
mixing-sugar = sugar
mixing-flour = flour
mixing-meat = meat

start-back-to = Back to { $mix }
start-go-on = Go on: { $mix }
start-put-aside = Put aside
start-stays = it stays on record
start-as-last-time = As last time
start-new-ratio = A new ratio, said in
start-form = { $form ->
    [of-water] % of water
    [of-total] % w/w
    [bakers] Baker’s %
    [of-meat-and-water] Meat and water
   *[parts] Parts
}
start-form-detail = { $form ->
    [of-water] of the liquid
    [of-total] of it all
    [bakers] of the flour
    [of-meat-and-water] % of both
   *[parts] 4 to 1
}
start-cure = Cure ◆ nitrite
start-brine = Brine
start-soak = Timed brine, marinade
start-formulas = Formulas, dough water
start-counts = Handover, counts
start-yields = What came out
start-lots = Lots
start-cut = Cut a slab
start-more-due = { $count ->
    [one] One more is due: all batches
   *[other] { $count } more are due: all batches
}
start-nothing-due = Nothing is due.

sketch-add = Add
sketch-add-first = Add the first ingredient.
sketch-within = within { $percent } %
sketch-on-target = On target
sketch-any-amount = Any amount
sketch-room = Room, by the vessel
sketch-set-grams = set grams
sketch-as-there-is = as there is
sketch-the-rest = the rest, { $percent } %
sketch-agent = { $mark } curing agent
sketch-pour-first = Pour the first, as much as there is: the rest follows.
sketch-counts-as-flour = { $name } counts as flour
sketch-part-spoken = { $what ->
    [name] Name
    [number] Number
   *[amount] Amount
} of { $name }: { $value }
sketch-take-out = Take { $name } out

# What to do at the scale.
walk-hold-still = Hold still: { $name } is next
walk-put-on-with-all = Put it on with what is in it
walk-put-vessel-on = Put the vessel on
walk-put-vessel-back = Put the vessel back on
walk-stop = Stop: { $name }
walk-all-in = All in
walk-enough = { $name }: enough
walk-over = { $name }: over
walk-add = Add { $name }
walk-add-all = Add { $name }, as much as there is
walk-not-heard = The scale is not heard: what was weighed is kept, and it goes on when the scale is back.
walk-started-anew = The scale started anew: what came on in the meantime is not known. Pour on, and say how much it was where it matters.
walk-cannot-be-undone = It cannot be undone once it is mixed in.
walk-take-some-out = Take some out, or leave it.
walk-makes = Left so, with the others to match it makes { $total } in all.
walk-makes-too-much = Left so, with the others to match it makes { $total } in all, more than the { $room } there is room for.
walk-makes-with-room = Left so, with the others to match it makes { $total } in all; there is room for { $room }.
walk-vessel-aside = It is taken off by itself. Without one, or with it on already: As it stands.
walk-hands-off = Hands off, and it goes on by itself.
walk-goes-on-on-target = It goes on by itself once it rests on the target.
walk-goes-on = It goes on by itself.
walk-came-on = { $mass } more than is on record: press on the right what it is. Where nobody knows: As it stands; it counts for nothing then.
walk-went-off = { $mass } less than is on record: put the vessel on as it was. Where that cannot be: As it stands.
walk-what-was-it = What was it really? Press it on the right.
walk-of = of { $mass }
walk-total = { $there } of { $total } in
walk-total-room = { $there } of { $total } in, room for { $room }
walk-in = { $there } in
walk-in-room = { $there } in, room for { $room }
walk-no-vessel-yet = No vessel yet
walk-poured = Poured
walk-read-label = Read the nitrite fraction from the packet in your hand, before any of { $name } comes near the scale.
walk-put-away = Put away
walk-read-the-label = Read the label
walk-mark-ready = Mark it ready
walk-as-it-stands = As it stands
walk-that-was-another = That was another
walk-took-some-out = Took some out
walk-go-on = Go on
walk-reached = { $name }: { $is } where { $asked } was asked
walk-brine = Brine: salt { $of_water } % of water, { $of_solution } % of solution

capture-not-heard = The scale is not heard
capture-started-anew = The scale started anew: pour on
capture-anything = Put in anything
capture-aside = Whatever comes to rest is taken down. Press a line to say what it was.
capture-came-on = { $mass } more than is on record. If it went in: That went in. Else As it stands; it counts for nothing then.
capture-just-now = Just now
capture-done = Done
capture-that-went-in = That went in
capture-more-of-the-same = More of the same
capture-what-was-it = What was it?

# What goes on record of it, for whoever looks at the batch later.
mixing-note-gone-on = gone on with { $mass } on the scale that is not on record and counts for nothing
mixing-note-started-anew = the scale started anew in the middle of a pour
mixing-note-put-away = put away before it was marked ready
mixing-note-not-ready = put away, not ready: { $why }
mixing-agrees = { $agent }: weighed { $weighed }, worked out { $computed } for what is there: they agree
mixing-disagrees = { $agent }: weighed { $weighed }, worked out { $computed } for what is there: they do not agree, not ready
mixing-not-ready = not ready: { $why }

# Why something cannot be done.
mixing-portioning = portions are being made: stop that run first
mixing-another-mix = another mix is under way: finish it or put it away first
mixing-not-steady = the scale is not steady or not heard: let it come to rest first
mixing-nothing-more = nothing more rests on the scale than is on record: let it come to rest first
mixing-nothing-on = nothing stands on the scale
mixing-nothing-weighed = nothing was weighed yet
mixing-only-one-thing = two things must have been weighed for one to be more of the other
mixing-too-many = a ratio here has at most { $most } ingredients
mixing-there-already = { $name } is there already
mixing-how-much-of = { $name }: say how much of it
mixing-no-amount = { $name }: “{ $text }” is no amount; write a number above zero, such as 2.5
mixing-no-such-amount = this amount cannot be: it must be above zero, and one that a kitchen can have
mixing-no-ingredient = add an ingredient
mixing-agent-in-it = a curing agent is in it: set it up anew on the cure screen, with the packet in your hand
mixing-no-packet = say what is on the packet of the curing agent
mixing-no-fraction = read the nitrite fraction from the label of the curing agent
mixing-no-ppm = say how much ingoing nitrite there is to be
mixing-no-pick-up = say how much of its raw weight the meat takes up
mixing-low-fraction = { $text } % is less than agents have that are sold for curing: 0.0625 of one is 6.25 %. Write it with its % sign where the label says so
mixing-no-strength = say how strong it is to be
mixing-beyond-calendar = that is beyond the calendar
mixing-no-title = write what it is, or leave it
mixing-not-named-through = no batch of { $title } has a name for everything that is in it
mixing-book-changed = the book has changed meanwhile: look at it again
mixing-not-under-way = it is done, or was put aside
mixing-no-batch = choose a batch first
mixing-untitled = it has no name yet: say what it is, then it is compared with the others
mixing-probe-in-brine = put the probe in the brine, or type how warm it is
mixing-probe-in-water = put the probe in the water: how warm it is decides how much room it takes
mixing-empty-first = weigh it empty first
mixing-limits-not-read = the limits were not read yet
