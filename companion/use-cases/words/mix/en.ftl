# A ratio, and a mix on the scale. Masses come with their unit.
ratio-form = { $form ->
    [of-water] % of the water
    [of-total] % of the total
    [bakers] % of the flour
    [of-meat-and-water] % of meat and water together
    [of-meat] % of the meat
   *[parts] parts by weight
}
ratio-too-few = a ratio has at least two ingredients: add one
ratio-only-meat-and-water = meat and water alone are no ratio: add at least one more, in per cent of the two together
ratio-nameless = item { $item } has no name: say what it was first
ratio-twice = { $name } is there twice: give each a name of its own
ratio-no-amount = { $name }: { $number } is no amount; it must be above zero
ratio-nothing-left = { $rest }: the others leave { $left } % of the hundred; they must come to less than 100 %
ratio-flours = the flours come to { $sum } %; all flour together is 100 %

mix-no-such = there is no such ingredient in this mix
mix-unguarded = { $agent } is a curing agent: say how the meat is cured, and what of the mix is meat and pickle
mix-wrong-guard = the way of curing does not belong to this mix: set it up again on the cure screen
mix-not-confirmed = confirm first: read the nitrite fraction from the label of { $agent }
mix-other-label = the label says { $read }, the mix was worked out for { $expected }; nothing is to be weighed
mix-target-unknown = set or weigh the others first: how much { $name } depends on them
mix-nothing-chosen = choose an ingredient first
mix-not-settled = the scale has not settled since the ingredient was chosen
mix-not-there = { $taken } of { $name } was taken out where only { $there } is in
mix-cannot-take-back = { $name } cannot be taken back out of a mix

walk-not-steady = the scale is not steady: let it come to rest first
walk-changed = { $mass } came onto the scale before the label was confirmed: put it right first, then go on
walk-may-be-agent = what came on may be { $agent }: say what it is; where nobody knows, put the mix aside and begin again, with new meat
walk-nothing-poured = nothing was poured yet that could be something else
walk-agent = a curing agent is not exchanged for anything else: begin again, with new meat

notice-grown = { $name } went over; with the others to match it makes { $total } in all
notice-grown-room = { $name } went over; with the others to match it makes { $total } in all; there is room for { $room }
notice-no-room = it comes to { $total }, there is room for { $room }: take some of the mix out, or use a larger vessel
notice-not-enough = it takes { $needed } of { $name }, there is { $available }
notice-cannot-be-undone = { $name } is { $over } over and cannot be taken back out
not-ready-short = { $missing } of { $name } to go
not-ready-to-come = { $name } is still to come
