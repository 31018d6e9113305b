verdict-short = manque
verdict-on = au poids
verdict-heavy = en trop

distance-to-go = manque { $mass }
distance-too-much = { $mass } en trop
distance-exact = juste

mode-adding = en récipients
mode-taking = depuis un bac

portions = { $count ->
    [one] { $count } portion
   *[other] { $count } portions
}
