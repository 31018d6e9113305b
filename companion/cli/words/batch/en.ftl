# Batches on record, and how one stands.
batch-number = batch { $number }
batch-stands = batch { $number }: { $parts }
batch-no-title = no title yet
batch-is-ready = ready
batch-is-out = out
batch-due = { $task ->
    [turn] turn
   *[take-out] take out
}{ $when ->
    [overdue] : overdue by { $span }
    [now] {" "}now
   *[in] {" "}in { $span }
}
batch-none = No such batch is on record yet; `evenhand batch begin` begins one.
batch-nothing-due = Nothing is due with any batch; `evenhand batch plan` says when one is.
batch-due-with = batch { $number }, { $title }: { $due }
batch-item-line = item { $item }: { $mass } { $name }
batch-no-name = no name yet
batch-cold-store-found = cold store: { $outcome }: { $found }
batch-line-on-record = line { $line }: { $at } { $what }
batch-line-struck = line { $line } (struck out): { $at } { $what }
batch-share = { $name } { $percent }
batch-not-tasted = not tasted
batch-compared = batch { $number }: { $shares }; { $mark }
batch-again-curing = hold the curing agent against its limit before it goes in: `evenhand cure ppm`
batch-picture-written = The picture written to { $path }.

# What was typed.
batch-no-number = BATCH: { $text } is no batch's number; write the number that `evenhand batch list` shows
batch-no-such-title = TITLE: { $title }: there is no batch of that title; list them with `evenhand batch list`
batch-what-needed = --name or --agent is needed: what is it?
batch-no-such-item = --item: { $item }: nothing was weighed under that number; leave --item out for something new
batch-beyond-calendar = --for: { $text } is beyond the calendar; write a few days
batch-due-before = --due: { $text } is { $due }, not after it goes in, { $into }; write a later time
batch-no-agent = --method: there is no curing agent in this batch; leave it out
batch-say-reason = { $why } (--reason)
batch-name-refused = --name: { $why }
batch-no-formula = { $why }
batch-no-equals = { $flag }: { $text } has no =; write a name, = and a number, such as water=5
batch-not-in-it = --amount: { $name } is not in it; write one of its ingredients
batch-no-picture-kind = --picture: { $path } is neither; end its name in .svg or .png
