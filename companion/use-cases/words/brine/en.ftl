# Brine: strengths, telling one by weight, putting one right.
brine-ice-below = Ice forms below { $at }.
brine-salt-below = Salt falls out below { $at }.
brine-of-water = { $percent } % of the water
brine-of-solution = { $percent } % of the whole
brine-there-already = It is there already.
brine-add-salt = Stir in { $mass } of salt; makes { $makes }.
brine-add-water = Pour in { $mass } of water; makes { $makes }.
brine-replace-with-salt = Take { $mass } out, stir in { $mass } of salt.
brine-replace-with-water = Take { $mass } out, pour in { $mass } of water.

# What was told by weight.
brine-told-of-solution = { $percent } % of the whole brine, give or take { $within }
brine-told-of-water = { $percent } % of the water, give or take { $within }
brine-doubt = Most of the doubt is from: { $of } (k = 2, JCGM 100); the vessel grows by { $middle } ± { $half } ppm per °C by volume.
brine-doubt-of = { $of ->
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
brine-sugared = With { $percent } % of sugar in the whole: { $source }.

# Why it cannot be told.
brine-sugar-unsaid = Sugar is not said, and the density of a brine with anything but salt in it says nothing about salt. Say how many per cent of the brine is sugar, or 0 where nothing but salt is dissolved in it: no sugar, syrup, phosphate or curing agent.
brine-sugar-unknown = Sugar that nobody knows makes the density say nothing about salt. Say how many per cent of the brine is sugar, or 0 where nothing but salt is dissolved in it: no sugar, syrup, phosphate or curing agent.
brine-no-brine = There is no brine in the vessel: it weighs no more than empty. Weigh it empty, then full.
brine-no-vessel = Choose a vessel of known volume first.
brine-temperature = { $value } is outside 0 to 40 °C, which is what the density tables cover.
brine-density = { $value } is not the density of a brine of salt at that temperature. Weigh it again, empty and full, and see that it is filled as it was with water.
brine-salt = { $value } is more salt than water holds: at most 35.86 % of the water.
brine-too-sweet = { $value } of sugar makes a syrup, not a brine: at most 40 %.
brine-target-zero = Adding water never makes it 0 %: say more than that.
brine-cannot = This cannot be told: { $why }.
