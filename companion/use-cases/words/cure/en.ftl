# Curing: ways, limits and what was found against them. Sources are said in
# their own words.
cure-mark = ◆ NITRITE
cure-agent = { $mark } { $name }, { $fraction }
cure-fraction = { $percent } % nitrite
cure-method = { $method ->
    [comminuted] comminuted
    [pumped] pumped
    [immersion-pickup] immersion-pickup
    [immersion-equilibrium] immersion-equilibrium
    [dry] dry
    [bacon-pumped] bacon-pumped
    [bacon-immersion-pickup] bacon-immersion-pickup
    [bacon-immersion-equilibrium] bacon-immersion-equilibrium
   *[bacon-dry] bacon-dry
}
cure-reckoning = { $sum ->
    [pick-up] nitrite x share of its weight the meat takes up x 1000000 / weight of the pickle
    [together] nitrite x 1000000 / (raw weight of the meat + weight of the pickle)
   *[meat] nitrite x 1000000 / raw weight of the meat
}
cure-also-bacon-pumped = Pumped bacon also takes 550 ppm of sodium ascorbate or erythorbate (9 CFR 424.22(b)(1), read as quoted); weigh it as an ingredient of its own.
cure-caution = Nitrite is poisonous in overdose. A limit is a published figure, not a judgement of the food: local codes and licensed practice go first. Cured or not, raw meat stays cold.

# A limit, and how its source states it.
cure-at-most = at most { $most } ppm
cure-level = { $level } ppm required ({ $low } to { $high } ppm counts as that)
cure-counted = { $counted ->
    [ion] { $asked } of nitrite ion ({ $sodium } ppm of sodium nitrite)
   *[sodium] { $asked } of sodium nitrite
}
cure-stated-quarter-ounce = { $limit } (1/4 oz to 100 lb of meat, which the handbook rounds to 156 ppm)
cure-finished = { $limit }; in the finished food at most { $most } ppm, by analysis
cure-limit-by = { $limit }, by { $source }

# What was found against it.
cure-found = { $counted ->
    [ion] { $ppm } ppm of ingoing sodium nitrite ({ $ion } of nitrite ion)
   *[sodium] { $ppm } ppm of ingoing nitrite
}
cure-against = { $limit } for { $method } by { $source }
cure-over = over the limit: { $found }, { $against }; not ready
cure-under = under the level required: { $found }, { $against }; not ready
cure-close = too close to the limit: { $found }, give or take { $doubt } ppm, { $against }; not ready
cure-under-usual = under the usual minimum: { $found }; { $usual } ppm is usual for cured meat kept refrigerated by { $source }; { $against }
cure-within = { $found }, { $against }
cure-other-way = { $said }; reckoned as { $method } it would be { $ppm } ppm
cure-other-way-over = { $said }; reckoned as { $method } it would be { $ppm } ppm, which is over the limit
cure-no-limit = no limit is in force for { $method }

# A dose, and why there is none.
cure-dose = { $dose } g of { $agent } for 1 kg of { $what ->
    [together] meat and water together
    [water] water
   *[meat] meat
}
cure-dose-least = { $dose }; this scale weighs { $least } g of it and more
cure-dose-nothing = { $target } ppm is no nitrite at all: it must be above zero
cure-dose-over = { $target } ppm is over the limit for { $method }: { $limit } by { $source }
cure-dose-under = { $target } ppm is less than { $method } must have: { $limit } by { $source }
cure-dose-beyond-agent = { $target } ppm is more than this agent can bring that way: take an agent with more nitrite, or let the meat take up more pickle
cure-dose-beyond-mass = { $target } ppm needs less agent than a microgram, or more than can be held: check the amounts
cure-too-small = this scale is good to { $within } g, which is { $percent } % of a dose of { $dose } g; from { $least } g up it is good enough. Dissolve { $agent } g of the agent in { $water } g of water and take { $take } g of that, mark what is left or pour it away; or make { $times } times the batch
cure-untold = the scale does not say its verification interval: taken as { $interval }, ten steps of its display, the coarsest that can be

# Agents and names that are refused.
cure-nitrate = this agent contains nitrate. Nitrate turns to nitrite bit by bit over weeks, has limits of its own, and is not permitted in bacon at all (9 CFR 424.22(b), from memory); what it brings cannot be told by weighing, so nothing is worked out for it here. Use an agent with nitrite alone, or a tested recipe under the eye of somebody licensed for it
cure-mixture = this agent contains nitrite and nitrate together, which is made for meat dried over weeks. The two have limits of their own that hold together; nothing is worked out for mixtures here. It must never stand in for an agent with nitrite alone
cure-potassium = this agent is potassium nitrite. Its limits in bacon are other figures than those of sodium nitrite, and only sodium nitrite is worked out here
cure-vegetable = this agent is a vegetable powder. How much nitrite it brings differs from lot to lot and is not on the label, so nothing can be worked out for it here
cure-unusual = { $fraction } is outside { $low } to { $high }, what agents sold for kitchens have. Read the packet again
cure-read-differently = the packet was read as { $first } and then as { $again }; read it once more
cure-name-empty = the name is empty: write what is on the packet
cure-name-salt = a curing agent cannot be called salt: write what is on its packet
cure-name-curing = this is what curing agents are called: enter it as a curing agent, with the nitrite fraction from its label
