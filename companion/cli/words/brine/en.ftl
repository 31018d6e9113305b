# Brines: a strength in every way of saying it, what to weigh, putting one
# right, telling one by weight.
brine-of-water = { $percent } % of water
brine-of-solution = { $percent } % of solution
brine-salometer = { $degrees } salometer degrees
brine-density-at = { $density } kg/m³ at { $at } °C
brine-freezing = { $what ->
    [ice] ice forms below { $at } °C
   *[salt] salt falls out below { $at } °C
}
brine-water = water { $mass }
brine-ice = ice   { $mass }
brine-salt = salt  { $mass }
brine-sugar = sugar { $mass }
brine-makes-in-all = makes { $mass } of brine, { $volume } at { $at } °C: { $of_water } % of water, { $of_solution } % of solution
brine-volume-by = volume by: { $source }
brine-ice-unknown = whether all of the ice melts is not known: say how warm the water is, --water-at
brine-ends-at = { $at } °C, give or take { $within }
brine-ice-stays = the ice cannot all melt: about { $left } of it stays, at { $at }; the liquid is then { $liquid }
brine-ice-melts = the ice melts, and the brine is then at { $at }
brine-ice-counted = { $said } (ice counted at { $ice_at }, salt as warm as the water; the pot and the air left out)
brine-sugar-cooling = sugar's own cooling and freezing point are left out
brine-heats-by = heats by: { $source }; { $brine }

brine-now = now { $mass } at { $strength }
brine-there-already = it is there already
brine-stir-in = stir in { $mass } of salt
brine-pour-in = pour in { $mass } of water
brine-replace = { $with ->
    [salt] take out { $mass } of brine, then stir in { $mass } of salt
   *[water] take out { $mass } of brine, then pour in { $mass } of water
}
brine-makes = makes { $mass } at { $strength }

brine-within = { $said }, give or take { $within }
brine-density-within = { $density } kg/m³, give or take { $within }, at { $at } °C
brine-most-doubt = the most doubt is from: { $of ->
    [net-mass] net mass
    [vessel] vessel
    [level] filling level
    [temperature] temperature
    [sugar] sugar
    [sugar-model] sugar model
    [tables] density tables
    [expansion] vessel's expansion
   *[nothing] nothing
}
brine-give-or-take = (give or take: expanded uncertainty, k = 2, JCGM 100; both weighed in air)
brine-sugared = with { $percent } % of sugar in the whole, { $source }
brine-growth = the vessel's growth counted as { $middle } ± { $half } ppm per °C by volume, { $source }

brine-share-salt = salt { $mass }
brine-share = the brine is { $strength } at first; { $percent } % of everything is salt once it is shared out
brine-in-meat = in the meat { $percent } % ({ $from } to { $to } by its water), in the water of both { $water } %
brine-meat-water = { $name }: { $percent } % water, { $source }
brine-meat-unknown = what the meat itself comes to is not known: say what it is, --kind, for the water in it
brine-time = rule of thumb: { $from } to { $to } days ({ $source }); evened out right through only after { $even_from } to { $even_to } days
brine-time-rule = 6 to 7 mm of depth a day from each face, and up to two days more for good measure (common practice, no source)

# Vessels.
vessel-none = No vessel is on record yet; `evenhand brine vessel fill` measures one.
vessel-out-of-use = { $name } is out of use
vessel-shown = { $name }: { $volume } ml at 20 °C, give or take { $within } ml (k = 2), by { $water } of water at { $at } °C
vessel-shown-empty = { $name }: { $volume } ml at 20 °C, give or take { $within } ml (k = 2), by { $water } of water at { $at } °C, { $empty } empty
