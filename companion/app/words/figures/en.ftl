# Verdicts on a portion.
verdict-short = short
verdict-on = on
verdict-heavy = heavy

# What a portion still lacks or has too much; masses come with their unit.
distance-to-go = { $mass } to go
distance-too-much = { $mass } too much
distance-exact = exact

# How portions are made.
mode-adding = into dishes
mode-taking = out of a tin

portions = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
