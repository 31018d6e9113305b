# Ce qui a été tapé et ne convient pas.
input-field = { $name ->
    [vessel] récipient
    [pieces] pièces
    [lost] perte
    [portions] portions
    [picture] photo
    [pictures] photos
    [mass] masse
    [loss] perte
    [volume] volume
    [formula] formule
    [stages] étapes
    [ingredients] ingrédients
    [ingredient] ingrédient
    [water] eau
    [salt] sel
    [sugar] sucre
    [temperature] température
    [density] masse volumique
    [ice] glace
    [room] place
    [target] cible
    [material] matière
    [method] méthode
    [contents] contenu
    [meat] viande
    [pickle] saumure
    [pickup] absorption
    [friction] friction
    [step] échelon
    [ratio] ratio
    [change] changement
    [amount] quantité
    [closeness] tolérance
    [shape] forme
    [unit] unité
    [dish] plat
    [time] heure
    [goods] marchandises
    [menu] menu
    [order] commande
    [item] élément
    [reason] motif
    [probe-uncertainty] incertitude de la sonde
    [volume-uncertainty] incertitude du volume
    [scale-uncertainty] incertitude de la balance
    [density-uncertainty] incertitude de la masse volumique
    [net-mass] masse nette
    [weight-after-curing] poids après salaison
    [skin-on] avec la peau
    [coldest-water] eau la plus froide
    [water-s-temperature] température de l'eau
    [ice-s-temperature] température de la glace
    [dough-s-temperature] température de la pâte
    [temperature-of-what-was-made-beforehand] température de ce qui est fait à l'avance
    [known-temperatures] températures connues
    [bath-after] bain après
    [bath-after--mass] bain après, masse
    [bath-after--within] bain après, marge
    [salt-in-the-piece] sel dans la pièce
    [salt-in-the-piece--within] sel dans la pièce, marge
    [starter--hydration] levain, hydratation
    [salt--per-cent-of-water] sel, pour cent de l'eau
    [salt--per-cent-of-solution] sel, pour cent de la solution
    [salometer] salomètre
    [salometer-degrees] degrés du salomètre
    [the-file] le fichier
    [the-file-s-name] le nom du fichier
    [raw-weight] poids cru
    [thickness] épaisseur
    [within] marge
   *[other] { $field }
}
input-line = ligne { $line }
input-line-column = ligne { $line }, colonne { $column }
input-refused = { $field } : { $value } { $problem } ; { $expected }
input-unsaid = { $field } { $problem } ; { $expected }
