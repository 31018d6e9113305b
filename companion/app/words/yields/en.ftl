# Batches by what came out of them.
yields-heading = What came out
yields-choose = Touch what was made.
yields-none = Nothing that came out of a batch is on record yet.
yields-about =
    { $count ->
        [one] 1 batch: { $names }
       *[other] { $count } batches: { $names }
    }
yields-touch = Touch a batch for its figures.
yields-over = Over: { $name }
yields-batch = { $day }: { $figures }
# Beside a batch of which nobody knows when it was begun.
yields-no-day = no day
yields-nothing-named = Nothing that went into these batches has a name. Name what was weighed in, and come back.
