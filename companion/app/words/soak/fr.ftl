# Saumures et marinades à l'heure : une pièce dedans, puis dehors.
soak-heading = En saumure ou en marinade
soak-none = Rien ne trempe
soak-choose = Touchez ce qui sort
soak-lies = { $mass }, dedans depuis { $since }, depuis { $span }
soak-put-one-in = Mettre une pièce
soak-into = Une pièce entre
soak-shape = Sa forme
soak-flat = plate
soak-round = longue et ronde
soak-kind = Ce que c'est
soak-kind-heading = Qu'est-ce ? Pour l'eau qu'elle contient
soak-water-in-it = eau { $percent } ± { $within }
soak-water-said = Autre chose
soak-water-said-detail = son eau en pour cent
soak-meat-said = eau { $percent }
soak-sauces = Sauces, pâtes
soak-no-sauce = aucune
soak-drop-sauces = Sans sauce
soak-say-all = Dites ce que c'est et dans quoi, et ce qu'il faut en attendre est dit ici.
soak-reckoning = Calcul d'après vos propres préparations.
soak-put-in = La mettre
soak-of = Au bain : { $cut }
soak-on-record = Dehors, au registre comme préparation { $batch }
soak-take-out = Elle est dehors
soak-not-in-bath = Cette pièce n'est plus au bain : elle est déjà sortie, ou jamais entrée.
# La table des viandes.
soak-meat = { $meat ->
    [lean-muscle] Muscle maigre
    [lean-beef] Bœuf maigre
    [beef-brisket] Poitrine de bœuf
    [ground-beef] Bœuf haché
    [chicken-whole] Poulet entier
    [chicken-breast-with-skin] Poitrine de poulet avec peau
    [chicken-leg-with-skin] Cuisse de poulet avec peau
    [pork-loin] Longe de porc
    [pork-belly] Poitrine de porc
    [turkey-breast] Filet de dinde
    [duck-breast] Magret de canard
    [oily-fish] Poisson gras
   *[white-fish] Poisson blanc
}
soak-in-on = Entré le
soak-out-on = Sorti le
