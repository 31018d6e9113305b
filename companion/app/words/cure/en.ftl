# Setting up a cure.
cure-how = How is the meat cured?
cure-way = { $method ->
    [dry] Dry cure
    [immersion-equilibrium] Immersion
    [immersion-pickup] Immersion
    [pumped] Pumped
    [comminuted] Comminuted
    [bacon-dry] Bacon, dry
    [bacon-pumped] Bacon, pumped
   *[bacon-immersion] Bacon, immersion
}
cure-way-detail = { $method ->
    [dry] rubbed on
    [bacon-dry] rubbed on
    [immersion-equilibrium] to equilibrium
    [bacon-immersion-equilibrium] to equilibrium
    [comminuted] minced
   *[pick-up] by pick-up
}
cure-heading = ◆ Cure: { $method }
cure-what-label = What does the label say is in the agent?
cure-contents = { $contents ->
    [sodium-nitrite] Sodium nitrite
    [nitrite-and-nitrate] + nitrate
    [nitrate] Nitrate
    [potassium-nitrite] Potassium
   *[vegetable] Vegetable
}
cure-not-said = not said
cure-on-packet = on the packet
cure-by-label = by its label
cure-by-label-spoken = Nitrite by its label
cure-ingoing = ingoing nitrite
cure-taken-up = taken up
cure-skin-on = Skin on
cure-skin-off = Skin off
cure-limit = Limit: { $limit }.
cure-another-way = Another way
cure-salt-and-rest = Salt and the rest
