verdict-short = falta
verdict-on = en peso
verdict-heavy = sobra

distance-to-go = faltan { $mass }
distance-too-much = sobran { $mass }
distance-exact = exacto

mode-adding = en recipientes
mode-taking = de una cubeta

portions = { $count ->
    [one] { $count } ración
   *[other] { $count } raciones
}
