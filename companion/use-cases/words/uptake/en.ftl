# What a piece takes up in a brine or a marinade. Per cents are of its raw weight.
uptake-bath = The bath is { $strength } % salt. Evened out all through, { $cut } comes to { $end } % of salt, give or take { $doubt }.
uptake-water-unsaid = How much of { $name } is water is not known: all that is not salt counts as water, so the bath is stronger than it says here.
uptake-gain = After { $span } it has gained { $middle } % ({ $from } to { $to } in eight batches of ten).
uptake-salt = Of that salt { $middle } % ({ $from } to { $to }), water { $water } % ({ $waterfrom } to { $waterto }).
uptake-core = Its core is then at { $middle } % of salt ({ $from } to { $to }).
uptake-gain-not-known =
    { $more ->
        [one] What it gains is not known yet: weigh one more batch in and out.
       *[other] What it gains is not known yet: weigh { $more } more batches in and out.
    }
uptake-salt-not-known =
    { $more ->
        [one] How much of it is salt is not known yet: weigh one more batch in and out, and try its bath before and after.
       *[other] How much of it is salt is not known yet: weigh { $more } more batches in and out, and try their bath before and after.
    }
uptake-out-at = Out at { $at } for { $wanted } % in the core ({ $from } to { $to } in eight batches of ten).
uptake-out-at-open = Out at { $at } for { $wanted } % in the core (not before { $from }; one batch in ten never comes to it).
uptake-then = The whole piece then has { $salt } %: its core goes on to that as it evens out in the cold. Left in for good it would come to { $end } %.
uptake-never = The core does not come to { $wanted } % in this bath: it ends at { $end } %. Use more salt, or less meat.
uptake-when-not-known =
    { $more ->
        [one] When the core is at { $wanted } % is not known yet: weigh one more batch in and out, and try its bath before and after. By what is published it takes from { $from } to { $to }, which is no plan.
       *[other] When the core is at { $wanted } % is not known yet: weigh { $more } more batches in and out, and try their bath before and after. By what is published it takes from { $from } to { $to }, which is no plan.
    }
uptake-for-ever = for ever
uptake-gained = { $cut } gained { $mass }, { $percent } % of its raw weight, in { $span }.
uptake-lost = { $cut } lost { $mass }, { $percent } % of its raw weight, in { $span }.
uptake-found = { $salt } of salt went in, give or take { $doubt }: { $percent } % of its raw weight. The rest of what changed is water.
uptake-not-told = How much of that is salt and how much water is not known: weighing the piece alone cannot tell. Try the bath before and after, or the piece with a meter.
uptake-caution = Reckoned, not measured in this piece, for a stirred bath and pieces that are neither injected nor boned out. It never says that food is ready, cured or keeps. Local codes and licensed practice go first.
# What of a soak cannot be: { $value } was there.
uptake-refused = { $field ->
    [salt] Salt of the bath: there must be some. Write the salt, or a sauce or paste with the salt of its label.
    [water] Water of the bath: too little for its salt to dissolve. Use more water; salting dry is not reckoned by this.
    [temperature] Temperature: { $value } is no brine's. Write one from −3 to 30 °C.
    [out] Time out: { $value } after it went in. It must come out after it went in.
    [mass] Weight: { $value } cannot be. Weigh the same pieces without their vessel: half to twice of what went in is possible.
    [bath-after] Strength of the bath afterwards: { $value } cannot be. It must be below what it was, and not so low that more salt is missing than the piece can hold.
    [bath-mass] Weight of the bath afterwards: { $value } cannot be. Weigh the bath that this piece came out of.
    [in-piece] Salt in the piece: { $value } cannot be. Write per cent of what came out, no more than the bath gives.
    [within] Give or take: { $value } cannot be. Write percentage points above 0, such as 0.2.
   *[other] { $value } cannot be used here.
}
