# Dishes, and the tins they are portioned from.
dish-line = { $dish }: { $target } (-{ $below }, +{ $above }), { $mode ->
    [adding] adding
   *[taking] taking
}
dish-off-list = off the list
dish-since = since { $time }: { $dish }
dish-called = called { $name } until { $time }
dish-melt-unread = LIMIT: { $value } is no length of time; write one such as 6 min, or off
dish-melt-refused = LIMIT: the melt limit is { $seconds } s, expected 10 s to 2 h
dish-melt = { $dish }: out of the cold for at most { $limit }.
dish-no-melt = { $dish }: no limit on the time out of the cold.
dish-nothing-yet = No dish is on record yet; `evenhand dish add` or a first `evenhand portion` begins one.
tin-nothing-yet = No tin, fish or cut is on record yet; `evenhand tin open` opens one.
tin-line = { $kind ->
    [tin] tin
    [fish] fish
    [cut] cut
   *[batch] batch
} { $id }: { $dish }
tin-bought = { $mass } bought, closed
tin-left = { $left } of { $net } left, { $possible }
possible = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
possible-range = { $fewest } to { $most } portions
# What became of a purchase.
yield-line-number = LINE: { $value } is no line's number; write the number that `evenhand yield show` lists
yield-struck = line { $line } is struck out; it stays on record
yield-days = { $first } to { $last }: { $count ->
    [one] { $count } purchase
   *[other] { $count } purchases
} opened or portioned from
yield-bought = bought
yield-portioned = portioned
yield-lost = lost to { $loss }
yield-left-weighed = left, as weighed
yield-left-by-record = left by the record
yield-unaccounted = not accounted for
yield-trimmed = trimmed
yield-should-be-left = should be left
yield-not-weighed = Of { $count ->
    [one] { $count } purchase
   *[other] { $count } purchases
} nobody weighed the rest: what went of it without a name is not known. Weigh it with `evenhand yield left`.
yield-from-none = { $mass } more was portioned from no purchase on record.
yield-cost = cost as bought { $bought }, as portioned { $portioned }
yield-possible = { $possible } possible of what is left
yield-more = More came out than was bought: a weighing is missing or wrong.
yield-line = line { $line }: { $what } { $mass }, { $time }
yield-line-struck = line { $line }: { $what } { $mass }, { $time }, struck out
cut-how-large = say what a piece should weigh with --each or --dish, or how many with --pieces
cut-refused = { $why ->
    [ends] the ends put aside weigh as much as the slab or more: weigh both again
    [zero] { $what ->
        [slab] the slab
       *[piece] a piece
    } must be a mass above zero
    [no-piece] what is left between the ends is less than one piece
   *[too-many] that would be more than { $most } pieces: check the two masses
}
cut-plan = { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
} of { $each }, { $rest } over beside the ends of { $ends }
cut-too-few = Only { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
} so far: { $needed } are needed to correct the next cut.
cut-no-correction = The last pieces lie about what was meant: no correction.
cut-correction = { $was ->
    [over] The last { $pieces } came out { $by } over on average ({ $low } to { $high }): cut the next { $by } under where you would have cut.
   *[under] The last { $pieces } came out { $by } under on average ({ $low } to { $high }): cut the next { $by } over where you would have cut.
}
