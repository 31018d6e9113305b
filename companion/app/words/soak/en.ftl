# Timed brines and marinades: a piece in, and out again.
soak-heading = In a brine or a marinade
soak-none = Nothing lies in a bath
soak-choose = Touch what comes out
soak-lies = { $mass }, in since { $since }, for { $span }
soak-put-one-in = Put a piece in
soak-into = A piece goes in
soak-shape = How it lies
soak-flat = flat
soak-round = long and round
soak-kind = What it is
soak-kind-heading = What is it? For the water in it
soak-water-in-it = water { $percent } ± { $within }
soak-water-said = Something else
soak-water-said-detail = its water in per cent
soak-meat-said = water { $percent }
soak-sauces = Sauces, pastes
soak-no-sauce = none
soak-drop-sauces = No sauce
soak-say-all = Say what it is and what it lies in, and what is to be expected is told here.
soak-reckoning = Being reckoned from your own batches.
soak-put-in = Put it in
soak-of = In a bath: { $cut }
soak-on-record = Out, on record as batch { $batch }
soak-take-out = It is out
soak-not-in-bath = That piece lies in no bath any more: it is out already, or was never in.
soak-in-on = Went in on
soak-out-on = Came out on
# The table of meats; a name that is not in it does not come up.
soak-meat = { $meat ->
    [lean-muscle] Lean muscle
    [lean-beef] Lean beef
    [beef-brisket] Beef brisket
    [ground-beef] Ground beef
    [chicken-whole] Chicken, whole
    [chicken-breast-with-skin] Chicken breast, skin on
    [chicken-leg-with-skin] Chicken leg, skin on
    [pork-loin] Pork loin
    [pork-belly] Pork belly
    [turkey-breast] Turkey breast
    [duck-breast] Duck breast
    [oily-fish] Oily fish
   *[white-fish] White fish
}
