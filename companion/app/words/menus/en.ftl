# Menus by touch: the list, everything that is said of one, and labels of what is made.
menus-heading = Menus
menus-none = No menu is on record yet.
menus-touch = Touch one to write on at it.
menus-new = A new menu
menus-files = From a file
menus-always = For every day
menus-from = From { $from }
menus-until = Until { $until }
menus-from-until = { $from } to { $until }
menus-only = Only { $day }
menus-in-force = IN FORCE TODAY
menus-every-day = every day
menus-opens = opens { $time }
menus-preparations = { $count ->
    [one] one preparation
   *[other] { $count } preparations
}
menus-broken = cannot be read: { $why }

menus-start = What does the new menu begin with?
menus-start-empty = Nothing
menus-start-empty-about = everything is entered
menus-start-today = The one in force today
menus-start-last-week = Last week's
menus-start-day = Another day's
menus-start-day-about = its date is entered

menus-file-about = touch to read it
menus-files-where = Menus in TOML or as a CSV table, from the folder { $folder } in the data folder. A file can also be dropped on this window.
menus-look-again = Look again
menus-read = Read from { $path }. It is not kept yet.
menus-written = Written to { $path }

menus-one = A menu
menus-one-new = A new menu
menus-the-menu = The menu
menus-resources = Hands, ovens, places
menus-resources-about = Steps share them.
menus-nothing = none
menus-yes = yes
menus-no = no
menus-export = Into files
menus-keep = Keep it
menus-add-preparation = + preparation
menus-add-step = + step
menus-add-resource = + hands or oven
menus-add-hand = + a name
menus-add-skill = + skill
menus-add-allergen = + allergen
menus-take-out = Take out
menus-leave-in = Leave it in
menus-up = Earlier
menus-down = Later
menus-show-wrong = Show it

menus-steps = { $count ->
    [one] one step
   *[other] { $count } steps
}
menus-due = due { $time }
menus-batch = Made in batches
menus-batch-of = batches of { $portions }
menus-batch-heading = { $thing }: its batch
menus-no-batch = Not in batches
menus-allergens-heading = { $thing }: allergens
menus-allergens-not-entered = not entered
menus-allergens-none = none is in it
menus-own-source = the kitchen's own
menus-rests = rests { $length }
menus-no-length = HOW LONG IS NOT SAID
menus-after = after { $steps }
menus-after-before = The step before
menus-after-none = Nothing
menus-any-hands = any hands
menus-skill = skill
menus-needs-places = { $places ->
    [0] not needed
    [one] needs one
   *[other] needs { $places }
}
menus-places = { $places } at a time
menus-hours = { $from } to { $to }
menus-touch-days = Touch the days.
menus-touch-needs = A touch is one more; then none.
menus-touch-skill = Who can do it?
menus-touch-skills = Touch what this pair can do.
menus-touch-after = What must be done before?

menus-remove = Take out { $thing }?
menus-remove-steps = { $count ->
    [one] Its step goes with it. What waited for it no longer does.
   *[other] Its { $count } steps go with it. What waited for them no longer does.
}
menus-remove-needed = { $count ->
    [one] One step needs it. Until that step needs something else, the menu cannot be kept.
   *[other] { $count } steps need it. Until they need something else, the menu cannot be kept.
}
menus-not-kept = The menu is not kept
menus-not-kept-about = What was changed is lost unless it is kept.
menus-go-on = Go on writing
menus-drop = Drop the changes
menus-unkept = Another menu is being written: keep it or leave it first.
menus-not-yet = It cannot be kept yet. { $why }.

menus-kept-from = Kept; in force from { $day }.
menus-kept-nowhere = Kept; but on no day of the coming year is it in force: it ends before, or others that were kept later cover its days.
menus-changes-added = New: { $names }.
menus-changes-removed = No more: { $names }.
menus-changes-changed = Changed: { $names }.
menus-changes-times = Its times or days are others.
menus-changes-resources = Hands, ovens or places are others.

# What is typed, and what cannot be used.
menus-entry = { $thing }: { $field }
menus-typed = { $field }: “{ $text }” cannot be used; { $expected }
menus-typed-nothing = { $field } is not said: { $expected }
menus-taken = { $field }: “{ $text }” is there already; write a name that no other has
menus-not-written = Nothing was written: { $why }
menus-refused = { $thing }: { $field } is “{ $value }”; { $expected }
menus-refused-about = { $thing }: { $expected }
menus-refused-nothing = { $thing }: { $field } is not said; { $expected }
menus-no-such-resource = it needs { $resource }, which is none of the hands, ovens and places
menus-too-many-places = it needs { $places } of { $resource }, which has { $has }
menus-expected-in-all = { $field ->
    [ring] it waits, through others, for itself
    [closes] service must close after it opens
    [twice] no other may have that name
    [source] say where the keeping comes from
    [never-open] it must work on one day at least
    [dates] the first date must be at or before the last
    [both] say both from when and until when it works, or neither
    [due] it must be from when service opens to when it closes
    [takes] say how long it takes, or how long it rests
    [band] the lower temperature must be at or under the upper
    [after] no step has that name any more
    [skill] somebody of what the step needs must have that skill
    [who] there can be no more names than places
    [either] it is done by a batch or by portions, not by both
    [portions-of] say of which dish
   *[keeps] say how long it keeps
}
menus-field = { $field ->
    [left] Left after service
    [only-day] For one day only
    [copy-day] The menu of which day
    [preparation] A new preparation
    [step] A new step
    [resource] Hands, an oven, a place
    [hand] A name or a mark
    [skill] A skill
    [allergen] An allergen
    [tubs] Tubs
    [takes-most] Takes at most
    [rests-most] Rests at most
    [works-from] Works from
    [works-to] Works until
    [name] Name
    [opens] Service opens
    [closes] Service closes
    [spare] Ready so long before
    [from] First date
    [until] Last date
    [days] Days with service
    [places] At a time
    [closed] Days off
    [serves] Serves in service
    [skills] Skills
    [due] Due, if not at opening
    [preferred] Better done by
    [fallback] Served in its place
    [buy-in] Can be bought in
    [portions] Portions a batch
    [keeps] Keeps
    [source] Source of that
    [dish] Dish, if called otherwise
    [per-service] Portions a service
    [per-cover] Or portions a cover
    [date-marked] Date marking applies
    [allergens] Allergens
    [takes] Takes, as work
    [rests] Rests
    [needs] Needs
    [skill-asked] Whose hands
    [in-service] May be done in service
    [not-before] Comes at, not before
    [after] Waits for
    [portions-of] Done by portions of
    [portions-done] So many portions
    [batch-title] Done by the batch
    [log] Waits for the heat log
    [log-from] Log at least
   *[log-to] Log at most
}
menus-expected = { $field ->
    [left] write how many portions the service left, 0 where none
    [time] write a time of day, such as 1830
    [time-or-none] write a time of day, such as 1830, or nothing
    [date] write a date, such as 2026-05-08
    [date-or-none] write a date, such as 2026-05-08, or nothing
    [length] write a length of time up to 30 days: a number, then its unit
    [most] write the longest it may be, not less than the shortest; nothing where it is always as long
    [spare] write at most 12 hours, or nothing
    [days] write how long, up to 366 days, or nothing
    [places] write a whole number from 1 to 1000
    [portions] write a whole number from 1 to 10000
    [portions-or-none] write a whole number from 1 to 10000, or nothing
    [per-cover] write a number above 0 and up to 100, such as 0.6, or nothing
    [degrees] write a temperature, such as 180
    [source] write where it comes from, or that it is the kitchen's own
    [log] write the name of a heat log, or nothing
    [tubs] write a whole number from 1 to 200
    [name-or-none] write a name of one line, or nothing
   *[name] write a name of one line
}

# Labels of what is made in batches.
menus-labels = Labels
menus-labels-of = Labels for { $day }
menus-no-labels = Nothing is made in batches for that day.
menus-touch-a-label = Touch what is in the tub.
menus-day-before = Day before
menus-day-after = Day after
menus-label-prompt = One label a tub
menus-pdf = PDF to print
menus-png = PNG of one
menus-gone = It is gone
menus-put-down = put it down
menus-ask-gone = Is what was left of { $thing } gone?
menus-ask-gone-about = Thrown out, or used otherwise: nothing of this batch is stock any more.
